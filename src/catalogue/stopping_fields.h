#pragma once
// [stopping], [[crew]], [[absence]], [[blackout]], [[parts_awaited]] and [stores] of a shop's file.

#include "src/catalogue/shop.h"
#include "src/catalogue/toml_table.h"

namespace hw::catalogue {

// What is not there has its default. Mistakes are the table's.
Stopping read_stopping(TomlTable& shop);

// What these tables name must be there: shifts, persons, machines, cells. Which tasks a machine has is known only with
// the sets of their kinds; found_shop looks at that.
void check_stopping(TomlTable& table, const Shop& shop);

// A number from 0 to `most`; the default where it is left out.
double amount_or(TomlTable& table, std::string_view field, double fallback, double most);

}  // namespace hw::catalogue
