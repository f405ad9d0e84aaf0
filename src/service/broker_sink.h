#pragma once
// Where the batches of a feed over a broker go: into the live counts of its machines, each with a position of its own.

#include <functional>
#include <string>
#include <unordered_map>
#include <vector>

#include "src/feeds/broker_state.h"
#include "src/service/feed_sink.h"

namespace hw::service {

class BrokerSink : public feeds::RunSink, public CountedFeed {
 public:
  // The machines of the shop behind that feed; `positions` are the stored ones.
  BrokerSink(OpenShop& shop, std::string feed, const std::vector<MessagePosition>& positions,
             std::function<void(std::string_view)> report);

  // Told what is on disk; on whatever thread stores. Before the feed runs.
  void set_on_stored(std::function<void(const std::string& device, const feeds::RunPosition&)> on_stored) {
    on_stored_ = std::move(on_stored);
  }
  // What the feed goes on from.
  std::vector<feeds::FollowedMachine> followed() const;

  // Counted in memory when it returns; stored by the next store_counting.
  void take(const feeds::RunBatch& batch) override;

  void add_positions(CountingStep& step) const override;
  void stored(const CountingStep& step) override;

 private:
  struct Machine {
    OpenMachine* open = nullptr;
    feeds::RunPosition position;
    feeds::RunPosition stored;
  };
  void tell(const feeds::RunBatch& batch) const;

  OpenShop& shop_;
  std::string feed_;
  std::unordered_map<std::string, Machine> machines_;       // by device
  std::unordered_map<std::string, std::string> device_of_;  // by the machine's key
  std::function<void(std::string_view)> report_;
  std::function<void(const std::string&, const feeds::RunPosition&)> on_stored_;
};

}  // namespace hw::service
