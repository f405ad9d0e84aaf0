#pragma once
// A TOML table as our files use it: every field is asked for by name, and what nobody asked for is a mistake.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "libs/values/result.h"
#include "src/catalogue/toml_parser.h"

namespace hw::catalogue {

// The document's syntax only; refuses with file and line.
Result<toml::table> parse_toml(std::string_view text, std::string_view file);

class TomlTable {
 public:
  TomlTable(const toml::table& table, std::string place) : table_(table), place_(std::move(place)) {}

  // Each returns the field's value; the first mistake is kept and returned by finish().
  std::string text(std::string_view field);
  std::string text_or(std::string_view field, std::string fallback);
  double number(std::string_view field);
  double number_or(std::string_view field, double fallback);
  int whole_or(std::string_view field, int fallback);
  bool flag_or(std::string_view field, bool fallback);
  std::vector<std::string> texts(std::string_view field);
  std::vector<int> wholes(std::string_view field);
  // Every field of the table, each a text: for tables whose fields are the user's.
  std::map<std::string, std::string> all_texts();
  // Every table of a list, and the one table of that name, read by `T read(TomlTable&)`; their mistakes are this
  // table's.
  template <class Read>
  auto each(std::string_view field, Read read) {
    std::vector<decltype(read(*this))> out;
    for (TomlTable& one : tables(field)) out.push_back(read_whole(one, read));
    return out;
  }
  template <class Read>
  auto one(std::string_view field, Read read) {
    TomlTable inner = table(field);
    return read_whole(inner, read);
  }
  bool has(std::string_view field) const { return table_.contains(field); }

  // Takes a Result's value, or keeps its Error as this field's mistake.
  template <class T>
  T take(std::string_view field, Result<T> result) {
    if (result) return std::move(*result);
    mistake(field, result.error().message);
    return T{};
  }
  void mistake(std::string_view field, std::string_view says);
  // The first mistake, also an unknown field.
  Result<void> finish();

 private:
  template <class Read>
  auto read_whole(TomlTable& inner, Read read) {
    auto value = read(inner);
    if (auto finished = inner.finish(); !finished && !first_mistake_) first_mistake_ = finished.error();
    return value;
  }
  std::vector<TomlTable> tables(std::string_view field);
  TomlTable table(std::string_view field);
  const toml::node* find(std::string_view field);
  std::string where(std::string_view field) const;

  const toml::table& table_;
  std::string place_;  // file and path: "lathe.toml, task 3"
  std::set<std::string, std::less<>> asked_;
  std::optional<Error> first_mistake_;
};

// Reads a whole document by `T read(TomlTable&)`, or refuses it with the place of its first mistake.
template <class Read>
auto read_document(std::string_view text, std::string_view file, Read read)
    -> Result<decltype(read(std::declval<TomlTable&>()))> {
  Result<toml::table> document = parse_toml(text, file);
  if (!document) return refuse(document.error());
  TomlTable table{*document, std::string{file}};
  auto value = read(table);
  if (auto finished = table.finish(); !finished) return refuse(finished.error());
  return value;
}

}  // namespace hw::catalogue
