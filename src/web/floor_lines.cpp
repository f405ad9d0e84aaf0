#include "src/web/floor_lines.h"

#include "libs/formats/json.h"
#include "src/service/make_views.h"
#include "src/web/machine_limits.h"

namespace hw::web {
namespace {

// So long after somebody has asked for the Floor, it is kept ready for the next one.
constexpr Duration looked_at = Duration::seconds(10);
constexpr Duration refreshed_after = Duration::seconds(1);

// Either way: those who ask at once have read the clock one after the other, and a clock can be set back.
bool is_within(Instant then, Instant now, Duration span) { return now - then < span && then - now < span; }

}  // namespace

FloorLines::FloorLines(const service::OpenShop& shop) : shop_(shop), kept_(shop.machines().size()) {}

const http::SharedBytes& FloorLines::fresh(std::size_t place, Instant now, Duration lasting) {
  const service::OpenMachine& machine = *shop_.machines()[place];
  Kept& kept = kept_[place];
  const Key key{machine.counts_version, machine.tasks_version, shop_.stores().version(), now.as_millis() / 60'000};
  if (kept.text && kept.key == key && is_within(kept.made_at, now, lasting)) return kept.text;
  ++made_;
  kept = {key, now, std::make_shared<const std::string>(formats::print_json(floor_view(shop_, machine, now)))};
  return kept.text;
}

http::SharedBytes FloorLines::line(std::size_t place, Instant now) {
  const std::lock_guard lock(mutex_);
  return fresh(place, now, lasts);
}

http::SharedBytes FloorLines::floor(const http::Request& request, Instant now) {
  const auto looking = shop_.look();
  const std::lock_guard lock(mutex_);
  asked_at_ = now;
  for (std::size_t place = 0; place < kept_.size(); ++place) fresh(place, now, lasts);
  if (request.limited_to) return std::make_shared<const std::string>(together(request, now));
  if (!whole_ || whole_made_ != made_ || !is_within(whole_at_, now, now_within)) {
    whole_ = std::make_shared<const std::string>(together(request, now));
    whole_made_ = made_;
    whole_at_ = now;
  }
  return whole_;
}

std::string FloorLines::together(const http::Request& request, Instant now) {
  std::string out = formats::print_json(service::FloorView{now, {}});
  const std::string_view end = "]}";  // the list of machines ends it
  out.resize(out.size() - end.size());
  std::size_t bytes = out.size() + end.size();
  for (const Kept& kept : kept_) bytes += kept.text->size() + 1;
  out.reserve(bytes);
  bool is_first = true;
  for (std::size_t place = 0; place < kept_.size(); ++place) {
    if (!reaches(request, shop_.machines()[place]->record.machine.key)) continue;
    if (!std::exchange(is_first, false)) out += ',';
    out += *kept_[place].text;
  }
  return out += end;
}

void FloorLines::refresh(Instant now) {
  for (std::size_t place = 0; place < kept_.size(); ++place) {
    const auto looking = shop_.look();
    const std::lock_guard lock(mutex_);
    if (!is_within(asked_at_, now, looked_at)) return;
    fresh(place, now, refreshed_after);
  }
}

}  // namespace hw::web
