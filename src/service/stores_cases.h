#pragma once
// What people can ask of the stores, and what they can say of them: one function = one thing done, in one transaction.
// Errors beside those that are named: bad_input (what no such edit can hold), conflict (an id that was used for
// something else), what the store refuses. The same id sent again is the same entry.

#include <string_view>

#include "src/service/stores_edits.h"
#include "src/service/stores_study.h"
#include "src/service/stores_views.h"

namespace hw::service {

// Looking.
Result<StoresView> show_stores(const OpenShop& shop, StoresStudies& studies, Instant now);
// Errors: not_found.
Result<PartStoresView> show_stored_part(const OpenShop& shop, StoresStudies& studies, std::string_view number,
                                        Instant now);
Result<OrdersView> show_orders(const OpenShop& shop, StoresStudies& studies, Instant now);
// Errors: not_found.
Result<OrderView> show_order(const OpenShop& shop, std::string_view id, Instant now);
KitReadinessView show_readiness(const OpenShop& shop, Instant now);
KitsView show_kits(const OpenShop& shop);

// Parts as they are from now on. Refuses beside what no part can be: substitutes that are not kept or stand in for each
// other in a ring, another unit for a part that was moved already; (conflict) a version that is not the present one.
Result<void> keep_part(OpenShop& shop, std::string_view number, const StoredPartEdit& edit, Instant now);
// Errors: not_found; conflict while something of it is there, on order or in a kit, or another part names it.
Result<EntryView> end_part(OpenShop& shop, std::string_view number, const Signature& signature, Instant now);
// A part for each name under which tasks ask for parts and to which none answers. Errors: conflict where there is none.
Result<EntryView> begin_stores(OpenShop& shop, const Signature& signature, Instant now);
// All parts and counts of a sheet, or nothing of it. Errors: conflict where the stores changed since `seen`.
Result<EntryView> read_sheet(OpenShop& shop, const SheetEdit& edit, Instant now);

// What is laid out for a task or a service. Errors: not_found.
Result<KitsView> keep_kit(OpenShop& shop, const KitEdit& edit, Instant now);

// What was received, taken, returned, counted, scrapped. What happened is kept, whatever the book says. Errors:
// not_found (stop, machine, task, order); bad_input for a part that is not kept, serial numbers that do not fit, more
// than was ordered without saying that it is right; conflict for a serial number that came in before.
Result<EntryView> move_stock(OpenShop& shop, const MovementEdit& edit, Instant now);

// Errors: conflict for an order of which nothing is still to come; not_found.
Result<OrderView> place_order(OpenShop& shop, const OrderEdit& edit, Instant now);
Result<OrderView> change_order(OpenShop& shop, std::string_view order, const OrderChange& edit, Instant now);

// An order as it is told. The caller holds a lock.
OrderView order_view(const OpenShop& shop, const OrderRecord& order, Instant now);
// What is there of a part, with so many weeks ahead; none of a part that nobody asks for. The caller holds a lock.
StockView stock_view(const OpenShop& shop, const StoresStudy& study, const PartRecord& part, int weeks);
// The caller holds a lock.
KitsView kits_view(const OpenShop& shop);
// What to order within two weeks, the most pressing first. The caller holds a lock.
std::vector<OrderProposalView> order_proposals(const OpenShop& shop, const StoresStudy& study);
// Until when an order of that day counts as placed on it.
Instant noon_of(const OpenShop& shop, LocalDate day);

}  // namespace hw::service
