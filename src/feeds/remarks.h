#pragma once
// The sentences in which readers tell what they met and could not use.

#include <cstdint>
#include <span>
#include <string_view>

#include "src/counters/machine_model.h"
#include "src/feeds/note.h"

namespace hw::feeds {

class Remarks {
 public:
  // Machines and notes outlive it.
  Remarks(std::span<const counters::MachineModel> machines, Notes& notes) : machines_(machines), notes_(notes) {}

  void odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word);
  // An empty id: the device as a whole is unknown.
  void unknown_item(std::string_view device, std::string_view data_item_id);
  void unknown_key(std::string_view machine, std::string_view key);
  void other(std::string_view machine, std::string_view sentence);

 private:
  std::span<const counters::MachineModel> machines_;
  Notes& notes_;
};

}  // namespace hw::feeds
