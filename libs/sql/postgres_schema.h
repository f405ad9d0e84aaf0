#pragma once
// The schema has one text, in SQLite's words; here it is said in PostgreSQL's.

#include <string>
#include <string_view>
#include <vector>

namespace hw::sql {

// Tables whose rows PostgreSQL keeps in several parts, by the hash of a column that is in every key of theirs: the
// parts of "entry" are "entry_0", "entry_1", ...
struct InParts {
  std::vector<std::string> tables;
  std::string column;
  int parts = 1;
};
std::vector<std::string> part_names(const std::string& table, const InParts& in_parts);

// Types become those that hold the same (`integer` 64 bits, `real` a double, `blob` bytea), texts are compared byte by
// byte, `strict` and `without rowid` fall away, and a trigger
//   create trigger NAME before update|delete on TABLE [when CONDITION] begin select raise(abort, 'WHY'); end;
// refuses each row by the same words.
std::string in_postgres(std::string_view schema, const InParts& in_parts = {});

}  // namespace hw::sql
