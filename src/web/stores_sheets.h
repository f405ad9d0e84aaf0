#pragma once
// Between the stores as the service has them and their sheets.

#include <string>
#include <string_view>
#include <vector>

#include "src/catalogue/parts_sheet.h"
#include "src/service/stores_cases.h"
#include "src/sheets/order_list.h"
#include "src/sheets/parts_table.h"

namespace hw::web {

// A sheet may be larger than other bodies.
inline constexpr std::size_t sheet_bytes_max = std::size_t{8} << 20;

// All parts by number, with what the book says.
struct StoresBook {
  std::vector<catalogue::StoredPart> parts;
  std::map<std::string, double, std::less<>> on_hand;  // below 0: it has to be counted
  std::set<std::string, std::less<>> moved;

  catalogue::PresentStores present() const { return {parts, on_hand, moved}; }
  std::vector<sheets::PartOnHand> rows() const;
};
StoresBook book_of(const service::OpenShop& shop);

// The contract's SheetLook.
std::string print_look(const catalogue::SheetLook& look);

// Refuses a sheet with mistakes, naming the first rows that have one.
Result<void> check_without_mistakes(const catalogue::PartsSheet& sheet);

// Lists of what is ordered, of what the service tells of orders. Neither may go before it.
class OrdersFrom {
 public:
  OrdersFrom(const service::OpenShop& shop, const service::OrdersView& orders) : shop_(shop), orders_(orders) {}

  std::vector<sheets::OrderList> proposed_today() const;
  // Errors: not_found where nothing is proposed for the supplier.
  Result<std::vector<sheets::OrderList>> proposed_for(std::string_view supplier) const;
  // Of an order that was placed.
  sheets::OrderList list_of(const service::OrderView& order) const;

 private:
  sheets::OrderList empty_list(std::string_view supplier) const;
  sheets::OrderList list_of(const service::OrderProposalView& proposal) const;

  const service::OpenShop& shop_;
  const service::OrdersView& orders_;
};

}  // namespace hw::web
