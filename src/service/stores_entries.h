#pragma once
// Entries about the stores: what they say, and how they are kept.

#include <functional>
#include <span>

#include "libs/formats/json.h"
#include "src/service/entry_making.h"
#include "src/service/stores_edits.h"

namespace hw::service {

// Fills in what the entry holds and says. Titles and units are those of the stores as they are.
void tell_parts(Entry& entry, std::vector<catalogue::StoredPart> parts);
void tell_part_ended(Entry& entry, const catalogue::StoredPart& part);
void tell_sheet(Entry& entry, const SheetEdit& edit);
void tell_kit(Entry& entry, const catalogue::Kit& kit, const std::string& title, const Stores& stores);
void tell_movements(Entry& entry, std::vector<MovementText> movements, const Stores& stores);
void tell_order(Entry& entry, const OrderText& order, const Stores& stores);
void tell_order_news(Entry& entry, const OrderRecord& order, const OrderNews& news);

// The entry that an id already made, where it says the same. Refuses (conflict) an id that was used for something else.
Result<std::optional<Entry>> said_before(const OpenShop& shop, std::string_view id, const EditPlace& place,
                                         const std::function<bool(const StoresText&)>& is_same);
// Whether two say the same, field by field.
template <class Text>
bool says_the_same(const std::optional<Text>& kept, const Text& said) {
  return kept && formats::print_json(*kept) == formats::print_json(said);
}

// Refuses (bad_input) a part that the stores do not keep or, where it is ended, keep no more.
Result<const PartRecord*> find_part(const Stores& stores, std::string_view number);
// The same, also of a part that has ended: what happened to it is kept all the same.
Result<const PartRecord*> find_part_ever(const Stores& stores, std::string_view number);

// Refuses (not_found) an order that was never placed.
Result<const OrderRecord*> find_order(const Stores& stores, std::string_view id);

// Keeps the entry, then has the stores take it over. The caller holds the edit's turn and no other lock.
Result<void> keep_in_stores(OpenShop& shop, Entry& entry);

}  // namespace hw::service
