#include "src/sheets/stop_card.h"

#include <algorithm>

#include "libs/formats/enum_words.h"
#include "libs/http/url.h"
#include "libs/values/assert.h"

namespace hw::sheets {
namespace {

// By the clock on the wall, also on the two days of the year on which it is set.
std::string clock_at(const Zone& zone, Instant instant) {
  const auto minutes = instant.as_millis() / 60'000 + zone.offset_minutes(instant);
  const auto of_day = minutes - std::int64_t{zone.date_of(instant).days} * 24 * 60;
  return fmt::format("{:02}:{:02}", of_day / 60, of_day % 60);
}

CardShift shift_of(const service::StopView& stop, const Zone& zone) {
  return {stop.shift, clock_at(zone, stop.begins_at), clock_at(zone, stop.ends_at)};
}

// The service's words are those of the enumerators; another is a mistake of ours.
template <class E>
E of_word(std::string_view word) {
  const auto value = formats::parse_word<E>(word);
  HW_ASSERT(value.has_value(), "the service tells states and changes in the contract's words");
  return *value;
}

std::vector<CardPhase> phases_of(const service::CardOrderView& order) {
  std::vector<CardPhase> phases;
  for (const auto& view : order.phases) {
    const auto energy = catalogue::parse_energy_state(view.energy);
    HW_ASSERT(energy.has_value(), "the service tells energy states in the catalogue's words");
    CardPhase phase{*energy, of_word<StateChange>(view.change), {}};
    for (const auto& work : view.works) {
      phase.works.push_back({work.task, work.person, work.begin_minutes, work.alone, work.after});
    }
    phases.push_back(std::move(phase));
  }
  return phases;
}

std::vector<catalogue::Task> tasks_of(const service::StopCardView& view, const service::MachineRecord& machine) {
  std::vector<catalogue::Task> tasks;
  for (const auto& shown : view.tasks) {
    const auto found = std::find_if(machine.tasks.begin(), machine.tasks.end(),
                                    [&](const auto& record) { return record.task.key == shown.key; });
    HW_ASSERT(found != machine.tasks.end(), "tasks are retired, never taken out");
    tasks.push_back(found->task);
  }
  return tasks;
}

void put_kind(JobCard& card, const service::ShopRecord& shop, CardLanguage language) {
  card.kind = card.machine.kind;
  for (const auto& kind : shop.kinds) {
    if (kind.key != card.machine.kind) continue;
    card.kind = language == CardLanguage::german && !kind.title_de.empty() ? kind.title_de : kind.title;
    card.isolation = kind.isolation;
  }
}

std::string cell_title(const service::ShopRecord& shop, const std::string& key) {
  const auto found =
      std::find_if(shop.cells.begin(), shop.cells.end(), [&](const auto& one) { return one.key == key; });
  return found == shop.cells.end() ? key : found->title;
}

std::string point_title(const service::MachineRecord& machine, std::optional<int> number) {
  for (const auto& point : machine.points) {
    if (number && point.number == *number) return point.title;
  }
  return "";
}

}  // namespace

JobCard job_card_of(const service::StopCardView& view, const service::MachineRecord& machine,
                    const service::ShopRecord& shop, CardLanguage language) {
  const Zone& zone = shop.calendar.zone;
  JobCard card;
  card.stop = view.stop.id;
  card.plant = shop.plant;
  card.machine = machine.machine;
  card.cell = cell_title(shop, card.machine.cell);
  card.assemblies = machine.assemblies;
  card.points = machine.points;
  card.on = view.stop.on;
  card.shift = shift_of(view.stop, zone);
  card.state = of_word<CardState>(view.stop.state);
  card.agreed_by = view.stop.by;
  card.agreed_on = zone.date_of(view.stop.at);
  card.note = view.stop.note;
  card.minutes_one = view.order.minutes_one;
  card.minutes_two = view.order.minutes_two;
  card.tasks = tasks_of(view, machine);
  card.phases = phases_of(view.order);
  for (const auto& part : view.kit) {
    const std::string place = part.place ? ", " + *part.place : "";
    card.kit.push_back({part.name, part.quantity, part.unit, part.tasks, part.part.value_or("") + place});
  }
  for (const auto& one : view.findings) card.findings.push_back({one.what, point_title(machine, one.point)});
  put_kind(card, shop, language);
  if (view.service) {
    const bool is_german = language == CardLanguage::german && !view.service->title_de.empty();
    card.service = is_german ? view.service->title_de : view.service->title;
  }
  return card;
}

Result<std::string> stop_address(std::string_view base_address, std::string_view stop) {
  const auto base = http::parse_url(base_address);
  if (!base) return refuse(base.error().at("base"));
  if (base->target.find('?') != std::string::npos) {
    return refuse(ErrorCode::bad_input,
                  "base: {} has a query; right is only the server, as in http://shop.example:8470", base_address);
  }
  return http::print(base->with("/stop/" + http::percent_encode(stop)));
}

}  // namespace hw::sheets
