#include "src/copies/copy_name.h"

namespace hw::copies {
namespace {

constexpr std::string_view before_time = "hourwright-";
constexpr std::string_view behind_time = ".copy";
constexpr std::string_view time_form = "2026-11-26T020000Z";

}  // namespace

std::string copy_name(Instant made_at) {
  std::string time = print(Instant::from_millis(made_at.as_millis() / 1000 * 1000)).substr(0, 19);
  std::erase(time, ':');
  return fmt::format("{}{}Z{}", before_time, time, behind_time);
}

std::optional<Instant> parse_copy_name(std::string_view name) {
  if (name.size() != before_time.size() + time_form.size() + behind_time.size()) return std::nullopt;
  std::string time(name.substr(before_time.size(), time_form.size()));
  time.insert(15, ":").insert(13, ":");
  const auto made_at = parse_instant(time);
  if (!made_at || copy_name(*made_at) != name) return std::nullopt;
  return *made_at;
}

}  // namespace hw::copies
