#include "src/kits/shelf.h"

#include <algorithm>
#include <tuple>

namespace hw::kits {
namespace {

// Amounts are decimals that people write; what is left of adding and taking them is no stock.
constexpr double dust = 1e-9;

bool expires_before(const Batch& one, const Batch& other) {
  if (one.best_before && other.best_before) return *one.best_before < *other.best_before;
  return one.best_before && !other.best_before;
}

void add_batch(Shelf& shelf, const Batch& batch) {
  if (batch.quantity <= dust) return;
  const auto place = std::upper_bound(shelf.batches.begin(), shelf.batches.end(), batch, expires_before);
  if (place != shelf.batches.begin() && std::prev(place)->best_before == batch.best_before) {
    std::prev(place)->quantity += batch.quantity;
  } else {
    shelf.batches.insert(place, batch);
  }
}

void take_from_batches(Shelf& shelf, double quantity) {
  while (quantity > dust && !shelf.batches.empty()) {
    Batch& first = shelf.batches.front();
    const double part = std::min(quantity, first.quantity);
    first.quantity -= part;
    quantity -= part;
    if (first.quantity <= dust) shelf.batches.erase(shelf.batches.begin());
  }
}

void put_in(Shelf& shelf, double quantity, std::optional<LocalDate> best_before) {
  add_batch(shelf, {quantity, best_before});
  shelf.book += quantity;
}

void take_out(Shelf& shelf, double quantity) {
  const double there = std::min(quantity, shelf.book);
  take_from_batches(shelf, there);
  shelf.book = shelf.book - there <= dust ? 0 : shelf.book - there;
  if (quantity - there > dust) shelf.difference -= quantity - there;
}

void count(Shelf& shelf, double found) {
  shelf.difference = 0;
  if (found > shelf.book) {
    put_in(shelf, found - shelf.book, {});
  } else {
    take_out(shelf, shelf.book - found);
  }
  shelf.book = found;
}

void move(Shelf& shelf, const StockMove& one) {
  switch (one.kind) {
    case MovementKind::received:
    case MovementKind::returned:
      return put_in(shelf, one.quantity, one.best_before);
    case MovementKind::taken:
    case MovementKind::scrapped:
      return take_out(shelf, one.quantity);
    case MovementKind::counted:
      return count(shelf, one.quantity);
  }
}

}  // namespace

bool happens_before(const StockMove& one, const StockMove& other) {
  return std::tuple(one.at, one.ordinal) < std::tuple(other.at, other.ordinal);
}

Shelf shelf_of(std::span<const StockMove> moves) {
  Shelf shelf;
  for (std::size_t i = 0; i < moves.size(); ++i) {
    const double before = shelf.book;
    move(shelf, moves[i]);
    shelf.steps.push_back({shelf.book - before, shelf.book, shelf.difference});
    for (const std::string& serial : moves[i].serials) shelf.serials[serial] = {moves[i].kind, i};
  }
  return shelf;
}

double good_on(const Shelf& shelf, LocalDate day) {
  double good = 0;
  for (const Batch& batch : shelf.batches) {
    if (!batch.best_before || day <= *batch.best_before) good += batch.quantity;
  }
  return good;
}

}  // namespace hw::kits
