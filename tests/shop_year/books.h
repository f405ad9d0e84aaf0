#pragma once
// The naive bookkeeping beside the program: lists of what was said, and what follows from them worked out anew at each
// question. It decides for itself what has to be kept and what refused, and shares no code with src/service.

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "tests/shop_year/act.h"

namespace hw::shop_year {

// Where something stands in the order in which things happened.
struct Moment {
  Instant at;
  std::int64_t ordinal = 0;
  auto operator<=>(const Moment&) const = default;
};

struct BookEntry {
  std::string id;
  std::string kind;
  std::string machine;
  std::optional<std::string> task;
  std::string by;
  std::optional<std::string> note;
  Moment when;
  bool is_stray = false;
  bool is_of_stop = false;
  bool is_undone = false;
  Instant heard_at;
  std::vector<std::string> corrected_by;
  std::optional<double> operating_h;  // that it has to hold; nothing where that cannot be known
  std::string finding;                // that it is about
  std::string stop;                   // that it is about
};

struct BookTask {
  int version = 1;
  bool is_own = false;
  bool is_retired = false;
  double interval_h = 0;
  Instant began_at;
  std::optional<double> began_h;  // of `operating`
};

struct FindingFact {
  Moment when;
  std::string kind;
  std::optional<service::Severity> severity;
  std::optional<std::string> owner;
  std::optional<std::string> task;
};
struct BookFinding {
  std::string machine;
  std::vector<FindingFact> facts;  // the first made it
};
struct FindingNow {
  service::Severity severity = service::Severity::watch;
  std::string owner;
  std::string task;
  bool is_open = true;
};

struct StopFact {
  Moment when;
  std::string kind;
  std::optional<LocalDate> on;
  std::optional<std::vector<std::string>> tasks;
};
struct BookStop {
  std::string machine;
  std::vector<StopFact> facts;  // the first agreed it
  std::set<std::string> done;   // tasks
};
struct StopNow {
  std::string state = "agreed";
  int version = 0;
  LocalDate on;
  std::vector<std::string> tasks;
  Instant changed_at;
};

struct BookMove {
  Moment when;
  kits::MovementKind kind;
  std::string part;
  double quantity = 0;
  std::string stop;
  std::string order;
};
struct BookOrder {
  std::string part;
  double quantity = 0;
  bool is_ended = false;
};
struct ShelfNow {
  double book = 0;
  double difference = 0;
};

class Books {
 public:
  using HoursAt = std::function<std::optional<double>(const std::string& machine, Instant at)>;

  // With the tasks that every machine begins with.
  explicit Books(Instant founded_at);

  // Whether a server has to keep it; what it then says is in the books. `hours_at`: of `operating`.
  bool hear(const Act& act, Instant sent_at, Instant now, const HoursAt& hours_at);

  // What follows.
  FindingNow finding_now(const std::string& finding) const;
  StopNow stop_now(const std::string& stop) const;
  ShelfNow shelf_now(const std::string& part) const;
  double outstanding(const std::string& order) const;
  double taken_for(const std::string& stop, const std::string& part) const;
  const BookEntry* last_done(const std::string& machine, const std::string& task) const;  // null: never
  int strays_waiting() const;

  // What was said.
  const std::map<std::string, BookEntry>& entries() const { return entries_; }
  const std::map<std::pair<std::string, std::string>, BookTask>& tasks() const { return tasks_; }
  const std::map<std::string, BookFinding>& findings() const { return findings_; }
  const std::map<std::string, BookStop>& stops() const { return stops_; }
  const std::map<std::string, int>& parts() const { return parts_; }  // their versions
  const std::map<std::string, BookOrder>& orders() const { return orders_; }

 private:
  friend struct Hearing;

  Instant founded_at_;
  std::map<std::string, BookEntry> entries_;
  std::map<std::pair<std::string, std::string>, BookTask> tasks_;                 // by machine and key
  std::map<std::pair<std::string, std::string>, std::vector<std::string>> done_;  // ids of entries
  std::map<std::string, BookFinding> findings_;
  std::map<std::string, BookStop> stops_;
  std::map<std::string, int> parts_;
  std::map<std::string, BookOrder> orders_;
  std::vector<BookMove> moves_;
};

}  // namespace hw::shop_year
