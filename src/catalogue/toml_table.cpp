#include "src/catalogue/toml_table.h"

namespace hw::catalogue {
namespace {

constexpr std::int64_t whole_max = 1'000'000;

std::optional<int> whole_of(const toml::node& node) {
  const auto* number = node.as_integer();
  if (number == nullptr || number->get() < -whole_max || number->get() > whole_max) return std::nullopt;
  return static_cast<int>(number->get());
}

}  // namespace

Result<toml::table> parse_toml(std::string_view text, std::string_view file) {
  try {
    return toml::parse(text, file);
  } catch (const toml::parse_error& error) {
    return refuse(ErrorCode::bad_input, "{}, line {}: {}", file, error.source().begin.line, error.description());
  }
}

const toml::node* TomlTable::find(std::string_view field) {
  asked_.emplace(field);
  return table_.get(field);
}

std::string TomlTable::where(std::string_view field) const {
  const toml::node* node = table_.get(field);
  const auto line = node ? node->source().begin.line : table_.source().begin.line;
  return fmt::format("{}, line {}, {}", place_, line, field);
}

void TomlTable::mistake(std::string_view field, std::string_view says) {
  if (!first_mistake_) first_mistake_ = Error{ErrorCode::bad_input, fmt::format("{}: {}", where(field), says)};
}

std::string TomlTable::text(std::string_view field) {
  const toml::node* node = find(field);
  if (node && node->is_string()) return node->as_string()->get();
  mistake(field, node ? "it is a text in quotes" : "it is missing");
  return "";
}

std::string TomlTable::text_or(std::string_view field, std::string fallback) {
  return has(field) ? text(field) : (asked_.emplace(field), std::move(fallback));
}

double TomlTable::number(std::string_view field) {
  const toml::node* node = find(field);
  if (node && node->is_integer()) return static_cast<double>(node->as_integer()->get());
  if (node && node->is_floating_point()) return node->as_floating_point()->get();
  mistake(field, node ? "it is a number" : "it is missing");
  return 0;
}

double TomlTable::number_or(std::string_view field, double fallback) {
  return has(field) ? number(field) : (asked_.emplace(field), fallback);
}

int TomlTable::whole_or(std::string_view field, int fallback) {
  const toml::node* node = find(field);
  if (!node) return fallback;
  if (const auto whole = whole_of(*node)) return *whole;
  mistake(field, "it is a whole number");
  return fallback;
}

bool TomlTable::flag_or(std::string_view field, bool fallback) {
  const toml::node* node = find(field);
  if (!node) return fallback;
  if (node->is_boolean()) return node->as_boolean()->get();
  mistake(field, "it is true or false");
  return fallback;
}

std::vector<std::string> TomlTable::texts(std::string_view field) {
  std::vector<std::string> out;
  const toml::node* node = find(field);
  if (!node || !node->is_array()) {
    mistake(field, "it is a list of texts");
    return out;
  }
  for (const toml::node& one : *node->as_array()) {
    if (!one.is_string()) {
      mistake(field, "it is a list of texts");
      return out;
    }
    out.push_back(one.as_string()->get());
  }
  return out;
}

std::vector<int> TomlTable::wholes(std::string_view field) {
  std::vector<int> out;
  const toml::node* node = find(field);
  if (!node || !node->is_array()) {
    mistake(field, "it is a list of whole numbers");
    return out;
  }
  for (const toml::node& one : *node->as_array()) {
    const auto whole = whole_of(one);
    if (!whole) {
      mistake(field, "it is a list of whole numbers");
      return out;
    }
    out.push_back(*whole);
  }
  return out;
}

std::map<std::string, std::string> TomlTable::all_texts() {
  std::map<std::string, std::string> out;
  for (const auto& [key, node] : table_) out[std::string{key.str()}] = text(key.str());
  return out;
}

std::vector<TomlTable> TomlTable::tables(std::string_view field) {
  std::vector<TomlTable> out;
  const toml::node* node = find(field);
  if (!node) return out;
  if (!node->is_array()) {
    mistake(field, "it is a list of tables");
    return out;
  }
  for (const toml::node& one : *node->as_array()) {
    if (!one.is_table()) {
      mistake(field, "it is a list of tables");
      return out;
    }
    out.emplace_back(*one.as_table(), fmt::format("{}, {} {}", place_, field, out.size() + 1));
  }
  return out;
}

TomlTable TomlTable::table(std::string_view field) {
  static const toml::table empty;
  const toml::node* node = find(field);
  if (node && node->is_table()) return {*node->as_table(), fmt::format("{}, {}", place_, field)};
  mistake(field, node ? "it is a table" : "it is missing");
  return {empty, place_};
}

Result<void> TomlTable::finish() {
  for (const auto& [key, node] : table_) {
    if (!asked_.contains(key.str())) mistake(key.str(), "no such field");
  }
  if (first_mistake_) return refuse(*first_mistake_);
  return {};
}

}  // namespace hw::catalogue
