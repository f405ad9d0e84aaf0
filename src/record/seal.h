#pragma once
// The logbook's chain: each entry is sealed together with the hash of the one before it.
//
//   hash     = SHA-256 of sealed, as 64 lower-case hexadecimal digits
//   sealed   = previous LF entry
//   previous = the hash of the entry before; 64 zeros for the first
//   entry    = "entry 1" LF "ordinal:" number LF field*      ("1" is the version of this form)
//   field    = name ":" ("-" | length ":" bytes) LF           ("-": the field is empty)
//   length   = the number of bytes; numbers are decimal
//
// Every column of the row is a field, in the table's order, whole numbers as decimal text, texts byte by byte as they
// are stored. The lengths keep two rows from having the same bytes.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace hw::record {

struct Field {
  std::string_view name;
  std::optional<std::string> value;
};

// A row of the logbook as it is stored.
struct SealedEntry {
  std::int64_t ordinal = 0;   // from 1, without a gap
  std::vector<Field> fields;  // all columns but the ordinal and the two hashes
  std::string previous_hash;
  std::string hash;
};

// The newest entry as the head row has it.
struct Head {
  std::int64_t ordinal = 0;  // 0: there is none yet
  std::string hash;
};

// What the first entry has as the hash of the one before it: 64 zeros.
const std::string& first_previous_hash();

// The entry's bytes as the grammar above has them.
std::string canonical_bytes(std::int64_t ordinal, std::span<const Field> fields);

// The hash of an entry behind the one with the previous hash.
std::string seal(std::string_view previous_hash, std::string_view entry_bytes);

}  // namespace hw::record
