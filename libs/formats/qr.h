#pragma once
// QR codes (ISO/IEC 18004) as squares of dark and light modules, without the quiet zone around them.

#include <string_view>
#include <vector>

#include "libs/values/result.h"

namespace hw::formats {

// How much of the code may be dirty or torn before it cannot be read (ISO/IEC 18004): about 7, 15, 25 and 30 %.
enum class QrLevel { low, medium, quartile, high };

// The light margin that a reader needs on every side, in modules (ISO/IEC 18004).
inline constexpr int quiet_zone_modules = 4;

// Dark modules side by side in one row.
struct DarkRun {
  int row = 0;
  int column = 0;  // of the first one
  int modules = 0;
  bool operator==(const DarkRun&) const = default;
};

class QrCode {
 public:
  // The side in modules, quiet zone not included: 21 to 177.
  int side_modules() const { return side_modules_; }
  // Both from 0 to side_modules() - 1, row 0 on top.
  bool is_dark(int row, int column) const;
  // All dark modules, row by row.
  std::vector<DarkRun> dark_runs() const;

 private:
  friend Result<QrCode> encode_qr(std::string_view text, QrLevel level);
  int side_modules_ = 0;
  std::vector<bool> dark_;  // row by row
};

// The smallest code that holds the text. Errors: bad_input for an empty text and for bytes beyond ASCII (readers guess
// their encoding, and differently), too_large for one that no code of this level holds (at quartile: more than 1,663
// bytes).
Result<QrCode> encode_qr(std::string_view text, QrLevel level);

}  // namespace hw::formats
