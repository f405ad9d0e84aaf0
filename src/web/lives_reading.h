#pragma once
// Reads the lives of a group's plants from the database they share, whoever holds them: one plant a step at most, where
// its logbook has a newer entry or a day is over, so that however many plants there are the database and the others
// hardly notice. And one kind of part a step is worked out of what has changed.

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "src/service/group_lives.h"
#include "src/service/plants.h"

namespace hw::web {

class LivesReading {
 public:
  LivesReading(service::Plants& plants, service::GroupLives& lives, std::function<void(std::string_view)> report)
      : plants_(plants), lives_(lives), report_(std::move(report)) {}

  // Looks at the next plants (looked_at_most of them), and reads one of them anew where one has changed. A plant that
  // cannot be read is reported, and tried again a day or an entry later. Called by one thread.
  void step(const std::vector<service::PlantSeen>& plants, Instant now);

  static constexpr std::size_t looked_at_most = 25;

 private:
  // What a plant was read by.
  struct ReadAt {
    std::string newest_entry;
    std::int64_t day = 0;
    std::string title;
    bool operator==(const ReadAt&) const = default;
  };
  Result<bool> read_if_changed(const service::PlantSeen& plant, Instant now);

  service::Plants& plants_;
  service::GroupLives& lives_;
  std::function<void(std::string_view)> report_;
  std::map<std::string, ReadAt> read_at_;
  std::size_t next_ = 0;
};

}  // namespace hw::web
