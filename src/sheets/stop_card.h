#pragma once
// A stop as the service shows it, to what its job card prints.

#include "src/service/records.h"
#include "src/service/stop_card_views.h"
#include "src/sheets/job_card.h"

namespace hw::sheets {

// `machine` is the stop's, `shop` its shop. Kind and cell in the shop's words, kind in that of the language where it
// has one; the shift by the plant's clock. Its address is left empty.
JobCard job_card_of(const service::StopCardView& view, const service::MachineRecord& machine,
                    const service::ShopRecord& shop, CardLanguage language);

// What the card's code holds: the address of the stop's page. Refuses (bad_input) a base that is no address of a
// server.
Result<std::string> stop_address(std::string_view base_address, std::string_view stop);

}  // namespace hw::sheets
