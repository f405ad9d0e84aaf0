#pragma once
// A whole shop as a workbook (XLSX), with the fields of the shop's file (docs/set-up/shop-file.md): a sheet for each
// kind of thing, a row for each of them, a column for each field.
//
//   Plant        name, zone, agent                                           one row
//   Shifts       name, starts, ends, weekdays                                06:00; 1-5 or 1 2 3
//   Closed days  date, why                                                   2026-12-24, 24.12.2026 or a date cell
//   Cells        key, title, max_down
//   People       name, skill, lead                                           lead: yes, or nothing
//   Machines     key, name, kind, cell, year, note, agent, device, standing_per_hour, fills
//
// fills: "operating = timer1; powered = timer2". A formula counts as what it shows; of merged cells the first has the
// text, and the others have none.

#include <string>
#include <string_view>

#include "src/catalogue/shop.h"

namespace hw::catalogue {

// Takes all of it or nothing. `name` is only named in messages. Refuses (bad_input, with sheet, row and field) what
// parse_shop refuses, a sheet or column that there is not, a date or time that is none; what read_sheets refuses.
Result<Shop> parse_shop_workbook(std::string_view bytes, std::string_view name);

// The same again, to be filled in by hand. What a workbook does not hold (costs, own tasks, words of controls) is left
// out.
Result<std::string> print_shop_workbook(const Shop& shop);

}  // namespace hw::catalogue
