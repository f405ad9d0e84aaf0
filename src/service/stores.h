#pragma once
// The stores of a shop: parts, kits, movements and orders. They are what their entries say, and nothing else is kept of
// them that could not be made again from these:
//
//   part kept       a part as it is from then on           part ended     it is not kept any more
//   stores begun    many parts at once                     sheet read     the same, and counts, from a sheet
//   kit kept        what is laid out for a task or service
//   stock moved     received, taken, returned, counted, scrapped
//   order placed    and order changed: another day, or the rest does not come any more
//
// Entries may come in any order; movements count by when they happened.

#include <array>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "src/kits/shelf.h"
#include "src/service/records.h"

namespace hw::service {

inline constexpr std::string_view part_kept = "part kept";
inline constexpr std::string_view part_ended = "part ended";
inline constexpr std::string_view stores_begun = "stores begun";
inline constexpr std::string_view sheet_read = "sheet read";
inline constexpr std::string_view kit_kept = "kit kept";
inline constexpr std::string_view stock_moved = "stock moved";
inline constexpr std::string_view order_placed = "order placed";
inline constexpr std::string_view order_changed = "order changed";
inline constexpr std::array stores_kinds = {part_kept, part_ended,  stores_begun, sheet_read,
                                            kit_kept,  stock_moved, order_placed, order_changed};

// One movement of one part, beside what the shelf needs of it.
struct MoveTold {
  std::string entry;
  std::string by;
  std::string machine;  // empty: none
  std::optional<std::string> stop;
  std::optional<std::string> task;
  std::optional<std::string> order;
  std::optional<std::string> why;
};

struct PartRecord {
  catalogue::StoredPart part;
  int version = 1;  // counts the entries that said how it is
  bool is_ended = false;
  std::vector<kits::StockMove> moves;  // in the order in which they happened
  std::vector<MoveTold> told;          // one for each
  kits::Shelf shelf;                   // of them
};

struct OrderRecord {
  std::string id;  // of the entry "order placed"
  OrderText text;
  std::string by;
  Instant at;
  std::map<std::string, double> delivered;  // by part
  std::optional<Instant> delivered_at;      // the last delivery
  std::optional<Instant> ended_at;          // when the rest was given up
  // What is still to come of a part; 0 where the order has ended.
  double outstanding(std::string_view part) const;
  bool is_open() const;
};

class Stores {
 public:
  // Refuses nothing: what an entry says was checked before it was kept.
  void take(std::span<const Entry> entries);

  const std::map<std::string, PartRecord, std::less<>>& parts() const { return parts_; }
  const PartRecord* part(std::string_view number) const;  // null where there is none, also of ended ones
  // Those that are kept, by number.
  std::vector<catalogue::StoredPart> present_parts() const;
  bool is_empty() const;  // no part is kept

  const std::vector<catalogue::Kit>& kits() const { return kits_; }
  const std::map<std::string, OrderRecord, std::less<>>& orders() const { return orders_; }
  const OrderRecord* order(std::string_view id) const;
  // Those with something of the part still to come.
  std::vector<const OrderRecord*> open_orders_of(std::string_view part) const;
  // The part that a task means by a name: its title or one of its names, capitals or not; the lowest number where
  // several answer; null where none does.
  const PartRecord* part_called(std::string_view name) const;

  // What was taken for a stop and has not come back, by part.
  std::map<std::string, double> taken_for(std::string_view stop) const;
  std::optional<Instant> taken_at(std::string_view stop) const;  // the last time
  // Days from order to delivery of a part, one for each delivery of an order, the oldest first.
  struct Delivery {
    Instant placed_at;
    Instant received_at;
  };
  std::vector<Delivery> deliveries_of(std::string_view part) const;

  // Rises with every entry.
  std::uint64_t version() const { return version_; }

 private:
  void take_one(const Entry& entry, std::set<std::string>& moved);
  void put_part(const catalogue::StoredPart& part);
  void put_kit(const catalogue::Kit& kit);
  void put_move(const MovedPart& line, const MovementText& movement, const Entry& entry);
  void place(const Entry& entry);
  void hear(const OrderNews& news, const Entry& entry);
  void name_parts();

  std::map<std::string, PartRecord, std::less<>> parts_;
  std::vector<catalogue::Kit> kits_;
  std::map<std::string, OrderRecord, std::less<>> orders_;
  std::map<std::string, std::vector<std::string>, std::less<>> orders_of_part_;  // their ids
  std::map<std::string, std::string, std::less<>> numbers_by_name_;              // in small letters
  std::map<std::string, std::map<std::string, double>, std::less<>> taken_;
  std::map<std::string, Instant, std::less<>> taken_at_;
  std::map<std::string, std::vector<Delivery>, std::less<>> deliveries_;
  std::uint64_t version_ = 0;
};

}  // namespace hw::service
