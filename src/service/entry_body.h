#pragma once
// What an entry holds beside its sentence: the round, the answers, the finding, the photos. It is kept as JSON in the
// entry's row and sealed with it; what a kind of entry has no use for is left out. Every table about walks, answers,
// findings and stops follows from entries and their bodies, and can be made again from them.

#include <optional>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "libs/formats/json_types.h"
#include "libs/values/instant.h"
#include "libs/values/local_date.h"
#include "libs/values/saying.h"
#include "src/service/stores_text.h"

namespace hw::service {

// A photo by the id that its maker gave it, and what it must be: the SHA-256 of its bytes in hexadecimal digits.
struct PhotoName {
  std::string id;
  std::string sha256;
};
BOOST_DESCRIBE_STRUCT(PhotoName, (), (id, sha256))

// What somebody found at one check, in the words that stood at the check then.
struct GivenAnswer {
  std::string check;                     // the check's key
  std::optional<std::string> task = {};  // absent where the check was not there (any more)
  std::string kind;                      // look, reading, clean, top up
  std::string title;
  std::optional<std::string> answer = {};  // "as it should be", "not so"
  std::optional<double> value = {};        // of a reading, in `unit`
  std::optional<std::string> unit = {};
  std::optional<std::string> state = {};  // of a reading that was read: see condition::word_of
  std::optional<std::string> says = {};   // the judgement in a sentence
  std::optional<double> limit = {};       // that the value is beyond
  std::optional<double> quantity = {};    // filled in, in `quantity_unit`
  std::optional<std::string> quantity_unit = {};
  std::optional<std::string> note = {};
};
BOOST_DESCRIBE_STRUCT(GivenAnswer, (),
                      (check, task, kind, title, answer, value, unit, state, says, limit, quantity, quantity_unit,
                       note))

// Where a point is on its machine's plan, 0 to 1 from the left and from the back.
struct PointPlace {
  int number = 0;
  double x = 0;
  double y = 0;
};
BOOST_DESCRIBE_STRUCT(PointPlace, (), (number, x, y))

// An announced change of use; why stands in the entry's `why`.
struct UseChangeText {
  LocalDate from;
  std::optional<LocalDate> until;  // the last day
  double factor = 1;
};
BOOST_DESCRIBE_STRUCT(UseChangeText, (), (from, until, factor))

// An hour display as it was read, or what was said of a reading later.
struct DisplayTold {
  std::string counter;
  double display_h = 0;
  std::optional<Saying> verdict = {};
  std::optional<std::string> settled_as = {};
};
BOOST_DESCRIBE_STRUCT(DisplayTold, (), (counter, display_h, verdict, settled_as))

// A task of a stop as it was when somebody named it, in the words of the catalogue.
struct PlannedTask {
  std::string task;
  std::string title = {};
  std::string assembly = {};
  std::optional<int> point = {};
  std::string work = {};
  std::string skill = {};
  std::string energy = {};
  double minutes = 0;  // hands on
};
BOOST_DESCRIBE_STRUCT(PlannedTask, (), (task, title, assembly, point, work, skill, energy, minutes))

// When a stop is and what is done in it.
struct StopPlan {
  LocalDate on = {};       // the plant's day on which the shift begins
  std::string shift = {};  // its name; of a plant without shifts empty
  Instant begins_at = {};
  Instant ends_at = {};
  std::vector<PlannedTask> tasks = {};
  std::string note = {};
};
BOOST_DESCRIBE_STRUCT(StopPlan, (), (on, shift, begins_at, ends_at, tasks, note))

// When the machine was given to maintenance and taken back, as the person said.
struct StopTimes {
  Instant began_at;
  Instant ended_at;
};
BOOST_DESCRIBE_STRUCT(StopTimes, (), (began_at, ended_at))

// A value that was read when a task was done.
struct ReadValue {
  std::string what;  // of the task's readings
  std::string unit;
  double value = 0;
};
BOOST_DESCRIBE_STRUCT(ReadValue, (), (what, unit, value))

// What a part was like when it was opened or replaced.
enum class AsFound { good, worn, failed };
BOOST_DESCRIBE_ENUM(AsFound, good, worn, failed)

// What the person who did a task said of it.
struct TaskDoing {
  std::optional<AsFound> as_found = {};
  std::optional<double> minutes = {};  // hands on
  std::optional<std::vector<ReadValue>> readings = {};
  std::optional<double> quantity = {};  // filled in, in `quantity_unit`
  std::optional<std::string> quantity_unit = {};
};
BOOST_DESCRIBE_STRUCT(TaskDoing, (), (as_found, minutes, readings, quantity, quantity_unit))

// What the sentence of an entry about a stop says: which stop, as it was then, and what came of it.
struct StopTold {
  LocalDate on;
  std::string shift;
  std::optional<LocalDate> to_on = {};                 // of a change
  std::optional<std::string> to_shift = {};            // of a change
  std::optional<std::vector<std::string>> tasks = {};  // their titles: all of them, where they were said
  std::optional<int> done = {};                        // of a closing: so many ...
  std::optional<int> of = {};                          // ... of so many tasks
};
BOOST_DESCRIBE_STRUCT(StopTold, (), (on, shift, to_on, to_shift, tasks, done, of))

// An interval that a person moved, with what it rested on then.
struct IntervalMoved {
  std::string counter;
  std::string unit;
  double from = 0;
  double to = 0;
  int lives = 0;     // of all machines of the kind
  int failures = 0;  // of them
  double shape = 0;  // of the likeliest Weibull distribution
  double scale = 0;
  double planned = 0;  // cost of a planned replacement and of one after a failure, in `currency`
  double failed = 0;
  std::string currency;
  double saving_per_year = 0;  // of all machines of the kind, expected; below 0: it costs
  double saving_5 = 0;         // with a chance of 5 % less than this
  double saving_95 = 0;
  double chance = 0;                            // that it saves anything
  std::optional<std::string> demanded_by = {};  // safety, law, warranty
  std::optional<std::string> despite = {};      // why it was lengthened all the same
};
BOOST_DESCRIBE_STRUCT(IntervalMoved, (),
                      (counter, unit, from, to, lives, failures, shape, scale, planned, failed, currency,
                       saving_per_year, saving_5, saving_95, chance, demanded_by, despite))

struct EntryBody {
  std::optional<double> device_off_s;              // the device's clock was ahead by that much; below zero: behind
  std::optional<std::string> walk;                 // the id of the entry "round begun" that it belongs to
  std::optional<std::string> rhythm;               // of the round
  std::optional<std::vector<std::string>> checks;  // of "round begun": what the walk set out to answer
  std::optional<std::vector<GivenAnswer>> answers;
  std::optional<std::string> finding;  // the id of the entry "finding made" that it is about
  std::optional<std::string> what;     // of "finding made", as are point and check
  std::optional<int> point;
  std::optional<std::string> check;
  std::optional<std::string> severity;
  std::optional<std::string> owner;          // empty: nobody any more
  std::optional<std::string> due_on;         // empty: no day any more
  std::optional<std::string> settling_task;  // empty: none any more
  std::optional<std::string> done;           // of "finding settled"
  std::optional<std::string> why;            // of "finding reopened", "stop withdrawn"
  std::optional<std::vector<PhotoName>> photos;
  std::optional<std::string> corrects;            // of "correction": the entry of which it says what is right
  std::optional<std::string> stray;               // why it could not count for what it was meant for
  std::optional<std::vector<PointPlace>> points;  // of "points moved"
  std::optional<UseChangeText> use;               // of "use announced" and "use withdrawn"
  std::optional<std::vector<int>> order;          // of "walk changed"; empty: computed from the points' places
  std::optional<std::string> title;               // of the task or finding that it is about, as it was called then
  std::optional<int> version;                     // of the task that was added, changed or retired
  std::optional<DisplayTold> display;             // of "hours read" and "hours settled"
  std::optional<std::int64_t> corrects_ordinal;   // of "correction", as is right
  std::optional<std::string> right;
  std::optional<Saying> unlinked;         // of "finding made": why the task that was to settle it is left out
  std::optional<Saying> stray_saying;     // what `stray` says
  std::optional<std::string> stop;        // the id of the entry "stop agreed" that it is about
  std::optional<StopPlan> plan;           // of a stop, from this entry on
  std::optional<StopTimes> times;         // of "stop closed"
  std::optional<TaskDoing> doing;         // of "task done"
  std::optional<StopTold> stop_told;      // of the entries about stops
  std::optional<IntervalMoved> interval;  // of "interval moved"
  std::optional<StoresText> stores;       // of the entries about the stores
  std::optional<StoresTold> stores_told;
};
BOOST_DESCRIBE_STRUCT(EntryBody, (),
                      (device_off_s, walk, rhythm, checks, answers, finding, what, point, check, severity, owner,
                       due_on, settling_task, done, why, photos, corrects, stray, points, use, order, title, version,
                       display, corrects_ordinal, right, unlinked, stray_saying, stop, plan, times, doing, stop_told,
                       interval, stores, stores_told))

}  // namespace hw::service
