#pragma once
// From the logbook to life data: what is known of the lives of one kind of part, over all machines of a kind. A part is
// named by the task that replaces or overhauls it; its lives are counted on the counter that the task counts on, or in
// days where it counts on the calendar alone. See src/life/part_lives.h for what an entry tells of a life.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "src/life/part_lives.h"
#include "src/service/open_shop.h"

namespace hw::service {

struct PartName {
  std::string kind;
  std::string task;
  auto operator<=>(const PartName&) const = default;
};

// The parts of all kinds of machines that are in use: tasks not retired, of the work types replace and overhaul. In the
// order of kinds and tasks. The caller holds a lock.
std::vector<PartName> parts_of(const OpenShop& shop);

// One machine's task that looks after the part.
struct PartPlace {
  std::string machine;
  int version = 1;
  std::optional<double> interval;  // on the part's counter
};

struct SeenLife {
  std::string machine;
  std::optional<std::string> entry;  // that ended it; nothing: it runs
  std::optional<Instant> ended_at;
  life::Found found = life::Found::unsaid;  // of one that has ended
  life::Observed life;
};

enum class WhyLeftOut { age_unknown, not_said, no_use, no_counter, corrected };
BOOST_DESCRIBE_ENUM(WhyLeftOut, age_unknown, not_said, no_use, no_counter, corrected)

struct LeftOutLife {
  std::string machine;
  std::string entry;
  Instant at;
  WhyLeftOut why = WhyLeftOut::age_unknown;
};

struct LivesOfPart {
  PartName name;
  catalogue::Task task;                // as the first of the machines has it
  bool is_own = false;                 // the plant's own task, not its library's; of that machine
  std::optional<std::string> counter;  // nothing: days
  std::string unit;                    // h, rev, m ... or d
  std::vector<PartPlace> places;
  std::vector<SeenLife> lives;
  std::vector<LeftOutLife> left_out;
};

// Where machines of the kind have the task on different counters, the first machine's counter counts for all. Entries
// that somebody corrected are left out: what is right stands there in words only. The caller holds no lock. Errors:
// not_found where no machine of the kind has such a task; what the store refuses.
Result<LivesOfPart> lives_of_part(const OpenShop& shop, const PartName& name, Instant now);

}  // namespace hw::service
