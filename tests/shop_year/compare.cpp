#include "tests/shop_year/compare.h"

#include <cmath>

#include "libs/formats/enum_words.h"
#include "src/service/stores_cases.h"
#include "tests/shop/scene.h"

namespace hw::shop_year {
namespace {

constexpr double hours_dust = 1e-6;

class Comparing {
 public:
  explicit Comparing(const Compared& compared) : compared_(compared), shop_(compared.server.shop()) {}

  std::vector<std::string> all() && {
    entries();
    for (const std::string& machine : machines) {
      const auto view = shop::must(show_machine(shop_, machine, compared_.now));
      tasks(view);
      if (compared_.is_live) hours(view);
    }
    findings();
    stops();
    stores();
    return std::move(found_);
  }

 private:
  template <class Shown, class Right>
  void same(const Shown& shown, const Right& right, std::string_view what) {
    if (shown != right) found_.push_back(fmt::format("{}: it shows {}, right is {}", what, shown, right));
  }
  void same_hours(double shown, double right, std::string_view what) {
    if (std::abs(shown - right) > hours_dust) same(shown, right, what);
  }

  void entries() {
    const auto shown = shop::must(list_logbook(shop_, {}));
    same(shown.size(), compared_.books.entries().size(), "entries in the logbook");
    std::set<std::string> seen;
    for (const auto& one : shown) {
      if (!seen.insert(one.id).second) found_.push_back(fmt::format("entry {} is there twice", one.id));
      const auto right = compared_.books.entries().find(one.id);
      if (right == compared_.books.entries().end()) {
        found_.push_back(fmt::format("entry {} ({}) is there and nobody made it", one.id, one.kind));
      } else {
        entry(one, right->second);
      }
    }
    same(shop::must(show_logbook(shop_, {})).strays, compared_.books.strays_waiting(), "strays that wait");
  }

  void entry(const service::EntryView& shown, const BookEntry& right) {
    const auto of = [&](std::string_view what) {
      return fmt::format("{} of entry {} ({})", what, right.id, right.kind);
    };
    same(shown.kind, right.kind, of("kind"));
    same(shown.machine, right.machine, of("machine"));
    same(shown.by, right.by, of("by"));
    same(shown.ordinal, right.when.ordinal, of("ordinal"));
    same(print(shown.happened_at), print(right.when.at), of("happened_at"));
    same(shown.stray.has_value(), right.is_stray, of("stray"));
    same(shown.undone.value_or(false), right.is_undone, of("undone"));
    same(shown.corrected_by.value_or(std::vector<std::string>{}).size(), right.corrected_by.size(), of("corrections"));
    if (right.kind == "task done" && !right.is_of_stop)
      same(shown.note.value_or(""), right.note.value_or(""), of("note"));
    if (right.task) same(shown.task.value_or(""), *right.task, of("task"));
    const auto counter = shown.counters.find("operating");
    if (right.operating_h && counter == shown.counters.end()) found_.push_back(of("no operating hours"));
    if (right.operating_h && counter != shown.counters.end()) {
      same_hours(counter->second, *right.operating_h, of("operating hours"));
    }
  }

  void tasks(const service::MachineView& view) {
    std::size_t known = 0;
    for (const auto& [place, task] : compared_.books.tasks()) known += place.first == view.key ? 1 : 0;
    same(view.tasks.size() + view.retired.size(), known, "tasks of " + view.key);
    for (const auto& [place, right] : compared_.books.tasks()) {
      if (place.first == view.key) task(view, place.second, right);
    }
  }

  void task(const service::MachineView& view, const std::string& key, const BookTask& right) {
    const auto of = [&](std::string_view what) { return fmt::format("{} of task {} of {}", what, key, view.key); };
    for (const auto& shown : right.is_retired ? view.retired : view.tasks) {
      if (shown.key != key) continue;
      same(shown.version, right.version, of("version"));
      const BookEntry* done = compared_.books.last_done(view.key, key);
      same(shown.last_done ? shown.last_done->id : "never", done != nullptr ? done->id : "never", of("last done"));
      if (!right.is_retired) triggers(shown, right, done);
      return;
    }
    found_.push_back(of(right.is_retired ? "retired: it is not there" : "it is not there"));
  }

