#pragma once
// The schema has one text, in SQLite's words; here it is said in PostgreSQL's.

#include <string>
#include <string_view>

namespace hw::sql {

// Types become those that hold the same (`integer` 64 bits, `real` a double, `blob` bytea), texts are compared byte by
// byte, `strict` and `without rowid` fall away, and a trigger
//   create trigger NAME before update|delete on TABLE [when CONDITION] begin select raise(abort, 'WHY'); end;
// refuses each row by the same words.
std::string in_postgres(std::string_view schema);

}  // namespace hw::sql
