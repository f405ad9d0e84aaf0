#include "src/feeds/note.h"

#include <utility>

namespace hw::feeds {

bool Notes::add(const std::string& machine, const std::string& text) {
  if (known_.size() > notes_max) return false;
  Note note{machine, text};
  if (known_.contains(note)) return false;
  if (known_.size() == notes_max) note = {"", "There are more notes than are kept."};
  known_.insert(note);
  fresh_.push_back(note);
  return true;
}

std::vector<Note> Notes::take() { return std::exchange(fresh_, {}); }

bool Once::first(std::uint64_t key) {
  if (seen_.contains(key)) return false;
  if (seen_.size() >= keys_max) return false;
  seen_.insert(key);
  return true;
}

}  // namespace hw::feeds
