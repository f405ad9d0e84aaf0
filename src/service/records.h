#pragma once
// What the service needs kept, in plain structs. Every record belongs to one plant; a shop has one plant today, and the
// storage keys everything by it all the same.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "src/catalogue/shop.h"
#include "src/service/entry_body.h"

namespace hw::service {

// Every counter's total at one moment, by the counter's key.
using CounterTotals = std::map<std::string, double>;

// What a person did, or the program on a person's behalf. Entries are only ever added. The kinds are those of EntryKind
// in api/openapi.yaml.
struct Entry {
  std::string id;            // UUIDv7, made by the client
  std::int64_t ordinal = 0;  // its place in the logbook, from 1; given when it is kept
  std::string kind;          // "task done", "check answered" ...
  std::string machine;
  std::optional<std::string> task;
  std::string by;
  Instant at;                        // when the server heard of it, by the server's clock
  std::optional<Instant> device_at;  // when it was entered, by the device's clock
  Instant happened_at;               // when it was entered, by the server's clock
  std::string says;                  // the entry in a sentence
  std::optional<std::string> note;
  CounterTotals counters;  // of the moment when it happened
  EntryBody body;
  std::optional<std::string> undoes;      // the entry that this one takes back
  bool is_undone = false;                 // derived: another entry takes this one back
  std::vector<std::string> corrected_by;  // derived: the entries that say what is right
};

// A task of a machine with what it counts from.
struct TaskRecord {
  catalogue::Task task;
  int version = 1;
  bool is_own = false;
  std::optional<Instant> retired_at;
  Instant began_at;  // where it counts from until it was first done
  CounterTotals began_counters;
  std::optional<Entry> last_done;  // derived: see Store::last_done
};

// Where a machine's observations come from.
struct FeedRecord {
  std::string key;
  std::string url;  // of the agent: http://127.0.0.1:5000
};

struct MachineRecord {
  catalogue::Machine machine;  // without own_tasks: they are among `tasks`
  std::vector<catalogue::Assembly> assemblies;
  std::vector<catalogue::Point> points;
  std::vector<int> walk;  // the numbers of its points in a person's walking order; empty: the computed one
  std::vector<TaskRecord> tasks;
  std::optional<std::string> feed;  // FeedRecord::key
  std::string device;               // the agent's name or uuid of this machine
};

struct KindRecord {
  std::string key;
  std::string title;
  std::string title_de = {};  // in German
  catalogue::Isolation isolation = {};
  std::vector<catalogue::KindService> services = {};
};

// All but the machines.
struct ShopRecord {
  std::string plant;
  catalogue::PlantCalendar calendar;
  std::vector<catalogue::Cell> cells;
  std::vector<catalogue::Person> people;
  std::vector<KindRecord> kinds;
  std::vector<FeedRecord> feeds;
  std::map<std::string, std::string> aliases;  // words for Execution that controls say -> the standard's
  catalogue::Stopping stopping = {};
};

struct ShopWithMachines {
  ShopRecord shop;
  std::vector<MachineRecord> machines;  // in the catalogue's order
};

// One counter's amount on one local day. Hours counters keep nanoseconds, others their own unit in `amount`.
struct DayRecord {
  LocalDate on;
  std::int64_t counted_ns = 0;
  std::int64_t unknown_ns = 0;
  std::int64_t filled_ns = 0;
  double amount = 0;
  bool operator==(const DayRecord&) const = default;
};

// What a person's settlement of a display's reading adds to a counter.
struct Adjustment {
  std::string machine;
  std::string counter;
  double amount = 0;
  // True for the first reading of a display: the counter's start is moved, nothing was used. False: it ran on unseen.
  bool is_start = false;
  Instant at;
};

// The hour display of a control as a person read it.
struct HourReading {
  std::string id;
  std::string machine;
  std::string counter;
  double display_h = 0;
  Instant read_at;
  std::string by;
  double counted_h = 0;     // the counter's total at that moment
  double unknown_h = 0;     // its unknown time until then
  double offset_h = 0;      // display - counted
  double difference_h = 0;  // rise of the display - rise of the counted hours since the reading before
  bool fits = true;
  std::string says;
  std::optional<Saying> saying = {};  // what `says` says
  std::optional<std::string> settled_as;
};

// A photo as it was sent.
struct Photo {
  std::string id;      // UUIDv7, made by the client
  std::string sha256;  // of the bytes, 64 lower-case hexadecimal digits
  std::string bytes;   // what kind of picture they are, they say themselves (photo_type.h)
};

}  // namespace hw::service
