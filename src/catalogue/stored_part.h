#pragma once
// A part that the stores keep, and the kits that are laid out of such parts. Everything in it is the shop's own data.
//
// Quantities in the part's unit, money in the shop's currency.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include <boost/describe/class.hpp>

#include "libs/values/result.h"

namespace hw::catalogue {

// What a supplier calls the part.
struct SupplierReference {
  std::string supplier;
  std::string reference;
  bool operator==(const SupplierReference&) const = default;
};
BOOST_DESCRIBE_STRUCT(SupplierReference, (), (supplier, reference))

// All of a part but its number.
struct StoredPartText {
  std::string title;
  std::string unit;  // piece, set, l, kg, m, or a word of the shop's
  std::optional<std::string> place = {};
  std::optional<std::vector<std::string>> names = {};  // what tasks call it, where that is not its title
  std::optional<std::string> supplier = {};            // from whom it is ordered
  std::optional<std::vector<SupplierReference>> references = {};
  std::optional<double> price = {};                          // of one unit, 0 to 1e7
  std::optional<double> pack = {};                           // whole packs of so much, above 0
  std::optional<double> minimum = {};                        // at least so much an order, above 0
  std::optional<double> lead_days = {};                      // from order to shelf as the supplier says, 0 to 1,000
  std::optional<int> shelf_life_days = {};                   // 1 to 20,000
  std::optional<std::vector<std::string>> substitutes = {};  // numbers of parts that may be taken for it
  std::optional<double> wanted = {};             // of a critical spare: chance that it is there, 0.5 to 0.9999
  std::optional<double> failures_per_year = {};  // that ask for it, over all machines, 0 to 10,000
  std::optional<bool> serial = {};               // each one is followed by its serial number
  std::optional<std::string> note = {};
  bool operator==(const StoredPartText&) const = default;
};
BOOST_DESCRIBE_STRUCT(StoredPartText, (),
                      (title, unit, place, names, supplier, references, price, pack, minimum, lead_days,
                       shelf_life_days, substitutes, wanted, failures_per_year, serial, note))

struct StoredPart : StoredPartText {
  std::string number;  // the shop's own, 1 to 40 characters
  bool operator==(const StoredPart&) const = default;
};
BOOST_DESCRIBE_STRUCT(StoredPart, (StoredPartText), (number))

// The amount in which it is ordered, where nobody says: what is counted comes one by one, what is measured by tenths.
double pack_of(const StoredPartText& part);
// Whether amounts of it are whole numbers: all but litres, kilograms, metres and their like.
bool is_counted(std::string_view unit);

// Refuses an amount that is no whole number of what is counted.
Result<void> check_whole(const StoredPart& part, double quantity);

struct KitLine {
  std::string part;     // a number
  double quantity = 0;  // above 0
  bool operator==(const KitLine&) const = default;
};
BOOST_DESCRIBE_STRUCT(KitLine, (), (part, quantity))

// What is laid out for a task of a kind or of one machine, or for a yearly service of a kind beside what its tasks
// take.
struct Kit {
  std::optional<std::string> kind = {};
  std::optional<std::string> machine = {};
  std::optional<std::string> task = {};
  std::optional<std::string> service = {};
  std::vector<KitLine> lines;  // none: what the task itself names
  bool operator==(const Kit&) const = default;
};
BOOST_DESCRIBE_STRUCT(Kit, (), (kind, machine, task, service, lines))

// Refuses what no part can be: a number, title or unit that is missing or too long, a number with a comma, slash or
// control character in it, amounts out of range, the same substitute twice or itself; followed by serial numbers though
// it is measured. The message names the field.
Result<void> check(const StoredPart& part);

// Refuses substitutes that are not among the parts or that stand in for each other in a ring; the message names the
// parts of the ring in order.
Result<void> check_substitutes(std::span<const StoredPart> parts);
// The numbers of parts that stand in for each other in a ring, the first one again at its end; empty where none do.
std::vector<std::string> ring_of_substitutes(std::span<const StoredPart> parts);
// What is wrong with it.
Error ring_mistake(std::span<const std::string> ring);

// Refuses a kit that is neither for one task nor for one service, of neither or both of kind and machine, of a
// machine's service; a line of a part that is not among the parts, twice the same part, a quantity that is not above 0
// or not whole where the part is counted.
Result<void> check(const Kit& kit, std::span<const StoredPart> parts);

}  // namespace hw::catalogue
