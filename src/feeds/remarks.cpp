#include "src/feeds/remarks.h"

#include <algorithm>

#include <fmt/format.h>

namespace hw::feeds {
namespace {

// What comes from outside is shown short, cut between two UTF-8 characters, and without control characters.
std::string shown(std::string_view text) {
  std::size_t size = std::min<std::size_t>(text.size(), 60);
  while (size > 0 && size < text.size() && (static_cast<unsigned char>(text[size]) & 0xc0) == 0x80) --size;
  std::string short_text(text.substr(0, size));
  for (char& c : short_text) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = ' ';
  }
  return short_text;
}

}  // namespace

void Remarks::odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word) {
  const counters::MachineModel& model = machines_[machine];
  const counters::Item& odd = model.items[item];
  const bool is_word = odd.role == counters::Role::execution && !word.empty();
  notes_.add(model.name, is_word
                             ? fmt::format("{} says \"{}\", which the standard does not know: counted as not active",
                                           odd.label(), shown(word))
                             : fmt::format("{} says \"{}\" where a {} belongs: unknown", odd.label(), shown(word),
                                           odd.category == "SAMPLE" ? "number" : "value"));
}

void Remarks::unknown_item(std::string_view device, std::string_view data_item_id) {
  notes_.add(shown(device), data_item_id.empty()
                                ? fmt::format("device \"{}\" is not in the device model", shown(device))
                                : fmt::format("dataItemId \"{}\" is not in the device model", shown(data_item_id)));
}

void Remarks::unknown_key(std::string_view machine, std::string_view key) {
  notes_.add(std::string(machine), fmt::format("key \"{}\" is not in the device model", shown(key)));
}

void Remarks::other(std::string_view machine, std::string_view sentence) {
  notes_.add(std::string(machine), std::string(sentence));
}

}  // namespace hw::feeds
