#pragma once
// Is the logbook as it was written? Rows in, every break out, in words.
//
// What it finds: a row that was altered (which field cannot be known), rows that are missing, moved or put in, a row
// that was sealed anew behind the program's back, rows cut off at the end (by the head), a head that does not fit. What
// it cannot find, alone: that everything from some row on was sealed anew, head included. A hash that was noted
// elsewhere finds that too.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include <boost/describe/class.hpp>
#include <boost/describe/enum.hpp>

#include "src/record/seal.h"

namespace hw::record {

enum class BreakKind {
  altered,   // a row is not what was sealed
  moved,     // a row stands in another place than it was sealed for
  missing,   // rows that must have been there are not
  put_in,    // a row for which there is no place
  unlinked,  // two rows, each sealed, of which the second was not written behind the first
  head,      // the head does not fit the rows
  noted,     // no row has the hash that was noted elsewhere
  derived,   // a table that follows from the entries does not agree with them
  photo,     // a photo is not what was kept, or not the one that an entry names
};
BOOST_DESCRIBE_ENUM(BreakKind, altered, moved, missing, put_in, unlinked, head, noted, derived, photo)

struct Break {
  BreakKind kind = BreakKind::altered;
  std::int64_t entry = 0;  // the first entry that it is about; 0: none
  std::string says;
};
BOOST_DESCRIBE_STRUCT(Break, (), (kind, entry, says))

// A photo that an entry names and that is not here. It may still come: phones send photos after their entries.
struct AwaitedPhoto {
  std::int64_t entry = 0;
  std::string photo;
};
BOOST_DESCRIBE_STRUCT(AwaitedPhoto, (), (entry, photo))

struct Verdict {
  std::int64_t entries = 0;  // rows that are there
  std::string head;          // the hash of the newest entry by the head; 64 zeros where there is none
  std::vector<Break> breaks;
  std::vector<AwaitedPhoto> photos_awaited;
};
BOOST_DESCRIBE_STRUCT(Verdict, (), (entries, head, breaks, photos_awaited))

class Verifier {
 public:
  // The next row in order of the ordinals.
  void take(SealedEntry entry);

  // What is to be said of all rows, the head (nothing: there is no head row) and a hash that was noted once.
  Verdict end(const std::optional<Head>& head, const std::optional<std::string>& noted = {});

 private:
  struct Row {
    std::int64_t ordinal = 0;
    std::int64_t written_ordinal = 0;  // the place it was sealed for, where it is known; else the ordinal
    std::string previous_hash;
    std::string hash;
    bool is_sealed = true;      // it is what was sealed, in this place or another
    std::string seal_now;       // where it is not: the hash that its fields would have
    std::vector<Field> fields;  // kept only while its seal does not fit
    bool is_moved() const { return written_ordinal != ordinal; }
    bool has_hash(std::string_view one) const { return one == hash || one == seal_now; }
  };

  // Rows whose seal does not fit, by the hash that they name.
  using Waiting = std::unordered_multimap<std::string_view, Row*>;

  static bool settle(Row& row, std::int64_t written_ordinal);
  static void follow(const Waiting& waiting, std::string_view hash, std::int64_t written_ordinal);
  void find_moved();
  void judge_place(std::size_t index);
  void judge_seal(std::size_t index, const std::optional<Head>& head);
  void judge_link(std::size_t index);
  void name_moved(std::size_t index);
  void judge_head(const std::optional<Head>& head);
  std::string_view altered_part(std::size_t index, const std::optional<Head>& head) const;
  std::int64_t ordinal_before(std::size_t index) const { return index == 0 ? 0 : rows_[index - 1].ordinal; }
  std::string_view hash_before(std::size_t index) const;
  void name(BreakKind kind, std::int64_t entry, std::string says);

  std::vector<Row> rows_;
  std::vector<Break> breaks_;
};

}  // namespace hw::record
