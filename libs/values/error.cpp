#include "libs/values/error.h"

#include <fmt/format.h>

#include "libs/values/assert.h"

namespace hw {

std::string_view word_of(ErrorCode code) {
  switch (code) {
    case ErrorCode::bad_input:
      return "bad-input";
    case ErrorCode::wrong_usage:
      return "wrong-usage";
    case ErrorCode::not_found:
      return "not-found";
    case ErrorCode::conflict:
      return "conflict";
    case ErrorCode::too_large:
      return "too-large";
    case ErrorCode::unreachable:
      return "unreachable";
    case ErrorCode::timed_out:
      return "timed-out";
    case ErrorCode::peer_misbehaved:
      return "peer-misbehaved";
    case ErrorCode::in_use:
      return "in-use";
    case ErrorCode::disk_full:
      return "disk-full";
    case ErrorCode::corrupt:
      return "corrupt";
    case ErrorCode::unsupported:
      return "unsupported";
    case ErrorCode::not_signed_in:
      return "not-signed-in";
    case ErrorCode::not_allowed:
      return "not-allowed";
    case ErrorCode::not_joined:
      return "not-joined";
    case ErrorCode::too_often:
      return "too-often";
  }
  HW_ASSERT(false, "an error code without a word");
}

Error Error::at(std::string_view place) const { return {code, fmt::format("{}: {}", place, message), saying}; }

}  // namespace hw
