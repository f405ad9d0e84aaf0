#pragma once
// What stands at the beginning of a copy: what it is a copy of.
//
//   copy = "Hourwright copy 1\n" head "\n" body seal "\n"
//   head = JSON of CopyHead on one line
//   body = gzip of the files that the head lists, one behind the other in its order
//   seal = SHA-256, as 64 hexadecimal digits, of everything before it
//
// The head can be read with any pager. The seal finds every byte that was altered, and an end that is missing; the
// files' own hashes say that what unpacks is what was packed.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include <boost/describe/class.hpp>

#include "libs/values/instant.h"

namespace hw::copies {

inline constexpr std::string_view first_words = "Hourwright copy ";
inline constexpr int form = 1;
inline constexpr std::size_t head_bytes_max = 8192;  // with its first line
inline constexpr std::size_t seal_bytes = 65;

struct CopiedFile {
  std::string name;  // hourwright.db, tls/authority.pem, tls/server.pem
  std::uint64_t bytes = 0;
  std::string sha256;
  bool operator==(const CopiedFile&) const = default;
};
BOOST_DESCRIBE_STRUCT(CopiedFile, (), (name, bytes, sha256))

struct CopyHead {
  int schema = 0;  // of the tables
  std::string program;
  std::string plant;  // empty: no shop was founded yet
  Instant made_at;
  std::int64_t entries = 0;  // in the logbook
  std::string head;          // the hash of its newest entry
  int breaks = 0;            // where the logbook was not as it was written when the copy was made
  std::vector<CopiedFile> files;
  bool operator==(const CopyHead&) const = default;
};
BOOST_DESCRIBE_STRUCT(CopyHead, (), (schema, program, plant, made_at, entries, head, breaks, files))

// With its first line and the end of its own.
std::string print_head(const CopyHead& head);

struct HeadRead {
  CopyHead head;
  std::size_t bytes = 0;  // of the text that it was
};
// Reads it at the beginning of `text`. Refuses: bad_input (no copy; a file that no copy has), unsupported (of a later
// form).
Result<HeadRead> parse_head(std::string_view text);

// Whether a copy may have a file of this name.
bool is_copied(std::string_view name);

}  // namespace hw::copies
