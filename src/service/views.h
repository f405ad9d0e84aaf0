#pragma once
// What the service tells, in the words and fields of api/openapi.yaml: one struct for one schema there.

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "libs/formats/json_types.h"
#include "libs/values/instant.h"
#include "libs/values/local_date.h"
#include "src/catalogue/kind_service.h"
#include "src/service/entry_body.h"
#include "src/service/task_text.h"

namespace hw::service {

using formats::OrNull;

struct TitledView {
  std::string key;
  std::string title;
};
BOOST_DESCRIBE_STRUCT(TitledView, (), (key, title))

struct KindView {
  std::string key;
  std::string title;
  std::string title_de;
  std::vector<catalogue::KindService> services;
};
BOOST_DESCRIBE_STRUCT(KindView, (), (key, title, title_de, services))

struct PersonView {
  std::string name;
  std::string skill;
};
BOOST_DESCRIBE_STRUCT(PersonView, (), (name, skill))

struct CounterWordView {
  std::string key;
  std::string title;
  std::string unit;
  std::string definition;
};
BOOST_DESCRIBE_STRUCT(CounterWordView, (), (key, title, unit, definition))

struct PlantView {
  std::string name;
  std::string zone;
  LocalDate today;
};
BOOST_DESCRIBE_STRUCT(PlantView, (), (name, zone, today))

struct ShopView {
  PlantView plant;
  std::vector<TitledView> cells;
  std::vector<KindView> kinds;
  std::vector<PersonView> people;
  std::vector<CounterWordView> counter_words;
  std::string currency;
  bool loopback_only = true;
  bool group = false;            // the group's own site, which has no machines
  bool kept_at_edge = false;     // the record is kept at the plant itself; this is what came from there
  OrNull<Instant> from_edge_at;  // the moment of which it is
  std::string version;
};
BOOST_DESCRIBE_STRUCT(ShopView, (),
                      (plant, cells, kinds, people, counter_words, currency, loopback_only, group, kept_at_edge,
                       from_edge_at, version))

struct DoingView {
  std::string state;
  OrNull<Instant> since;
};
BOOST_DESCRIBE_STRUCT(DoingView, (), (state, since))

struct FeedView {
  std::string state;
  OrNull<Instant> last_sign_at;
  std::int64_t behind = 0;
  std::string says;
  std::optional<Saying> saying = {};
};
BOOST_DESCRIBE_STRUCT(FeedView, (), (state, last_sign_at, behind, says, saying))

struct CounterView {
  std::string key;
  std::string title;
  std::string unit;
  std::string definition;
  double counted = 0;
  double unknown_h = 0;
  double filled = 0;
  double adjusted = 0;
  double total = 0;
  double today = 0;
  double today_unknown_h = 0;
  OrNull<Instant> since;
};
BOOST_DESCRIBE_STRUCT(CounterView, (),
                      (key, title, unit, definition, counted, unknown_h, filled, adjusted, total, today,
                       today_unknown_h, since))

struct CounterDayView {
  LocalDate date;
  double counted = 0;
  double unknown_h = 0;
  double filled = 0;
};
BOOST_DESCRIBE_STRUCT(CounterDayView, (), (date, counted, unknown_h, filled))

struct CounterDaysView {
  std::string machine;
  std::string counter;
  std::string unit;
  std::vector<CounterDayView> days;
};
BOOST_DESCRIBE_STRUCT(CounterDaysView, (), (machine, counter, unit, days))

// What an entry's sentence says beside the entry's other fields.
struct EntryTold {
  std::optional<std::string> title;
  std::optional<int> version;
  std::optional<DisplayTold> display;
  std::optional<int> checks;
  std::optional<std::string> what;
  std::optional<std::string> severity;
  std::optional<std::string> owner;
  std::optional<std::string> due_on;
  std::optional<std::string> settling_task;
  std::optional<Saying> unlinked;
  std::optional<std::string> done;
  std::optional<std::string> why;
  std::optional<std::int64_t> corrects_ordinal;
  std::optional<std::string> right;
  std::optional<std::vector<PointPlace>> points;
  std::optional<std::vector<int>> order;
  std::optional<UseChangeText> use;
  std::optional<StopTold> stop;
  std::optional<IntervalMoved> interval;
  std::optional<StoresTold> stores;
};
BOOST_DESCRIBE_STRUCT(EntryTold, (),
                      (title, version, display, checks, what, severity, owner, due_on, settling_task, unlinked, done,
                       why, corrects_ordinal, right, points, order, use, stop, interval, stores))

struct EntryView {
  std::string id;
  std::int64_t ordinal = 0;
  std::string kind;
  std::string machine;
  std::optional<std::string> task;
  std::string by;
  Instant at;
  std::optional<Instant> device_at;
  std::optional<double> device_off_s;
  Instant happened_at;
  std::string says;
  std::optional<std::string> note;
  std::map<std::string, double> counters;
  std::optional<Instant> undo_until;
  std::optional<bool> undone;
  std::optional<std::string> walk;
  std::optional<std::string> rhythm;
  std::optional<std::vector<GivenAnswer>> answers;
  std::optional<std::string> finding;
  std::optional<std::vector<PhotoName>> photos;
  std::optional<std::string> corrects;
  std::optional<std::vector<std::string>> corrected_by;
  std::optional<std::string> stray;
  std::optional<Saying> stray_saying;
  std::optional<std::string> stop;
  std::optional<TaskDoing> doing;
  std::optional<EntryTold> told;
};
BOOST_DESCRIBE_STRUCT(EntryView, (),
                      (id, ordinal, kind, machine, task, by, at, device_at, device_off_s, happened_at, says, note,
                       counters, undo_until, undone, walk, rhythm, answers, finding, photos, corrects, corrected_by,
                       stray, stray_saying, stop, doing, told))

struct ReadingDue;  // reading_triggers.h

struct TriggerView {
  std::optional<std::string> counter;
  std::optional<std::string> unit;
  std::optional<double> interval;
  std::optional<double> heads_up;
  std::optional<double> tolerance;
  std::optional<double> used;
  std::optional<double> left;
  std::optional<double> counter_now;
  std::optional<double> counter_then;
  std::optional<std::string> calendar;
  std::optional<int> heads_up_days;
  std::optional<int> tolerance_days;
  std::optional<LocalDate> due_on;
  std::optional<int> days_left;
  std::optional<std::string> reading;
  std::optional<std::string> of;
  std::optional<std::string> limit;
  std::optional<double> limit_at;    // the one that is beyond, or nearest to the last value
  std::optional<double> last_value;  // since the task was last done; nothing: not read since
  std::optional<LocalDate> read_on;
  std::string state;
  double share_used = 0;
  bool leads = false;
  std::shared_ptr<const ReadingDue> reading_due = {};  // of a reading; told by the forecast, not here
};
BOOST_DESCRIBE_STRUCT(TriggerView, (),
                      (counter, unit, interval, heads_up, tolerance, used, left, counter_now, counter_then, calendar,
                       heads_up_days, tolerance_days, due_on, days_left, reading, of, limit, limit_at, last_value,
                       read_on, state, share_used, leads))

struct TaskView {
  std::string key;
  std::string machine;
  std::string title;
  std::string assembly;
  std::optional<int> point;
  std::string work;
  std::string skill;
  std::string energy;
  double minutes = 0;
  std::vector<TriggerView> triggers;
  std::string state;
  bool own = false;
  std::vector<std::string> steps;
  std::string reason;
  std::string caution;
  std::vector<PartText> parts;
  std::optional<std::vector<TaskReadingText>> readings;
  std::optional<std::string> quantity_unit;
  std::optional<std::vector<std::string>> after;
  std::optional<std::string> demanded_by;
  std::optional<PartCostsText> costs;
  int version = 1;
  std::optional<EntryView> last_done;
  Instant began_at;
};
BOOST_DESCRIBE_STRUCT(TaskView, (),
                      (key, machine, title, assembly, point, work, skill, energy, minutes, triggers, state, own, steps,
                       reason, caution, parts, readings, quantity_unit, after, demanded_by, costs, version, last_done,
                       began_at))

struct TallyView {
  int in_hand = 0;
  int coming = 0;
  int due = 0;
  int overdue = 0;
};
BOOST_DESCRIBE_STRUCT(TallyView, (), (in_hand, coming, due, overdue))

// Where a machine's round stands in the turn that runs.
struct RoundStandingView {
  std::string rhythm;
  std::string state;
};
BOOST_DESCRIBE_STRUCT(RoundStandingView, (), (rhythm, state))

struct NextStopView {
  std::string id;
  LocalDate on;
  std::string shift;
  std::string energy;
  std::optional<std::string> kit;  // ready, coming, short, not known
};
BOOST_DESCRIBE_STRUCT(NextStopView, (), (id, on, shift, energy, kit))

struct FloorMachineView {
  std::string key;
  std::string name;
  std::string kind;
  std::string cell;
  DoingView doing;
  FeedView feed;
  std::vector<CounterView> counters;
  OrNull<TaskView> nearest;
  TallyView tally;
  std::vector<std::string> findings;  // severities of the open ones
  std::vector<RoundStandingView> rounds;
  OrNull<NextStopView> next_stop;
};
BOOST_DESCRIBE_STRUCT(FloorMachineView, (),
                      (key, name, kind, cell, doing, feed, counters, nearest, tally, findings, rounds, next_stop))

struct FloorView {
  Instant now;
  std::vector<FloorMachineView> machines;
};
BOOST_DESCRIBE_STRUCT(FloorView, (), (now, machines))

struct PointView {
  int number = 0;
  std::string assembly;
  std::string title;
  double x = 0;
  double y = 0;
};
BOOST_DESCRIBE_STRUCT(PointView, (), (number, assembly, title, x, y))

struct HourReadingView {
  std::string id;
  std::string counter;
  double display_h = 0;
  Instant read_at;
  std::string by;
  double counted_h = 0;
  double offset_h = 0;
  double difference_h = 0;
  std::string state;
  std::string says;
  std::optional<Saying> saying;
  std::optional<std::string> settled_as;
};
BOOST_DESCRIBE_STRUCT(HourReadingView, (),
                      (id, counter, display_h, read_at, by, counted_h, offset_h, difference_h, state, says, saying,
                       settled_as))

struct FindingView {
  std::string id;
  std::string machine;
  std::string what;
  std::string severity;
  std::string state;
  OrNull<std::string> owner;
  OrNull<LocalDate> due_on;
  OrNull<std::string> task;  // that will settle it
  std::optional<int> point;
  std::optional<std::string> check;
  std::optional<std::string> walk;
  std::string by;
  Instant at;
  std::vector<PhotoName> photos;
  std::optional<std::string> settled_by;
  std::optional<Instant> settled_at;
  std::optional<std::string> done;
};
BOOST_DESCRIBE_STRUCT(FindingView, (),
                      (id, machine, what, severity, state, owner, due_on, task, point, check, walk, by, at, photos,
                       settled_by, settled_at, done))

struct FindingsView {
  std::vector<FindingView> findings;
};
BOOST_DESCRIBE_STRUCT(FindingsView, (), (findings))

struct FindingHistoryView {
  FindingView finding;
  std::vector<EntryView> entries;
};
BOOST_DESCRIBE_STRUCT(FindingHistoryView, (), (finding, entries))

struct LogbookView {
  std::vector<EntryView> entries;
  bool more = false;
  std::int64_t strays = 0;
};
BOOST_DESCRIBE_STRUCT(LogbookView, (), (entries, more, strays))

struct PhotoView {
  std::string id;
  std::string sha256;
  std::int64_t bytes = 0;
};
BOOST_DESCRIBE_STRUCT(PhotoView, (), (id, sha256, bytes))

struct MachineView {
  std::string key;
  std::string name;
  std::string kind;
  std::string cell;
  std::string note;
  std::optional<int> year;
  DoingView doing;
  FeedView feed;
  std::vector<CounterView> counters;
  std::vector<TitledView> assemblies;
  std::vector<PointView> points;
  std::vector<int> walk;
  bool walk_by_hand = false;
  std::vector<FindingView> findings;
  std::vector<TaskView> tasks;
  std::vector<TaskView> retired;
  std::vector<EntryView> entries;
  std::vector<HourReadingView> hour_readings;
};
BOOST_DESCRIBE_STRUCT(MachineView, (),
                      (key, name, kind, cell, note, year, doing, feed, counters, assemblies, points, walk, walk_by_hand,
                       findings, tasks, retired, entries, hour_readings))

}  // namespace hw::service