  void triggers(const service::TaskView& shown, const BookTask& right, const BookEntry* done) {
    const auto of = [&](std::string_view what) {
      return fmt::format("{} of task {} of {}", what, shown.key, shown.machine);
    };
    const auto then_h = done != nullptr ? done->operating_h : right.began_h;
    const Instant then = done != nullptr ? done->when.at : right.began_at;
    for (const auto& trigger : shown.triggers) {
      if (trigger.counter == "operating" && right.interval_h > 0) {
        same(*trigger.interval, right.interval_h, of("interval"));
        if (then_h && compared_.is_live) use(trigger, operating_h(shown.machine) - *then_h, of("hours"));
      }
      if (trigger.calendar == "1 week" && right.is_own) {
        same(print(*trigger.due_on), print(shop_.calendar().zone.date_of(then) + 7), of("due day"));
      }
    }
  }

  // The words of src/due/task_state.h; at the very edge either is right.
  void use(const service::TriggerView& trigger, double used_h, const std::string& of) {
    same_hours(*trigger.used, std::max(0.0, used_h), of + " used");
    const double left = *trigger.interval - std::max(0.0, used_h);
    const double heads_up = trigger.heads_up.value_or(0), tolerance = trigger.tolerance.value_or(0);
    for (const double edge : {heads_up, 0.0, -tolerance}) {
      if (std::abs(left - edge) < hours_dust) return;
    }
    const bool is_due = left < 0;
    same(trigger.state, left < -tolerance ? "overdue" : is_due ? "due" : left < heads_up ? "coming" : "in hand", of);
  }

  double operating_h(const std::string& machine) const {
    return compared_.floor.hours(machine, "#", compared_.now, compared_.heard);
  }

  // Counted as it truly was, and counted and unknown are all the time there is.
  void hours(const service::MachineView& view) {
    const double elapsed_h = (compared_.now - compared_.floor.begins_at()).as_hours();
    const double unknown_h = compared_.floor.unknown_h(view.key, compared_.now, compared_.heard);
    for (const auto& [key, marks] : {std::pair{"operating", "#"}, {"spindle", "#S"}, {"powered", "#S."}}) {
      for (const auto& counter : view.counters) {
        if (counter.key != key) continue;
        const std::string of = fmt::format("{} hours of {}", key, view.key);
        same_hours(counter.counted, compared_.floor.hours(view.key, marks, compared_.now, compared_.heard), of);
        same_hours(counter.unknown_h, unknown_h, "unknown " + of);
        if (counter.counted + counter.unknown_h > elapsed_h + hours_dust) found_.push_back(of + ": more than time");
        days(view.key, counter);
      }
    }
  }

  // The days add up to the total.
  void days(const std::string& machine, const service::CounterView& counter) {
    const auto& zone = shop_.calendar().zone;
    const auto view = shop::must(show_days(shop_, machine, counter.key, zone.date_of(compared_.floor.begins_at()),
                                           zone.date_of(compared_.now), compared_.now));
    double counted = 0, unknown_h = 0;
    for (const auto& day : view.days) {
      counted += day.counted;
      unknown_h += day.unknown_h;
    }
    same_hours(counted, counter.counted, fmt::format("days of {} of {}", counter.key, machine));
    same_hours(unknown_h, counter.unknown_h, fmt::format("unknown time of the days of {} of {}", counter.key, machine));
  }

  void findings() {
    std::size_t open = 0;
    for (const auto& [id, right] : compared_.books.findings()) {
      const auto view = shop::must(show_finding(shop_, id)).finding;
      const FindingNow now = compared_.books.finding_now(id);
      const auto of = [&](std::string_view what) { return fmt::format("{} of finding {}", what, id); };
      same(view.machine, right.machine, of("machine"));
      same(view.state, now.is_open ? "open" : "settled", of("state"));
      same(view.severity, formats::print_word(now.severity), of("severity"));
      same(view.owner.value_or(""), now.owner, of("owner"));
      same(view.task.value_or(""), now.task, of("task"));
      open += now.is_open ? 1 : 0;
    }
    same(shop::must(show_findings(shop_, {})).findings.size(), open, "open findings");
  }

