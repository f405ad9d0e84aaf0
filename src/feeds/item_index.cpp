#include "src/feeds/item_index.h"

#include <algorithm>

namespace hw::feeds {
namespace {

using counters::Item;
using counters::MachineModel;
using counters::Role;

bool ends_with(std::string_view text, std::string_view tail) {
  return text.size() >= tail.size() && text.substr(text.size() - tail.size()) == tail;
}

// The items n, n+1, n+2 are "<id>/x", "<id>/y", "<id>/z" of one data item.
bool begins_triple(const MachineModel& machine, std::size_t n) {
  if (n + 2 >= machine.items.size() || !ends_with(machine.items[n].id, "/x")) return false;
  const std::string stem = machine.items[n].id.substr(0, machine.items[n].id.size() - 1);
  return machine.items[n + 1].id == stem + "y" && machine.items[n + 2].id == stem + "z";
}

bool is_set(const Item& item) { return item.representation == "DATA_SET" || item.representation == "TABLE"; }

// Fields behind the key in SHDR (mtconnect.md, section 4).
std::uint8_t shdr_fields_of(const Item& item) {
  if (item.category == "CONDITION" || item.type == "ALARM") return 5;
  if (item.representation == "TIME_SERIES") return 3;
  if (is_set(item)) return 1;
  if (item.type == "MESSAGE" || item.type == "ASSET_CHANGED" || item.type == "ASSET_REMOVED") return 2;
  return 1;
}

ItemPlace place_of(const Item& item, std::size_t n, bool triple) {
  ItemPlace place;
  place.item = static_cast<std::uint32_t>(n);
  place.role = is_set(item) || item.category == "CONDITION" ? Role::none : item.role;
  place.coordinates = triple ? 3 : 1;
  place.shdr_fields = shdr_fields_of(item);
  place.is_time_series = item.representation == "TIME_SERIES";
  place.has_reset_trigger = item.has_reset_trigger;
  place.native_to_units = item.native_to_units;
  return place;
}

std::string_view without_tail(const std::string& text, bool triple) {
  return triple && ends_with(text, "/x") ? std::string_view(text).substr(0, text.size() - 2) : std::string_view(text);
}

}  // namespace

ItemIndex::ItemIndex(std::span<const MachineModel> machines) : ids_(machines.size()), keys_(machines.size()) {
  for (std::size_t m = 0; m < machines.size(); ++m) {
    names_.push_back(machines[m].name);
    uuids_.push_back(machines[m].uuid);
    add_items(m, machines[m]);
  }
}

// Names come before ids and these before Source texts, so that a key means what most adapters mean by it.
void ItemIndex::add_items(std::size_t m, const MachineModel& machine) {
  std::vector<std::pair<std::size_t, bool>> places;
  for (std::size_t n = 0; n < machine.items.size(); ++n) {
    const bool triple = begins_triple(machine, n);
    places.emplace_back(n, triple);
    if (triple) n += 2;
  }
  const auto insert_all = [&](Table& table, std::string Item::*text) {
    for (const auto& [n, triple] : places) {
      const std::string_view key = without_tail(machine.items[n].*text, triple);
      if (!key.empty()) table.insert(key, place_of(machine.items[n], n, triple));
    }
  };
  insert_all(ids_[m], &Item::id);
  insert_all(keys_[m], &Item::name);
  insert_all(keys_[m], &Item::id);
  insert_all(keys_[m], &Item::source);
}

std::uint32_t ItemIndex::machine(std::string_view uuid, std::string_view name) const {
  const auto find = [](const std::vector<std::string>& texts, std::string_view text) {
    if (text.empty()) return none_found;
    const auto found = std::find(texts.begin(), texts.end(), text);
    return found == texts.end() ? none_found : static_cast<std::uint32_t>(found - texts.begin());
  };
  const std::uint32_t by_uuid = find(uuids_, uuid);
  return by_uuid != none_found ? by_uuid : find(names_, name);
}

void ItemIndex::Table::insert(std::string_view key, const ItemPlace& place) {
  if (find(key) != nullptr) return;
  if (places_.size() * 2 >= slots_.size()) grow();
  Slot slot{hash_text(key), static_cast<std::uint32_t>(keys_.size()), static_cast<std::uint32_t>(key.size()),
            static_cast<std::uint32_t>(places_.size())};
  keys_ += key;
  places_.push_back(place);
  put(slot);
}

void ItemIndex::Table::put(const Slot& slot) {
  std::size_t at = slot.hash & mask_;
  while (slots_[at].place != none_found) at = (at + 1) & mask_;
  slots_[at] = slot;
}

void ItemIndex::Table::grow() {
  const std::vector<Slot> old = std::move(slots_);
  slots_.assign(old.empty() ? 16 : old.size() * 2, Slot{});
  mask_ = slots_.size() - 1;
  for (const Slot& slot : old) {
    if (slot.place != none_found) put(slot);
  }
}

}  // namespace hw::feeds
