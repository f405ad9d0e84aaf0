#include "libs/http/headers.h"

#include <algorithm>

namespace hw::http {
namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

bool has_word(std::string_view list, std::string_view word) {
  while (!list.empty()) {
    const auto comma = list.find(',');
    if (same_name(trimmed(list.substr(0, comma)), word)) return true;
    if (comma == std::string_view::npos) return false;
    list.remove_prefix(comma + 1);
  }
  return false;
}

}  // namespace

bool same_name(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) { return lower(x) == lower(y); });
}

std::optional<std::string_view> Headers::find(std::string_view name) const {
  for (const Header& field : fields_) {
    if (same_name(field.name, name)) return field.value;
  }
  return std::nullopt;
}

std::size_t Headers::count(std::string_view name) const {
  const auto n =
      std::count_if(fields_.begin(), fields_.end(), [&](const Header& f) { return same_name(f.name, name); });
  return static_cast<std::size_t>(n);
}

bool Headers::lists(std::string_view name, std::string_view word) const {
  return std::any_of(fields_.begin(), fields_.end(),
                     [&](const Header& f) { return same_name(f.name, name) && has_word(f.value, word); });
}

void Headers::add(std::string name, std::string value) { fields_.push_back({std::move(name), std::move(value)}); }

void Headers::set(std::string name, std::string value) {
  remove(name);
  add(std::move(name), std::move(value));
}

void Headers::remove(std::string_view name) {
  std::erase_if(fields_, [&](const Header& field) { return same_name(field.name, name); });
}

}  // namespace hw::http
