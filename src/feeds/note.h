#pragma once
// What a person should know about a feed and no number says: a word outside the standard, an item the model lacks.

#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace hw::feeds {

struct Note {
  std::string machine;  // the machine's name; empty: of the feed as a whole
  std::string text;     // one sentence
  auto operator<=>(const Note&) const = default;
};

// Keeps each note once, in order of arrival; beyond notes_max one last note says that there are more.
class Notes {
 public:
  static constexpr std::size_t notes_max = 500;

  // True where the note is new.
  bool add(const std::string& machine, const std::string& text);
  const std::vector<Note>& all() const { return all_; }
  // The notes since the last take(); what was noted stays known.
  std::vector<Note> take();

 private:
  std::set<Note> known_;
  std::vector<Note> all_;
};

}  // namespace hw::feeds
