#pragma once
// hourwright kits stock: how many of a part to have, by textbook. Field names are those of
// tests/published/t6_spares.json.

#include "src/terminal/evaluate_cases.h"

namespace hw::terminal {

// Which question an object asks is told by its fields:
//   {"mean", "p"}                                                  base stock
//   {"n_parts", "mtbf_h", "use_h_per_day", "lead_days", "p"}       base stock of failing parts
//   {"h", "b", "mean" [, "sd"]}                                    newsvendor, Poisson or normal
//   {"h", "p", "K", "lam", "L"}                                    (r, Q) with Poisson demand
//   {"K", "lam", "h"}                                              economic order quantity
//   {"shape", "T", "L", "p"}                                       a failure rate that is uncertain
//   {"beta", "eta", "ages", "x", "p"}                              parts of known age
// A published case {"id", "input", ...} is answered by its input, one object or a list; where that is empty, by those
// given quantities that stand among its "expected". A file {"cases": [...]} is answered by {"cases": [{"id",
// "output"}]}. Errors: bad_input that names the field and what would be right.
Result<CaseAnswer> stock_case(const boost::json::value& tree, const formats::JsonPlace& place);

// One for each question.
Result<CaseAnswer> stock_level_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> stock_parts_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> stock_period_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> stock_reorder_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> stock_quantity_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> stock_uncertain_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> stock_ages_case(const boost::json::value& tree, const formats::JsonPlace& place);

}  // namespace hw::terminal
