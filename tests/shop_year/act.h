#pragma once
// One thing that a person enters, and how a server is told of it.

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "src/service/stores_cases.h"
#include "src/service/use_cases.h"

namespace hw::shop_year {

struct BeginWalk {
  std::string machine;
};
struct AnswerChecks {
  std::string machine;
  std::string walk;
  bool others = false;
  std::vector<service::CheckAnswer> answers;
};
struct MarkDone {
  std::string machine;
  std::string task;
  std::optional<std::string> note = {};
};
struct Undo {
  std::string entry;
};
struct CorrectEntry {
  std::string entry;
};
struct ReadHours {
  std::string machine;
  double display_h = 0;
};

struct MakeFinding {
  std::string machine;
  service::Severity severity = service::Severity::watch;
  std::optional<std::string> owner = {};
  std::optional<std::string> task = {};
};
struct ChangeFinding {
  std::string finding;
  std::optional<service::Severity> severity = {};
  std::optional<std::string> owner = {};  // empty: nobody's any more
  std::optional<std::string> task = {};
};
struct SettleFinding {
  std::string finding;
};
struct ReopenFinding {
  std::string finding;
};

// A task of the shop's own, due every so many hours of `operating` and once a week.
struct AddTask {
  std::string machine;
  double interval_h = 0;
};
struct ChangeTask {
  std::string machine;
  std::string task;
  int version = 0;
  double interval_h = 0;
};
struct RetireTask {
  std::string machine;
  std::string task;
};

struct AgreeStop {
  std::string machine;
  LocalDate on;
  std::vector<std::string> tasks;
};
struct ChangeStop {
  std::string stop;
  int version = 0;
  std::optional<LocalDate> on = {};
  std::optional<std::vector<std::string>> tasks = {};
};
struct WithdrawStop {
  std::string stop;
};
struct DoneInStop {
  std::string id;
  std::string task;
};
struct UsedInStop {
  std::string id;
  std::string part;
  double quantity = 0;
};
struct CloseStop {
  std::string stop;
  int version = 0;
  std::vector<DoneInStop> done;
  std::optional<UsedInStop> used = {};
};

struct KeepPart {
  std::string number;
  std::optional<int> version = {};
  double price = 0;
};
struct MoveStock {
  kits::MovementKind kind = kits::MovementKind::received;
  std::string part;
  double quantity = 0;
  std::optional<std::string> stop = {};
  std::optional<std::string> order = {};
  bool more_than_ordered = false;
};
struct PlaceOrder {
  std::string part;
  double quantity = 0;
};
struct ChangeOrder {
  std::string order;
  std::optional<LocalDate> confirmed_on = {};
  bool ended = false;
};

using What = std::variant<BeginWalk, AnswerChecks, MarkDone, Undo, CorrectEntry, ReadHours, MakeFinding, ChangeFinding,
                          SettleFinding, ReopenFinding, AddTask, ChangeTask, RetireTask, AgreeStop, ChangeStop,
                          WithdrawStop, CloseStop, KeepPart, MoveStock, PlaceOrder, ChangeOrder>;

struct Act {
  std::string id;
  std::string by;
  Instant at;  // when it was entered, by the device's clock
  What what;
};

// What the act is called in what is said of it: the place of its kind among the kinds above, and its id.
std::string name_of(const Act& act);

// `sent_at` by the device's clock, `now` by the server's.
Result<void> tell(service::OpenShop& shop, const Act& act, Instant sent_at, Instant now);

}  // namespace hw::shop_year
