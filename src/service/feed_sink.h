#pragma once
// Where a feed's batches go: into the live counts of its machines, together with the feed's position.

#include <functional>
#include <optional>

#include "src/feeds/batch.h"
#include "src/service/open_shop.h"

namespace hw::service {

// A feed's part of a step. The caller holds a lock on the shop.
class CountedFeed {
 public:
  virtual ~CountedFeed() = default;
  // The positions behind all that has been counted, those that moved since they were stored.
  virtual void add_positions(CountingStep& step) const = 0;
  // All of the step is on disk.
  virtual void stored(const CountingStep& step) = 0;
};

class FeedSink : public feeds::Sink, public CountedFeed {
 public:
  FeedSink(OpenShop& shop, std::string feed, std::optional<feeds::Position> position,
           std::function<void(std::string_view)> report)
      : shop_(shop),
        feed_(std::move(feed)),
        position_(position.value_or(feeds::Position{})),
        report_(std::move(report)) {}

  // Counted in memory when it returns; stored by the next store_counting. Machines that the shop does not have are left
  // out.
  Result<void> take(const feeds::Batch& batch) override;

  const std::string& feed() const { return feed_; }
  // Why the feed brings nothing for this machine although the agent answers; nothing when it does. The caller holds a
  // lock.
  std::optional<Error> trouble_of(const OpenMachine& machine) const;
  // The position behind all that has been counted. The caller holds a lock on the shop.
  FeedPosition position() const { return {feed_, position_.instance_id, position_.next_sequence, alive_at_}; }
  void add_positions(CountingStep& step) const override;
  void stored(const CountingStep& step) override;

 private:
  OpenMachine* machine_of(std::string_view name);
  void take_models(const std::vector<counters::MachineModel>& models, Instant now);

  OpenShop& shop_;
  std::string feed_;
  std::vector<std::string> devices_;  // of the agent, by name; empty until it has told them
  feeds::Position position_;
  Instant alive_at_;
  std::optional<FeedPosition> stored_;
  std::function<void(std::string_view)> report_;
};

// Stores what all machines counted since the last time, with the positions of their feeds, in one transaction. What
// could not be stored is stored next time.
Result<void> store_counting(OpenShop& shop, const std::vector<CountedFeed*>& feeds, Instant now);

}  // namespace hw::service
