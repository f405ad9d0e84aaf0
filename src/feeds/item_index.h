#pragma once
// Finds the item that an observation belongs to: by (device, dataItemId) in documents, by key in SHDR. Built once for a
// list of models; a look-up hashes the text where it stands and allocates nothing.

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "libs/values/assert.h"
#include "src/counters/machine_model.h"
#include "src/feeds/text_hash.h"

namespace hw::feeds {

inline constexpr std::uint32_t none_found = 0xffff'ffff;

struct ItemPlace {
  std::uint32_t item = none_found;  // index into MachineModel::items
  counters::Role role = counters::Role::none;
  std::uint8_t coordinates = 1;  // 3: "x y z" goes to item, item + 1, item + 2
  std::uint8_t shdr_fields = 1;  // how many fields follow the key in SHDR
  bool is_time_series = false;   // its value is a list of numbers, the last of which counts
  bool has_reset_trigger = false;
  double native_to_units = 1.0;

  bool found() const { return item != none_found; }
};

inline constexpr ItemPlace nowhere;

// Three-dimensional positions stand in the model as three items "<id>/x", "<id>/y", "<id>/z", one after the other.
class ItemIndex {
 public:
  explicit ItemIndex(std::span<const counters::MachineModel> machines);

  // The machine with this uuid, else with this name; none_found where there is none. Either may be empty.
  std::uint32_t machine(std::string_view uuid, std::string_view name) const;
  // Where there is no such item, a place that is not found(). The place lives as long as the index.
  const ItemPlace& by_id(std::uint32_t machine, std::string_view data_item_id) const {
    return find_in(ids_, machine, data_item_id);
  }
  // By name, else id, else Source text.
  const ItemPlace& by_key(std::uint32_t machine, std::string_view key) const { return find_in(keys_, machine, key); }
  std::size_t machines() const { return names_.size(); }
  const std::string& machine_name(std::uint32_t machine) const { return names_[machine]; }

 private:
  // Open addressing over the hash of the text; the texts lie one after the other in one string.
  class Table {
   public:
    void insert(std::string_view key, const ItemPlace& place);  // the first of equal keys stays
    const ItemPlace* find(std::string_view key) const {
      if (slots_.empty()) return nullptr;
      const std::uint64_t hash = hash_text(key);
      for (std::size_t at = hash & mask_;; at = (at + 1) & mask_) {
        const Slot& slot = slots_[at];
        if (slot.place == none_found) return nullptr;
        if (slot.hash == hash && text_of(slot) == key) return &places_[slot.place];
      }
    }

   private:
    struct Slot {
      std::uint64_t hash = 0;
      std::uint32_t key_at = 0;
      std::uint32_t key_size = 0;
      std::uint32_t place = none_found;
    };
    void grow();
    void put(const Slot& slot);
    std::string_view text_of(const Slot& slot) const {
      return std::string_view(keys_).substr(slot.key_at, slot.key_size);
    }
    std::vector<Slot> slots_;  // a power of two of them
    std::size_t mask_ = 0;     // one less
    std::vector<ItemPlace> places_;
    std::string keys_;
  };

  static const ItemPlace& find_in(const std::vector<Table>& tables, std::uint32_t machine, std::string_view text) {
    HW_ASSERT(machine < tables.size(), "the machine is one of the index");
    const ItemPlace* const place = tables[machine].find(text);
    return place == nullptr ? nowhere : *place;
  }
  void add_items(std::size_t m, const counters::MachineModel& machine);

  std::vector<std::string> names_;
  std::vector<std::string> uuids_;
  std::vector<Table> ids_;
  std::vector<Table> keys_;
};

}  // namespace hw::feeds
