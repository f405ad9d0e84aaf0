#pragma once
// The routes of api.h by what they are about, one file each.

#include "src/web/api.h"

namespace hw::web {

void add_edge_routes(http::Router& router, const ApiParts& parts);
void add_finding_routes(http::Router& router, const ApiParts& parts);
void add_forecast_routes(http::Router& router, const ApiParts& parts);
void add_group_routes(http::Router& router, const ApiParts& parts);
void add_job_card_route(http::Router& router, const ApiParts& parts);
void add_label_routes(http::Router& router, const ApiParts& parts);
void add_life_routes(http::Router& router, const ApiParts& parts);
void add_logbook_routes(http::Router& router, const ApiParts& parts);
void add_month_routes(http::Router& router, const ApiParts& parts);
void add_photo_routes(http::Router& router, const ApiParts& parts);
void add_plan_routes(http::Router& router, const ApiParts& parts);
void add_proposal_routes(http::Router& router, const ApiParts& parts);
void add_rehearsal_routes(http::Router& router, const ApiParts& parts);
void add_reading_routes(http::Router& router, const ApiParts& parts);
void add_stores_routes(http::Router& router, const ApiParts& parts);
void add_stores_sheet_routes(http::Router& router, const ApiParts& parts);
void add_stop_routes(http::Router& router, const ApiParts& parts);

}  // namespace hw::web
