#include "src/copies/copy_state.h"

#include <fmt/format.h>

namespace hw::copies {
namespace {

std::string last_good_says(const CopyState& state) {
  if (!state.last_good) return "there is no good copy yet";
  return fmt::format("the last good copy is of {}, {:.1f} MB", print(state.last_good->made_at),
                     static_cast<double>(state.last_good->bytes) / 1e6);
}

}  // namespace

// A shop whose first copy is under way has nothing to see to yet.
Concern concern_of(const CopyState& state, Instant now) {
  if (state.keeping == Keeping::not_needed) return Concern::none;
  if (state.keeping == Keeping::none) return Concern::not_set_up;
  if (!state.trouble.empty()) return Concern::failed;
  const bool is_old = state.last_good && now - state.last_good->made_at > old_after;
  return is_old ? Concern::old : Concern::none;
}

std::string says(const CopyState& state, Instant now) {
  switch (concern_of(state, now)) {
    case Concern::not_set_up:
      return "no copies are made: serve with --copies DIR, a folder on another disk";
    case Concern::failed:
      return fmt::format("the last copy failed: {}; {}", state.trouble, last_good_says(state));
    case Concern::old:
      return fmt::format("{}: is the folder for copies there, and is there room?", last_good_says(state));
    case Concern::none:
      break;
  }
  return state.keeping == Keeping::not_needed ? "a shop that nobody would miss needs no copies" : last_good_says(state);
}

}  // namespace hw::copies
