#pragma once
// What a person should know about a feed and no number says: a word outside the standard, an item the model lacks.

#include <cstddef>
#include <cstdint>
#include <set>
#include <string>
#include <unordered_set>
#include <vector>

namespace hw::feeds {

struct Note {
  std::string machine;  // the machine's name; empty: of the feed as a whole
  std::string text;     // one sentence
  auto operator<=>(const Note&) const = default;
};

// Keeps each note once; beyond notes_max one last note says that there are more.
class Notes {
 public:
  static constexpr std::size_t notes_max = 500;

  // True where the note is new.
  bool add(const std::string& machine, const std::string& text);
  // The notes since the last take(), in order of arrival; what was noted stays known.
  std::vector<Note> take();

 private:
  std::set<Note> known_;
  std::vector<Note> fresh_;
};

// Lets through what comes for the first time, so that a stream that repeats an oddity a million times costs one note.
// Beyond keys_max nothing more is let through.
class Once {
 public:
  static constexpr std::size_t keys_max = 2000;

  bool first(std::uint64_t key);
  void clear() { seen_.clear(); }

 private:
  std::unordered_set<std::uint64_t> seen_;
};

}  // namespace hw::feeds
