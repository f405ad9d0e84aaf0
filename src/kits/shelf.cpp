#include "src/kits/shelf.h"

#include <algorithm>
#include <tuple>

#include "libs/values/zone.h"

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

enum class Which { good, any };

void take_from_batches(Shelf& shelf, double& quantity, Which which, LocalDate day) {
  for (Batch& batch : shelf.batches) {
    if (which == Which::good && batch.best_before && *batch.best_before < day) continue;
    const double part = std::min(quantity, batch.quantity);
    batch.quantity -= part;
    quantity -= part;
  }
  std::erase_if(shelf.batches, [](const Batch& batch) { return batch.quantity <= dust; });
}

void put_in(Shelf& shelf, double quantity, std::optional<LocalDate> best_before) {
  add_batch(shelf, {quantity, best_before});
  shelf.book += quantity;
}

// Who takes something looks at its date; who throws away or counts takes what is oldest.
void take_out(Shelf& shelf, double quantity, Which first, LocalDate day) {
  const double there = std::min(quantity, shelf.book);
  double left = there;
  take_from_batches(shelf, left, first, day);
  take_from_batches(shelf, left, Which::any, day);
  shelf.book = shelf.book - there <= dust ? 0 : shelf.book - there;
  if (quantity - there > dust) shelf.difference -= quantity - there;
}

void count(Shelf& shelf, double found) {
  shelf.difference = 0;
  if (found > shelf.book) {
    put_in(shelf, found - shelf.book, {});
  } else {
    take_out(shelf, shelf.book - found, Which::any, {});
  }
  shelf.book = found;
}

void move(Shelf& shelf, const StockMove& one) {
  switch (one.kind) {
    case MovementKind::received:
    case MovementKind::returned:
      return put_in(shelf, one.quantity, one.best_before);
    case MovementKind::taken:
      return take_out(shelf, one.quantity, Which::good, Zone::utc().date_of(one.at));
    case MovementKind::scrapped:
      return take_out(shelf, one.quantity, Which::any, {});
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
