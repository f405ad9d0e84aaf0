#include "libs/sql/postgres_schema.h"

#include <regex>

#include <fmt/format.h>

namespace hw::sql {
namespace {

constexpr const char* refusing_function =
    "create or replace function refuse_change() returns trigger language plpgsql as "
    "$$begin raise exception '%', tg_argv[0]; end$$;\n";

// "create table entry(...) partition by hash(plant); create table entry_0 partition of entry ...;"
std::string in_parts_of(const std::string& schema, const std::string& table, const InParts& in_parts) {
  const std::size_t begin = schema.find(fmt::format("create table {}(", table));
  if (begin == std::string::npos) return schema;
  const std::size_t end = schema.find(';', begin);
  std::string parted = fmt::format(" partition by hash({})", in_parts.column);
  int remainder = 0;
  for (const std::string& part : part_names(table, in_parts)) {
    parted += fmt::format(";\ncreate table {} partition of {} for values with (modulus {}, remainder {})", part, table,
                          in_parts.parts, remainder++);
  }
  return schema.substr(0, end) + parted + schema.substr(end);
}

}  // namespace

std::vector<std::string> part_names(const std::string& table, const InParts& in_parts) {
  std::vector<std::string> names;
  for (int part = 0; part < in_parts.parts; ++part) names.push_back(fmt::format("{}_{}", table, part));
  return names;
}

std::string in_postgres(std::string_view schema, const InParts& in_parts) {
  static const std::regex trigger(
      R"(create trigger (\w+) before (update|delete) on (\w+)(?:\s+when ([^\n]*?))?\s+begin select raise\(abort, ('[^']*')\); end;)");
  static const std::pair<std::regex, const char*> words[] = {
      {std::regex(R"(\binteger\b)"), "bigint"},
      {std::regex(R"(\breal\b)"), "double precision"},
      {std::regex(R"(\bblob\b)"), "bytea"},
      {std::regex(R"(\btext\b)"), "text collate \"C\""},
      {std::regex(R"(\)\s*strict(, without rowid)?)"), ")"},
  };
  std::string out;
  const std::string text{schema};
  auto rest = text.begin();
  const auto in_words = [](std::string piece) {
    for (const auto& [word, instead] : words) piece = std::regex_replace(piece, word, instead);
    return piece;
  };
  for (std::sregex_iterator found(text.begin(), text.end(), trigger), end; found != end; ++found) {
    const std::smatch& match = *found;
    out += in_words({rest, match[0].first});
    out += "create trigger " + match.str(1) + " before " + match.str(2) + " on " + match.str(3) + " for each row ";
    if (match[4].matched) out += "when (" + match.str(4) + ") ";
    out += "execute function refuse_change(" + match.str(5) + ");";
    rest = match[0].second;
  }
  const bool has_triggers = rest != text.begin();
  std::string said = (has_triggers ? refusing_function : "") + out + in_words({rest, text.end()});
  for (const std::string& table : in_parts.tables) said = in_parts_of(said, table, in_parts);
  return said;
}

}  // namespace hw::sql
