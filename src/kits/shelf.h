#pragma once
// What is on a shelf, by what was moved: received, taken, returned, counted, scrapped.
//
// Movements count in the order in which they happened (among equals: in which they were kept), so that what a phone
// sends hours later stands where it belongs. Nobody can take what is not there: where more was taken than the book had,
// the book was wrong, and what it lacked is kept as `difference` until somebody counts. A count says what is there.
//
// Amounts in the part's unit.

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <boost/describe/enum.hpp>

#include "libs/values/instant.h"
#include "libs/values/local_date.h"

namespace hw::kits {

enum class MovementKind { received, taken, returned, counted, scrapped };
BOOST_DESCRIBE_ENUM(MovementKind, received, taken, returned, counted, scrapped)

struct StockMove {
  MovementKind kind = MovementKind::received;
  double quantity = 0;  // above 0; of a count what was found, 0 or more
  Instant at;
  std::int64_t ordinal = 0;
  std::vector<std::string> serials = {};
  std::optional<LocalDate> best_before = {};  // of what was received: its last good day
};

// Whether one movement counts before the other.
bool happens_before(const StockMove& one, const StockMove& other);

struct Batch {
  double quantity = 0;                        // above 0
  std::optional<LocalDate> best_before = {};  // nothing: it keeps
};

// What one movement did.
struct ShelfStep {
  double change = 0;      // of the book: above 0 more
  double book = 0;        // after it, 0 or more
  double difference = 0;  // after it, 0 or below
};

// Where the thing of one serial number is, by the last movement that named it.
struct SerialStanding {
  MovementKind kind = MovementKind::received;
  std::size_t move = 0;  // its place among the movements
};

struct Shelf {
  double book = 0;               // what is there, 0 or more
  double difference = 0;         // 0, or below 0: so much more was taken than the book had
  std::vector<Batch> batches;    // add up to `book`; what expires first is first, what keeps is last
  std::vector<ShelfStep> steps;  // one for each movement
  std::map<std::string, SerialStanding> serials;
};

// `moves` in the order of happens_before. What is taken is of the batch that expires first among those still good on
// its day (UTC), then of the others; what is scrapped, or missing at a count, of the one that expires first; what is
// found beyond the book, or comes back, is taken to keep.
Shelf shelf_of(std::span<const StockMove> moves);

// What of it is good on that day.
double good_on(const Shelf& shelf, LocalDate day);

}  // namespace hw::kits
