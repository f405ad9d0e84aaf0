#pragma once
// A plant's edge tells its group what has changed, again and again, until it is stopped. Whatever breaks off on the
// way, the next try goes on from what has arrived; a shipment is forgotten only once the group says that it has it.

#include <condition_variable>
#include <functional>
#include <mutex>
#include <string>
#include <thread>

#include "libs/http/client.h"
#include "src/feeds/back_off.h"
#include "src/service/open_shop.h"

namespace hw::service {

struct Upward {
  http::Url group;  // of the plant's own site there: http://north.shops.example:8470
  std::string token;
  std::string ca_file = {};  // see http::GetOptions
  Duration every = Duration::seconds(10);
  Duration wait_max = Duration::seconds(60);  // between two tries, however long the group is away
  std::size_t piece_bytes = std::size_t{256} << 10;
  std::function<Instant()> clock;
  std::function<void(std::string_view)> report;  // told each new trouble, in a sentence
};

// Sends what there is. A value: the group has all that had changed when this began. Refuses what asking the group
// refuses, and what it refuses.
Result<void> send_once(Shipments& shipments, const Upward& upward, const http::CancelToken& cancel);

class SendUpward {
 public:
  SendUpward(OpenShop& shop, Shipments& shipments, Upward upward);
  ~SendUpward();  // ends a try that is under way

 private:
  void run();
  Duration look();

  OpenShop& shop_;
  Shipments& shipments_;
  Upward upward_;
  UpwardState state_;
  feeds::BackOff back_off_;
  http::CancelToken cancel_;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool is_stopping_ = false;
  std::thread thread_;  // last: it uses all the others
};

}  // namespace hw::service
