#pragma once
// What an entry about the stores holds: parts as they are from then on, a kit, movements, an order.

#include <optional>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "libs/values/local_date.h"
#include "src/catalogue/stored_part.h"
#include "src/kits/shelf.h"

namespace hw::service {

struct MovedPart {
  std::string part;     // its number
  double quantity = 0;  // above 0; of a count what was found
  std::optional<std::vector<std::string>> serials = {};
  std::optional<LocalDate> best_before = {};
};
BOOST_DESCRIBE_STRUCT(MovedPart, (), (part, quantity, serials, best_before))

struct MovementText {
  kits::MovementKind kind = kits::MovementKind::received;
  std::vector<MovedPart> lines = {};
  std::optional<std::string> stop = {};   // for which it was taken or from which it came back
  std::optional<std::string> task = {};   // of the entry's machine
  std::optional<std::string> order = {};  // of which it is a delivery
  std::optional<std::string> why = {};
};
BOOST_DESCRIBE_STRUCT(MovementText, (), (kind, lines, stop, task, order, why))

struct OrderLineText {
  std::string part;
  double quantity = 0;
  std::optional<double> price = {};
};
BOOST_DESCRIBE_STRUCT(OrderLineText, (), (part, quantity, price))

struct OrderText {
  std::string supplier;
  std::optional<std::string> reference = {};
  std::optional<LocalDate> confirmed_on = {};
  std::vector<OrderLineText> lines = {};
  std::optional<std::string> note = {};
};
BOOST_DESCRIBE_STRUCT(OrderText, (), (supplier, reference, confirmed_on, lines, note))

// Another day, or the rest does not come any more.
struct OrderNews {
  std::string order;  // the id of the entry "order placed"
  std::optional<LocalDate> confirmed_on = {};
  std::optional<bool> ended = {};
  std::optional<std::string> why = {};
};
BOOST_DESCRIBE_STRUCT(OrderNews, (), (order, confirmed_on, ended, why))

struct StoresText {
  std::optional<std::vector<catalogue::StoredPart>> parts = {};  // as they are from then on
  std::optional<std::string> ended = {};                         // the number of a part that is not kept any more
  std::optional<catalogue::Kit> kit = {};
  std::optional<std::vector<MovementText>> movements = {};
  std::optional<OrderText> order = {};
  std::optional<OrderNews> news = {};
  std::optional<std::string> sheet = {};  // of a sheet that was read: the SHA-256 of its bytes
};
BOOST_DESCRIBE_STRUCT(StoresText, (), (parts, ended, kit, movements, order, news, sheet))

struct ToldLine {
  std::string part;
  std::string title;
  std::optional<double> quantity = {};
  std::optional<std::string> unit = {};
};
BOOST_DESCRIBE_STRUCT(ToldLine, (), (part, title, quantity, unit))

// What the sentence of such an entry says.
struct StoresTold {
  std::optional<std::string> kind = {};  // of the movement
  std::optional<std::string> supplier = {};
  std::optional<std::string> reference = {};
  std::optional<LocalDate> confirmed_on = {};
  int parts = 0;                     // how many it is about
  std::vector<ToldLine> lines = {};  // the first 20
};
BOOST_DESCRIBE_STRUCT(StoresTold, (), (kind, supplier, reference, confirmed_on, parts, lines))

}  // namespace hw::service
