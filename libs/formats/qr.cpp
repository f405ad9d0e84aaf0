#include "libs/formats/qr.h"

#include <algorithm>
#include <cerrno>
#include <memory>
#include <new>

#include <qrencode.h>

#include "libs/values/assert.h"

namespace hw::formats {
namespace {

// Longer than any code holds; below it a length fits into the library's int.
constexpr std::size_t qr_bytes_max = 2953;

QRecLevel library_level(QrLevel level) {
  switch (level) {
    case QrLevel::low:
      return QR_ECLEVEL_L;
    case QrLevel::medium:
      return QR_ECLEVEL_M;
    case QrLevel::quartile:
      return QR_ECLEVEL_Q;
    case QrLevel::high:
      return QR_ECLEVEL_H;
  }
  HW_ASSERT(false, "a level that the library does not have");
}

bool is_beyond_ascii(char c) { return static_cast<unsigned char>(c) > 0x7F; }

struct Freed {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

}  // namespace

bool QrCode::is_dark(int row, int column) const {
  HW_ASSERT(row >= 0 && row < side_modules_ && column >= 0 && column < side_modules_, "a module of this code");
  return dark_[static_cast<std::size_t>(row * side_modules_ + column)];
}

std::vector<DarkRun> QrCode::dark_runs() const {
  std::vector<DarkRun> runs;
  for (int row = 0; row < side_modules_; ++row) {
    bool goes_on = false;
    for (int column = 0; column < side_modules_; ++column) {
      const bool dark = is_dark(row, column);
      if (dark && !goes_on) runs.push_back({row, column, 0});
      if (dark) ++runs.back().modules;
      goes_on = dark;
    }
  }
  return runs;
}

Result<QrCode> encode_qr(std::string_view text, QrLevel level) {
  if (text.empty()) return refuse(ErrorCode::bad_input, "a QR code of an empty text says nothing");
  if (std::any_of(text.begin(), text.end(), is_beyond_ascii)) {
    return refuse(ErrorCode::bad_input,
                  "readers of QR codes disagree on letters beyond ASCII; an address has them as %XX");
  }
  const auto too_large = [&] {
    return refuse(ErrorCode::too_large,
                  "a text of {} bytes fits no QR code that bears so much dirt; it has to be shorter", text.size());
  };
  if (text.size() > qr_bytes_max) return too_large();
  constexpr int smallest_that_fits = 0;
  const std::unique_ptr<QRcode, Freed> made{QRcode_encodeData(static_cast<int>(text.size()),
                                                              reinterpret_cast<const unsigned char*>(text.data()),
                                                              smallest_that_fits, library_level(level))};
  if (!made && errno == ERANGE) return too_large();
  if (!made) throw std::bad_alloc();
  QrCode code;
  code.side_modules_ = made->width;
  const std::size_t modules = static_cast<std::size_t>(made->width) * static_cast<std::size_t>(made->width);
  for (std::size_t i = 0; i < modules; ++i) code.dark_.push_back((made->data[i] & 1) != 0);
  return code;
}

}  // namespace hw::formats
