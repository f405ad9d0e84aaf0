#pragma once
// The plants of a group on one Floor, as the servers that hold them last told.

#include <cstdint>
#include <map>
#include <mutex>
#include <string>
#include <vector>

#include "libs/http/message.h"
#include "libs/values/instant.h"
#include "src/service/plants.h"

namespace hw::web {

// For several threads at once.
class GroupLines {
 public:
  // Which version of each plant's line is known: see service::Plants::published.
  std::map<std::string, std::int64_t> known() const;
  // The plants as they are, and lines that are new. Whether anything is other than before.
  bool take(const std::vector<service::PlantSeen>& plants, std::vector<service::PublishedLine> lines);
  // The JSON of a GroupFloor. Its `now` may be this much earlier.
  static constexpr Duration now_within = Duration::millis(500);
  http::SharedBytes floor(Instant now);
  // The JSON of GroupVisits.
  std::string visits(Instant now) const;

 private:
  struct Line {
    std::int64_t version = 0;
    std::string text;    // the JSON of a PlantLineView
    std::string visits;  // of its visits; null of a server that tells of none
  };
  mutable std::mutex mutex_;
  std::vector<service::PlantSeen> plants_;
  std::map<std::string, Line> lines_;
  std::string plants_text_ = "[]";  // the list of plants as JSON
  bool is_told_ = false;
  http::SharedBytes floor_;  // as it was last asked for; none: something has changed since
  Instant floor_at_;
};

}  // namespace hw::web
