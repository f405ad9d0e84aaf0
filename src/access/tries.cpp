#include "src/access/tries.h"

#include <algorithm>

namespace hw::access {
namespace {

constexpr std::size_t places_max = 10'000;
constexpr Duration none{0};

}  // namespace

Duration Tries::wait_after(int failures) const {
  if (failures <= limits_.free) return none;
  const int doublings = std::min(failures - limits_.free - 1, 30);
  const std::int64_t wait = limits_.first_wait.ns << static_cast<unsigned>(doublings > 20 ? 20 : doublings);
  return Duration{std::min(wait, limits_.wait_max.ns)};
}

Duration Tries::wait_left(const std::string& place, Instant now) {
  const auto found = places_.find(place);
  if (found == places_.end()) return none;
  if (now < found->second.last) found->second.last = now;
  const Instant free_at = found->second.last + wait_after(found->second.failures);
  return now < free_at ? free_at - now : none;
}

void Tries::failed(const std::string& place, Instant now) {
  if (places_.size() >= places_max && !places_.contains(place)) forget_quietest();
  Place& one = places_[place];
  ++one.failures;
  one.last = now;
}

int Tries::failures(const std::string& place) const {
  const auto found = places_.find(place);
  return found == places_.end() ? 0 : found->second.failures;
}

void Tries::forget_quietest() {
  places_.erase(std::min_element(places_.begin(), places_.end(),
                                 [](const auto& a, const auto& b) { return a.second.last < b.second.last; }));
}

}  // namespace hw::access
