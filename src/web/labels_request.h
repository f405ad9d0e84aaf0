#pragma once
// The query of GET /api/labels.pdf as an order for labels.

#include "libs/http/message.h"
#include "src/service/views.h"
#include "src/sheets/labels.h"

namespace hw::web {

// Machines in the order asked for (the same one twice gives two labels), else all of the floor in its order; kinds and
// cells in the shop's words. Refuses (bad_input) parameters that the contract does not have, twice the same one, what
// is no number; not_found for a machine that is not there. Whether the sheet fits its page is the printing's affair.
Result<sheets::LabelOrder> parse_label_order(const http::Request& request, const service::ShopView& shop,
                                             const service::FloorView& floor);

}  // namespace hw::web
