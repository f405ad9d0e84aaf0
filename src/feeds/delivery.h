#pragma once
// From the text of one value to arrivals: the same for documents and SHDR.

#include <cstdint>
#include <string_view>

#include "src/feeds/arrival.h"
#include "src/feeds/item_index.h"
#include "src/feeds/note.h"
#include "src/feeds/vocabulary.h"

namespace hw::feeds {

class ArrivalSink {
 public:
  virtual ~ArrivalSink() = default;
  // An observation of an item that a counter uses (its role is not none).
  virtual void observation(const Arrival& arrival) = 0;
  // A word outside the standard, once an item and word; no number where one belongs, once an item.
  virtual void odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word) = 0;
};

class Delivery {
 public:
  // Words and sink outlive it.
  Delivery(const Vocabulary& words, ArrivalSink& sink) : words_(words), sink_(sink) {}

  // Hands on the value of `text` times `factor` as one arrival, or as three where the item has coordinates. Of a time
  // series the last number counts. `arrival` has everything but the value, and its item is place.item.
  void deliver(std::string_view text, const ItemPlace& place, double factor, Arrival& arrival);

 private:
  void deliver_one(std::string_view text, counters::Role role, double factor, Arrival& arrival);
  void deliver_coordinates(std::string_view text, const ItemPlace& place, double factor, Arrival& arrival);
  void tell_odd(std::string_view text, counters::Role role, const Arrival& arrival);

  const Vocabulary& words_;
  ArrivalSink& sink_;
  Once odd_words_;
};

}  // namespace hw::feeds
