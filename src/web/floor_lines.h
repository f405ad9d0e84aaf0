#pragma once
// What the Floor says of each machine, printed, kept until it changes: whoever asks next gets the same text.

#include <cstdint>
#include <mutex>
#include <string>
#include <vector>

#include "libs/http/message.h"
#include "src/service/open_shop.h"

namespace hw::web {

// For several threads at once. The shop outlives it.
class FloorLines {
 public:
  // Held values count on by themselves: a line that nothing changed is made anew when it is so old.
  static constexpr Duration lasts = Duration::seconds(2);

  explicit FloorLines(const service::OpenShop& shop);

  // The JSON of a FloorView with the machines that the request may see. Its `now` may be this much earlier.
  static constexpr Duration now_within = Duration::millis(250);
  http::SharedBytes floor(const http::Request& request, Instant now);
  // The JSON of one machine's FloorMachineView. The caller holds a lock on the shop, whose `place`th machine it is.
  http::SharedBytes line(std::size_t place, Instant now);
  // Makes every line anew, one by one, while somebody looks: whoever asks then finds it made.
  void refresh(Instant now);

 private:
  struct Key {
    std::uint64_t counts = 0;
    std::uint64_t tasks = 0;
    std::uint64_t stores = 0;
    std::int64_t minute = 0;  // by the calendar alone a task falls due without any change
    bool operator==(const Key&) const = default;
  };
  struct Kept {
    Key key;
    Instant made_at;
    http::SharedBytes text;
  };
  // The caller holds both locks.
  const http::SharedBytes& fresh(std::size_t place, Instant now, Duration lasting);
  std::string together(const http::Request& request, Instant now);

  const service::OpenShop& shop_;
  std::mutex mutex_;  // taken after the shop's
  std::vector<Kept> kept_;
  std::uint64_t made_ = 0;  // lines ever
  Instant asked_at_;
  // The whole Floor, while no line has been made since.
  http::SharedBytes whole_;
  std::uint64_t whole_made_ = 0;
  Instant whole_at_;
};

}  // namespace hw::web
