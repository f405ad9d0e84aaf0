#include "tests/shop_year/books.h"

#include <algorithm>
#include <tuple>

namespace hw::shop_year {
namespace {

// All but the first in the order in which they happened.
template <class Fact>
std::vector<Fact> in_order(std::vector<Fact> facts) {
  std::sort(facts.begin() + 1, facts.end(), [](const Fact& one, const Fact& other) { return one.when < other.when; });
  return facts;
}

}  // namespace

FindingNow Books::finding_now(const std::string& finding) const {
  FindingNow now;
  for (const FindingFact& fact : in_order(findings_.at(finding).facts)) {
    if (fact.severity) now.severity = *fact.severity;
    if (fact.owner) now.owner = *fact.owner;
    if (fact.task) now.task = *fact.task;
    if (fact.kind == "finding settled") now.is_open = false;
    if (fact.kind == "finding reopened") now.is_open = true;
  }
  return now;
}

StopNow Books::stop_now(const std::string& stop) const {
  StopNow now;
  for (const StopFact& fact : in_order(stops_.at(stop).facts)) {
    ++now.version;
    now.changed_at = std::max(now.changed_at, fact.when.at);
    if (now.state != "agreed") continue;
    if (fact.on) now.on = *fact.on;
    if (fact.tasks) now.tasks = *fact.tasks;
    if (fact.kind == "stop withdrawn") now.state = "withdrawn";
    if (fact.kind == "stop closed") now.state = "closed";
  }
  return now;
}

ShelfNow Books::shelf_now(const std::string& part) const {
  std::vector<BookMove> moves;
  for (const BookMove& one : moves_) {
    if (one.part == part) moves.push_back(one);
  }
  std::sort(moves.begin(), moves.end(), [](const auto& one, const auto& other) { return one.when < other.when; });
  ShelfNow shelf;
  for (const BookMove& one : moves) {
    const bool is_in = one.kind == kits::MovementKind::received || one.kind == kits::MovementKind::returned;
    if (one.kind == kits::MovementKind::counted) {
      shelf = {one.quantity, 0};
    } else if (is_in) {
      shelf.book += one.quantity;
    } else {
      shelf.difference -= std::max(0.0, one.quantity - shelf.book);
      shelf.book = std::max(0.0, shelf.book - one.quantity);
    }
  }
  return shelf;
}

double Books::outstanding(const std::string& order) const {
  const BookOrder& placed = orders_.at(order);
  double left = placed.is_ended ? 0 : placed.quantity;
  for (const BookMove& one : moves_) {
    if (one.order == order && one.part == placed.part) left -= one.quantity;
  }
  return std::max(0.0, left);
}

double Books::taken_for(const std::string& stop, const std::string& part) const {
  double taken = 0;
  for (const BookMove& one : moves_) {
    if (one.stop != stop || one.part != part) continue;
    if (one.kind == kits::MovementKind::taken) taken += one.quantity;
    if (one.kind == kits::MovementKind::returned) taken -= one.quantity;
  }
  return std::max(0.0, taken);
}

const BookEntry* Books::last_done(const std::string& machine, const std::string& task) const {
  const BookEntry* last = nullptr;
  const auto there = done_.find({machine, task});
  if (there == done_.end()) return nullptr;
  for (const std::string& id : there->second) {
    const BookEntry& entry = entries_.at(id);
    if (entry.is_undone) continue;
    if (last == nullptr || std::tuple(entry.when.at, id) > std::tuple(last->when.at, last->id)) last = &entry;
  }
  return last;
}

int Books::strays_waiting() const {
  return static_cast<int>(std::count_if(entries_.begin(), entries_.end(), [](const auto& one) {
    return one.second.is_stray && one.second.corrected_by.empty();
  }));
}

}  // namespace hw::shop_year
