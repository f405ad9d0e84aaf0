#include "src/simulate/demo_findings.h"

#include <algorithm>
#include <array>

#include "libs/values/sha256.h"
#include "src/service/finding_entries.h"
#include "src/simulate/demo_people.h"
#include "src/simulate/drawn_photo.h"

namespace hw::simulate {
namespace {

using service::Entry;
using service::Severity;

// One finding as it is told here; empty or nothing: not so.
struct Story {
  std::string_view machine = {};
  std::string_view what = {};
  Severity severity = Severity::watch;
  std::size_t found_by = 0;               // the nth of the operators
  std::optional<std::size_t> owner = {};  // the nth of the technicians; the first is the lead
  double found_days_ago = 0;
  std::optional<int> due_in_days = {};         // before today: overdue
  std::optional<double> raised_days_ago = {};  // then it became more severe: at the next stop
  std::optional<double> settled_days_ago = {};
  std::string_view done = {};
  bool has_photo = false;
};

const std::array<Story, 9>& stories() {
  static const std::array<Story, 9> all{{
      {"m01",
       "Coolant drips from the hose at the pallet changer",
       Severity::before_next_shift,
       0,
       1,
       12.1,
       -11,
       {},
       11.2,
       "Hose clamp replaced; dry after one shift"},
      {"m02",
       "Coolant runs down from the tank's seam, a puddle on the floor",
       Severity::before_next_shift,
       1,
       2,
       1.3,
       1,
       {},
       {},
       "",
       true},
      {"m03", "Chip conveyor chatters at the discharge; sand under the belt", Severity::at_the_next_stop, 2, 1, 3.2, 5},
      {"m06", "No oil film on the left way in the morning", Severity::before_next_shift, 3, 2, 0.9, 0},
      {"m10", "Fan of the oil chiller is louder than last week", Severity::watch, 4, {}, 6.4, {}},
      {"m16", "Window of the door is crazed along its lower edge", Severity::stop_the_machine, 5, 0, 0.1, 0},
      {"m19", "Sight glass of the hydraulic unit can hardly be read", Severity::at_the_next_stop, 6, 1, 15.5, -4},
      {"m22",
       "Grinding sludge stands in the return channel",
       Severity::watch,
       7,
       2,
       20.2,
       {},
       14.3,
       5.1,
       "Channel emptied, magnet drum cleaned"},
      {"m24",
       "Paper band of the filter runs to one side",
       Severity::watch,
       0,
       1,
       30.4,
       {},
       {},
       28.2,
       "Guide set right; straight over a whole roll"},
  }};
  return all;
}

// The nth person of that skill, counted round.
std::string nth(const service::ShopRecord& shop, catalogue::Skill skill, std::size_t n) {
  std::vector<std::string> able;
  for (const auto& person : shop.people) {
    if (person.skill == skill) able.push_back(person.name);
  }
  return able.empty() ? "somebody" : able[n % able.size()];
}

// Tells one story in entries.
class Telling {
 public:
  Telling(const Story& story, const service::ShopRecord& shop, const DemoUse& use, std::uint64_t seed, Instant now)
      : story_(story), shop_(shop), use_(use), dice_(mix(seed, hash_of(story.what))), now_(now) {}

  DemoFindings tell() {
    const service::Finding finding = make();
    if (story_.raised_days_ago) raise(finding);
    if (story_.settled_days_ago) settle(finding);
    return std::move(told_);
  }

 private:
  std::string owner() const { return nth(shop_, catalogue::Skill::technician, *story_.owner); }

  Entry entry(std::string_view kind, double days_ago, std::string by) {
    Entry entry;
    entry.at = entry.happened_at =
        Instant::from_millis((now_ - Duration::seconds(static_cast<std::int64_t>(days_ago * 86400))).as_millis());
    entry.device_at = entry.at;
    entry.id = uuid_of(dice_, entry.at);
    entry.kind = kind;
    entry.machine = story_.machine;
    entry.by = std::move(by);
    entry.counters = use_.totals_ago(days_ago);
    return entry;
  }

  service::Finding make() {
    Entry made =
        entry("finding made", story_.found_days_ago, nth(shop_, catalogue::Skill::machine_operator, story_.found_by));
    service::FindingEdit edit;
    edit.what = story_.what;
    edit.severity = story_.severity;
    if (story_.owner) edit.owner = owner();
    if (story_.due_in_days) edit.due_on = shop_.calendar.zone.date_of(now_) + *story_.due_in_days;
    if (story_.has_photo) edit.photos = std::vector{add_photo(made.at)};
    tell_made(made, edit);
    told_.entries.push_back(made);
    service::Finding finding;
    finding.id = made.id;
    finding.what = edit.what;
    return finding;
  }

  service::PhotoName add_photo(Instant at) {
    std::string bytes = print_png(draw_leak());
    service::Photo photo{uuid_of(dice_, at), print_hex(sha256(bytes)), {}};
    photo.bytes = std::move(bytes);
    service::PhotoName name{photo.id, photo.sha256};
    told_.photos.push_back(std::move(photo));
    return name;
  }

  void raise(const service::Finding& finding) {
    service::FindingChange change;
    change.severity = Severity::at_the_next_stop;
    Entry raised = entry("finding changed", *story_.raised_days_ago, owner());
    tell_changed(raised, finding, change);
    told_.entries.push_back(std::move(raised));
  }

  void settle(const service::Finding& finding) {
    service::FindingSettle edit;
    edit.done = story_.done;
    Entry settled = entry("finding settled", *story_.settled_days_ago, owner());
    tell_settled(settled, finding, edit);
    told_.entries.push_back(std::move(settled));
  }

  const Story& story_;
  const service::ShopRecord& shop_;
  const DemoUse& use_;
  Dice dice_;
  Instant now_;
  DemoFindings told_;
};

}  // namespace

DemoFindings demo_findings(const service::MachineRecord& machine, const service::ShopRecord& shop, const DemoUse& use,
                           std::uint64_t seed, Instant now) {
  DemoFindings all;
  for (const Story& story : stories()) {
    if (story.machine != machine.machine.key) continue;
    DemoFindings told = Telling(story, shop, use, seed, now).tell();
    std::move(told.entries.begin(), told.entries.end(), std::back_inserter(all.entries));
    std::move(told.photos.begin(), told.photos.end(), std::back_inserter(all.photos));
  }
  return all;
}

}  // namespace hw::simulate
