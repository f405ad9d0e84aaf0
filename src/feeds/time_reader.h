#pragma once
// Times of neighbouring lines differ in their seconds only: the date, hour and minute of the last one are kept, and a
// text that begins alike needs no calendar.

#include <string_view>

#include "libs/values/instant.h"

namespace hw::feeds {

class TimeReader {
 public:
  // As hw::read_instant: false where that refuses.
  bool read(std::string_view text, Instant& out);

 private:
  bool read_seconds(std::string_view text, Instant& out) const;
  bool read_anew(std::string_view text, Instant& out);

  char minute_text_[17] = {};  // "2016-05-23T12:10:"
  Instant minute_;
};

}  // namespace hw::feeds
