#pragma once
// What people enter about the stores, in the fields of api/openapi.yaml.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "src/service/edits.h"
#include "src/service/stores_text.h"

namespace hw::service {

inline constexpr std::size_t moved_lines_max = 1000;
inline constexpr std::size_t order_lines_max = 500;

struct StoredPartEdit : Signature, catalogue::StoredPartText {
  std::optional<int> version;  // that the person saw; nothing for a new part
};
BOOST_DESCRIBE_STRUCT(StoredPartEdit, (Signature, catalogue::StoredPartText), (version))

struct MovementEdit : Signature {
  kits::MovementKind kind = kits::MovementKind::received;
  std::vector<MovedPart> lines;
  std::optional<std::string> stop;
  std::optional<std::string> machine;
  std::optional<std::string> task;
  std::optional<std::string> order;
  std::optional<bool> more_than_ordered;
  std::optional<std::string> why;
};
BOOST_DESCRIBE_STRUCT(MovementEdit, (Signature), (kind, lines, stop, machine, task, order, more_than_ordered, why))

struct OrderEdit : Signature {
  std::string supplier;
  std::optional<std::string> reference;
  std::optional<LocalDate> confirmed_on;
  std::vector<OrderLineText> lines;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(OrderEdit, (Signature), (supplier, reference, confirmed_on, lines, note))

struct OrderChange : Signature {
  std::optional<LocalDate> confirmed_on;
  std::optional<bool> ended;
  std::optional<std::string> why;
};
BOOST_DESCRIBE_STRUCT(OrderChange, (Signature), (confirmed_on, ended, why))

struct KitEdit : Signature {
  std::optional<std::string> kind;
  std::optional<std::string> machine;
  std::optional<std::string> task;
  std::optional<std::string> service;
  std::vector<catalogue::KitLine> lines;
};
BOOST_DESCRIBE_STRUCT(KitEdit, (Signature), (kind, machine, task, service, lines))

// A sheet that was read: parts as they are now, and what was found of each.
struct SheetEdit : Signature {
  std::string sha256;      // of the sheet's bytes
  std::uint64_t seen = 0;  // Stores::version() against which the sheet was compared
  std::vector<catalogue::StoredPart> parts;
  std::vector<MovedPart> counts;
};

// Each refuses (bad_input, naming the field) an id that is no UUID, a name or text that is missing or too long, lines
// that are none, too many or of one part twice, quantities that are none.
Result<void> check(const MovementEdit& edit);
Result<void> check(const OrderEdit& edit);
Result<void> check(const OrderChange& edit);
// The same of lines alone; `zero` may be found by a count.
enum class Zero { refused, allowed };
Result<void> check_moved(std::span<const MovedPart> lines, Zero zero);

}  // namespace hw::service
