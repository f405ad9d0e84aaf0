#include "src/feeds/delivery.h"

#include "src/feeds/text_hash.h"

namespace hw::feeds {
namespace {

std::string_view last_word(std::string_view text) {
  text = trim(text);
  const std::size_t blank = text.find_last_of(" \t\r\n");
  return blank == std::string_view::npos ? text : text.substr(blank + 1);
}

// Takes the first word off the front.
std::string_view take_word(std::string_view& text) {
  text = trim(text);
  const std::size_t blank = std::min(text.find_first_of(" \t\r\n"), text.size());
  const std::string_view word = text.substr(0, blank);
  text.remove_prefix(blank);
  return word;
}

}  // namespace

void Delivery::deliver(std::string_view text, const ItemPlace& place, double factor, Arrival& arrival) {
  if (place.is_time_series) text = last_word(text);
  if (place.coordinates > 1) return deliver_coordinates(text, place, factor, arrival);
  deliver_one(text, place.role, factor, arrival);
}

// "x y z" into three items; where there is no number for one of them, that one is unknown.
void Delivery::deliver_coordinates(std::string_view text, const ItemPlace& place, double factor, Arrival& arrival) {
  const bool is_unknown = is_unavailable(trim(text));
  for (std::uint32_t n = 0; n < place.coordinates; ++n) {
    arrival.item = place.item + n;
    deliver_one(is_unknown ? std::string_view("UNAVAILABLE") : take_word(text), place.role, factor, arrival);
  }
}

void Delivery::deliver_one(std::string_view text, counters::Role role, double factor, Arrival& arrival) {
  const Reading reading = words_.read(role, text);
  arrival.value = reading.value * factor;
  if (!std::isfinite(arrival.value)) arrival.value = counters::unknown_value;
  if (!reading.standard) tell_odd(text, role, arrival);
  sink_.observation(arrival);
}

void Delivery::tell_odd(std::string_view text, counters::Role role, const Arrival& arrival) {
  const std::uint64_t item = (std::uint64_t{arrival.machine} << 32) | arrival.item;
  const std::uint64_t word = role == counters::Role::execution ? hash_text(text) : 0;
  if (odd_words_.first(fold(item ^ 0x9e37'79b9'7f4a'7c15, word ^ 0xd6e8'feb8'6659'fd93))) {
    sink_.odd_word(arrival.machine, arrival.item, text);
  }
}

}  // namespace hw::feeds
