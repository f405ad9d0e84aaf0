#include <set>

#include "libs/values/small_letters.h"
#include "src/service/kit_lines.h"
#include "src/service/make_views.h"
#include "src/service/stores_cases.h"
#include "src/service/stores_entries.h"

namespace hw::service {
namespace {

// All parts as they would be with these.
std::vector<catalogue::StoredPart> with(const Stores& stores, const std::vector<catalogue::StoredPart>& parts) {
  std::map<std::string, catalogue::StoredPart> all;
  for (catalogue::StoredPart& part : stores.present_parts()) all[part.number] = std::move(part);
  for (const catalogue::StoredPart& part : parts) all[part.number] = part;
  std::vector<catalogue::StoredPart> list;
  for (auto& [number, part] : all) list.push_back(std::move(part));
  return list;
}

// A unit that changes would make another amount of what is there.
Result<void> check_unit_stays(const Stores& stores, const catalogue::StoredPart& part) {
  const PartRecord* present = stores.part(part.number);
  if (present == nullptr || present->part.unit == part.unit || present->moves.empty()) return {};
  return refuse(ErrorCode::bad_input, Saying{"part-unit", {{"part", part.number}, {"unit", present->part.unit}}},
                "unit: {} is counted in {} and was moved already; count it to 0 and make another part", part.number,
                present->part.unit);
}

Result<void> check_version(const Stores& stores, std::string_view number, std::optional<int> version) {
  const PartRecord* present = stores.part(number);
  if (present == nullptr && !version) return {};
  if (present != nullptr && version == present->version) return {};
  if (present == nullptr) {
    return refuse(ErrorCode::conflict, Saying{"no-stored-part", {{"part", std::string{number}}}},
                  "version: part {} is not kept (any more)", number);
  }
  return refuse(ErrorCode::conflict, Saying{"part-changed", {{"part", std::string{number}}}},
                "version: part {} was changed since you looked; it is version {} now", number, present->version);
}

Result<void> check_can_end(const Stores& stores, const PartRecord& part) {
  const std::string& number = part.part.number;
  const auto still = [&](std::string_view why, std::string_view where) {
    return refuse(ErrorCode::conflict, Saying{std::string{why}, {{"part", number}, {"where", std::string{where}}}},
                  "part {} cannot end: {}", number, where);
  };
  if (part.shelf.book > 0) return still("part-there", "something of it is there");
  if (!stores.open_orders_of(number).empty()) return still("part-ordered", "something of it is on order");
  for (const catalogue::Kit& kit : stores.kits()) {
    for (const catalogue::KitLine& line : kit.lines) {
      if (line.part == number) return still("part-in-kit", "it is in a kit");
    }
  }
  for (const catalogue::StoredPart& other : stores.present_parts()) {
    for (const std::string& one : other.substitutes.value_or(std::vector<std::string>{})) {
      if (one == number) return still("part-substitute", fmt::format("{} names it as a substitute", other.number));
    }
  }
  return {};
}

std::string next_number(const Stores& stores, int& last) {
  for (;;) {
    std::string number = fmt::format("T{:03}", ++last);
    if (stores.parts().find(number) == stores.parts().end()) return number;
  }
}

// A part for each name that no part answers to.
std::vector<catalogue::StoredPart> parts_of_tasks(const OpenShop& shop) {
  std::vector<catalogue::StoredPart> parts;
  int last = 0;
  std::set<std::string> named;
  for (const auto& [name, unit] : nameless_parts(shop)) {
    // A part of another unit has the name: a second one would never answer to it.
    const bool is_taken = shop.stores().part_called(name) != nullptr || !named.insert(in_small_letters(name)).second;
    if (is_taken) continue;
    catalogue::StoredPart part;
    part.number = next_number(shop.stores(), last);
    part.title = name;
    part.unit = unit;
    parts.push_back(std::move(part));
  }
  return parts;
}

Result<void> check_all(const OpenShop& shop, const std::vector<catalogue::StoredPart>& parts) {
  for (const catalogue::StoredPart& part : parts) {
    if (auto checked = catalogue::check(part); !checked) {
      return refuse(parts.size() == 1 ? checked.error() : checked.error().at(fmt::format("part {}", part.number)));
    }
    HW_TRY(check_unit_stays(shop.stores(), part));
  }
  return catalogue::check_substitutes(with(shop.stores(), parts));
}

}  // namespace

Result<void> keep_part(OpenShop& shop, std::string_view number, const StoredPartEdit& edit, Instant now) {
  HW_TRY(check_signature(edit.id, edit.by));
  catalogue::StoredPart part;
  static_cast<catalogue::StoredPartText&>(part) = static_cast<const catalogue::StoredPartText&>(edit);
  part.number = number;
  const auto turn = shop.edit();
  HW_TAKE(before, said_before(shop, edit.id, {part_kept, ""},
                              [&](const StoresText& says) { return says_the_same(says.parts, std::vector{part}); }));
  if (before) return {};
  Entry entry = bare_entry(shop, "", part_kept, edit, now);
  {
    const auto lock = shop.look();
    HW_TRY(check_version(shop.stores(), number, edit.version));
    HW_TRY(check_all(shop, {part}));
  }
  tell_parts(entry, {std::move(part)});
  return keep_in_stores(shop, entry);
}

Result<EntryView> end_part(OpenShop& shop, std::string_view number, const Signature& signature, Instant now) {
  HW_TRY(check_signature(signature.id, signature.by));
  const auto turn = shop.edit();
  HW_TAKE(before, said_before(shop, signature.id, {part_ended, ""},
                              [&](const StoresText& says) { return says.ended == number; }));
  if (before) return view_of(*before);
  Entry entry = bare_entry(shop, "", part_ended, signature, now);
  {
    const auto lock = shop.look();
    const auto part = find_part(shop.stores(), number);
    if (!part) {
      Error error = part.error();
      error.code = ErrorCode::not_found;
      return refuse(error);
    }
    HW_TRY(check_can_end(shop.stores(), **part));
    tell_part_ended(entry, (*part)->part);
  }
  HW_TRY(keep_in_stores(shop, entry));
  return view_of(entry);
}

Result<EntryView> begin_stores(OpenShop& shop, const Signature& signature, Instant now) {
  HW_TRY(check_signature(signature.id, signature.by));
  const auto turn = shop.edit();
  HW_TAKE(before, repeated(shop, signature.id, {stores_begun, ""}));
  if (before) return view_of(*before);
  Entry entry = bare_entry(shop, "", stores_begun, signature, now);
  {
    const auto lock = shop.look();
    auto parts = parts_of_tasks(shop);
    HW_TRY(check_all(shop, parts));
    if (parts.empty()) {
      return refuse(ErrorCode::conflict, Saying{"parts-all-named"},
                    "each name under which tasks ask for parts has one already");
    }
    tell_parts(entry, std::move(parts));
  }
  HW_TRY(keep_in_stores(shop, entry));
  return view_of(entry);
}

Result<EntryView> read_sheet(OpenShop& shop, const SheetEdit& edit, Instant now) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_moved(edit.counts, Zero::allowed));
  const auto turn = shop.edit();
  HW_TAKE(before, said_before(shop, edit.id, {sheet_read, ""},
                              [&](const StoresText& says) { return says.sheet == edit.sha256; }));
  if (before) return view_of(*before);
  if (edit.parts.empty() && edit.counts.empty()) {
    return refuse(ErrorCode::bad_input, Saying{"changes-nothing"}, "the sheet changes nothing");
  }
  Entry entry = bare_entry(shop, "", sheet_read, edit, now);
  {
    const auto lock = shop.look();
    if (edit.seen != shop.stores().version()) {
      return refuse(ErrorCode::conflict, Saying{"stores-changed"},
                    "somebody changed the stores while the sheet was compared with them; send it once more");
    }
    HW_TRY(check_all(shop, edit.parts));
    const auto all = with(shop.stores(), edit.parts);
    std::set<std::string_view> numbers;
    for (const auto& part : all) numbers.insert(part.number);
    for (const MovedPart& count : edit.counts) {
      if (numbers.contains(count.part)) continue;
      return refuse(ErrorCode::bad_input, "the stores do not keep \"{}\", which was counted", count.part);
    }
    tell_sheet(entry, edit);
  }
  HW_TRY(keep_in_stores(shop, entry));
  return view_of(entry);
}

}  // namespace hw::service