  void stops() {
    std::size_t agreed = 0;
    for (const auto& [id, right] : compared_.books.stops()) {
      const auto view = shop::must(show_stop(shop_, id, compared_.now)).stop;
      const StopNow now = compared_.books.stop_now(id);
      const auto of = [&](std::string_view what) { return fmt::format("{} of stop {}", what, id); };
      same(view.state, now.state, of("state"));
      same(view.version, now.version, of("version"));
      same(print(view.on), print(now.on), of("day"));
      std::vector<std::string> tasks;
      for (const auto& task : view.tasks) {
        tasks.push_back(task.task);
        same(task.state == "done", right.done.contains(task.task), of("done " + task.task));
      }
      std::vector<std::string> planned = now.tasks;
      std::sort(tasks.begin(), tasks.end());
      std::sort(planned.begin(), planned.end());
      same(fmt::format("{}", fmt::join(tasks, ", ")), fmt::format("{}", fmt::join(planned, ", ")), of("tasks"));
      agreed += now.state == "agreed" ? 1 : 0;
    }
    same(shop::must(show_stops(shop_, {})).stops.size(), agreed, "agreed stops");
  }

  void stores() {
    const auto& stores = shop_.stores();
    same(stores.present_parts().size(), compared_.books.parts().size(), "parts");
    for (const auto& [number, version] : compared_.books.parts()) {
      const auto* part = stores.part(number);
      const ShelfNow right = compared_.books.shelf_now(number);
      same(part != nullptr ? part->version : 0, version, "version of part " + number);
      same(part != nullptr ? part->shelf.book : -1, right.book, "stock of part " + number);
      same(part != nullptr ? part->shelf.difference : -1, right.difference, "missing of part " + number);
      for (const auto& [stop, agreed] : compared_.books.stops()) {
        const auto taken = stores.taken_for(stop);
        const auto there = taken.find(number);
        same(there == taken.end() ? 0 : there->second, std::max(0.0, compared_.books.taken_for(stop, number)),
             fmt::format("{} taken for stop {}", number, stop));
      }
    }
    same(stores.orders().size(), compared_.books.orders().size(), "orders");
    for (const auto& [id, right] : compared_.books.orders()) {
      const auto* order = stores.order(id);
      same(order != nullptr ? order->outstanding(right.part) : -1, compared_.books.outstanding(id), "to come of " + id);
    }
  }

  const Compared& compared_;
  const service::OpenShop& shop_;
  std::vector<std::string> found_;
};

}  // namespace

std::vector<std::string> differences(const Compared& compared) { return Comparing(compared).all(); }

std::vector<std::string> broken(const Server& server) {
  std::vector<std::string> found;
  for (const auto& one : shop::must(prove_logbook(server.shop())).breaks) found.push_back(one.says);
  return found;
}

std::vector<std::string> refused_views(const Server& server, Instant now, bool ahead) {
  std::vector<std::string> found;
  const auto& shop = server.shop();
  const auto made = [&](std::string_view view, const auto& result) {
    if (!result) found.push_back(fmt::format("{}: {}", view, result.error().message));
  };
  show_shop(shop, now);
  show_floor(shop, now);
  show_use_changes(shop);
  show_readiness(shop, now);
  show_kits(shop);
  made("rounds", show_rounds(shop, std::nullopt, now));
  made("all stops", show_stops(shop, {{}, service::StopsShown::all}));
  made("all findings", show_findings(shop, {{}, service::FindingsShown::all}));
  for (const std::string& machine : machines) made("readings", show_readings(shop, machine, now));
  if (!ahead) return found;
  service::UseForecasts forecasts(shop);
  service::PartStudies parts(shop);
  service::StoresStudies stores(shop, forecasts, parts);
  made("horizon", show_horizon(shop, forecasts, std::nullopt, now));
  made("today", show_today(shop, forecasts, parts, stores, now));
  made("stores", show_stores(shop, stores, now));
  made("orders", show_orders(shop, stores, now));
  const std::string month = print(shop.calendar().zone.date_of(now)).substr(0, 7);
  made("month", show_month(shop, {month}, now));
  return found;
}

}  // namespace hw::shop_year
