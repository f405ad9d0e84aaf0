#pragma once
// What a sheet of parts and stock would do to the stores: each row to a part that is new, changed or as it was, and a
// count where it names stock; or to mistakes. Fields that the sheet has no column for stay as the stores have them.

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include <boost/describe/class.hpp>

#include "libs/formats/sheet.h"
#include "libs/values/saying.h"
#include "src/catalogue/stored_part.h"

namespace hw::catalogue {

struct SheetColumn {
  std::string heading;
  std::optional<std::string> field = {};  // what it was taken for; none: left out
};
BOOST_DESCRIBE_STRUCT(SheetColumn, (), (heading, field))

struct SheetMistake {
  std::string heading;  // of the column; empty where it is the whole row's
  std::string says;     // what is wrong and what would be right
  std::optional<Saying> saying = {};
};
BOOST_DESCRIBE_STRUCT(SheetMistake, (), (heading, says, saying))

struct SheetRow {
  std::int64_t row = 0;  // of the sheet, from 1
  std::vector<std::string> cells;
  std::vector<SheetMistake> mistakes;
};
BOOST_DESCRIBE_STRUCT(SheetRow, (), (row, cells, mistakes))

// How many parts and rows; a row with a mistake counts as nothing else.
struct SheetLook {
  std::string form;  // "CSV, UTF-8, semicolons, decimal comma"
  std::vector<SheetColumn> columns;
  int rows = 0;
  int added = 0;  // `new` in the contract, which is a word of C++ and so none of the description's
  int changed = 0;
  int alike = 0;
  int counted = 0;  // whose stock differs from the book
  int mistaken = 0;
  std::vector<SheetRow> mistakes;  // the first 200
  std::vector<SheetRow> sample;    // the first 5
};
BOOST_DESCRIBE_STRUCT(SheetLook, (), (form, columns, rows, changed, alike, counted, mistaken, mistakes, sample))

struct PartsSheet {
  SheetLook look;
  std::vector<SheetRow> mistaken;  // all of them
  std::vector<StoredPart> parts;   // new or changed, as they will be
  std::map<std::string, double, std::less<>>
      counts;  // found on the shelf, by number, where that is not what the book says
};

// What the stores have.
struct PresentStores {
  std::span<const StoredPart> parts;
  std::map<std::string, double, std::less<>>
      on_hand;                               // by number; below 0 where it has to be counted, whatever is found
  std::set<std::string, std::less<>> moved;  // parts whose unit cannot change any more
};

// `columns` as find_headings takes them. Whatever is wrong with a row is its mistake; refuses only what find_headings
// refuses, and a sheet without a row of parts.
Result<PartsSheet> read_parts_sheet(const formats::SheetTable& table, const std::optional<std::string>& columns,
                                    const PresentStores& present);

}  // namespace hw::catalogue
