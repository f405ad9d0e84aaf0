#include "tests/shop/scene.h"

#include <algorithm>

#include "src/catalogue/shop_files.h"
#include "src/service/found_shop.h"
#include "src/storage/database_place.h"
#include "src/storage/open_store.h"

namespace hw::shop {
namespace {

constexpr std::string_view mill_set = R"(format = "hourwright-task-set-1"
kind = "mill"
title = "Mill"
title_de = "Fräse"
note = "For tests."
assembly = [ { key = "spindle", title = "Spindle" }, { key = "coolant", title = "Coolant" } ]
point = [ { number = 1, assembly = "spindle", title = "Spindle nose", x = 0.5, y = 0.5 } ]

[[task]]
key = "filter"
title = "Replace the filter"
assembly = "coolant"
work = "replace"
skill = "operator"
energy = "powered at rest"
minutes = 20
trigger = [ { counter = "operating", interval = 8, heads_up = 2, tolerance = 1 } ]
steps = []
reason = "A clogged filter starves the pump."
caution = "Coolant irritates the skin."
parts = [ { name = "Filter", quantity = 1, unit = "pc" } ]

[[task]]
key = "grease"
title = "Grease the spindle nose"
assembly = "spindle"
point = 1
work = "lubricate"
skill = "technician"
energy = "isolated"
minutes = 5.5
trigger = [ { counter = "spindle", interval = 40 }, { calendar = "1 month", heads_up_days = 7, tolerance_days = 2 } ]
steps = ["Wipe.", "Grease."]
reason = "It runs dry."
caution = "Isolate and lock first."
parts = []

[[task]]
key = "look"
title = "Look over the machine"
assembly = "coolant"
work = "inspect"
skill = "operator"
energy = "in production"
minutes = 3
trigger = [ { calendar = "1 shift" } ]
steps = []
reason = "Leaks are found early."
caution = "Keep the doors closed."
parts = []
)";

std::string shop_file(std::string_view zone) {
  return fmt::format(R"(format = "hourwright-shop-1"
cell = [ {{ key = "c", title = "Cell" }} ]
shift = [ {{ name = "early", starts = "06:00", ends = "14:00", weekdays = [1, 2, 3, 4, 5] }} ]
person = [ {{ name = "Ada", skill = "technician" }} ]
[plant]
name = "Test plant"
zone = "{}"
agent = "http://127.0.0.1:5000"
[[machine]]
key = "mill1"
name = "Mill 1"
kind = "mill"
cell = "c"
[[machine]]
key = "mill2"
name = "Mill 2"
kind = "mill"
cell = "c"
)",
                     zone);
}

}  // namespace

std::string id_of(int number) { return fmt::format("01941f29-7c00-7aaa-8bbb-{:012}", number); }

Scene::Scene(std::string_view begin, std::string_view zone, MoreTasks more, Engine engine)
    : now(*parse_instant(begin)), database_(engine == Engine::postgres ? std::make_unique<TestDatabase>() : nullptr) {
  const std::string set = fmt::format("{}\n{}", mill_set, more.toml);
  const std::vector sets{must(catalogue::parse_task_set(set, "mill.toml"))};
  const auto shop = must(catalogue::parse_shop(shop_file(zone), "shop.toml"));
  const auto made = must(service::found_shop(shop, sets, now));
  store_ = open_store();
  must(store_->create_shop(made.shop, made.machines));
  open();
  tell_model(model_of("mill1"));
  tell_model(model_of("mill2"));
}

std::unique_ptr<service::Store> Scene::open_store() const {
  if (database_) must(storage::place_on_server(folder(), database_->address()));
  return must(storage::open_store(folder()));
}

void Scene::open() {
  if (!store_) store_ = open_store();
  shop_ = must(service::OpenShop::open(*store_));
  std::optional<feeds::Position> position;
  for (const auto& one : must(store_->positions())) position = {one.instance_id, one.next_sequence};
  feed_ = std::make_unique<service::FeedSink>(*shop_, "feed-1", position, [](std::string_view) {});
  if (position) next_sequence_ = position->next_sequence;
}

void Scene::end_and_reopen() {
  feed_.reset();
  shop_.reset();
  store_.reset();
  open();
}

void Scene::reopen() {
  must(keep());
  end_and_reopen();
}

feeds::Batch Scene::batch() const {
  feeds::Batch batch;
  batch.feed = "feed-1";
  batch.position = {7, next_sequence_};
  batch.received_at = now;
  batch.alive_at = now;
  return batch;
}

void Scene::tell(std::string_view machine, std::vector<counters::Observation> observations) {
  next_sequence_ += observations.size();
  feeds::Batch told = batch();
  told.machines.push_back({std::string{machine}, std::move(observations), {}});
  must(feed_->take(told));
}

void Scene::tell_model(counters::MachineModel model) {
  feeds::Batch told = batch();
  told.models = std::vector{std::move(model)};
  must(feed_->take(told));
}

void Scene::play(std::string_view picture) {
  const Picture played = parse_picture(picture);
  for (const char mark : played.marks) {
    tell(played.machine, state_at(mark, now));
    now = now + Duration::hours(1);
    must(feed_->take(batch()));
  }
}

Result<void> Scene::keep() { return service::store_counting(*shop_, {feed_.get()}, now); }

service::MachineView Scene::machine(std::string_view key) const { return must(show_machine(*shop_, key, now)); }

service::TaskView Scene::task(std::string_view key, std::string_view machine) const {
  const auto view = this->machine(machine);
  for (const auto* tasks : {&view.tasks, &view.retired}) {
    for (const auto& one : *tasks) {
      if (one.key == key) return one;
    }
  }
  ADD_FAILURE() << "no task " << key;
  return {};
}

service::CounterView Scene::counter(std::string_view key, std::string_view machine) const {
  for (const auto& one : this->machine(machine).counters) {
    if (one.key == key) return one;
  }
  ADD_FAILURE() << "no counter " << key;
  return {};
}

double Scene::total(std::string_view key, std::string_view machine) const { return counter(key, machine).total; }

std::vector<service::DayRecord> Scene::days(std::string_view counter, std::string_view machine) const {
  const LocalDate today = shop_->calendar().zone.date_of(now);
  return must(store_->days_of(machine, counter, today - 30, today + 1));
}

std::vector<service::CounterDayView> Scene::shown_days(std::string_view counter) const {
  const LocalDate today = shop_->calendar().zone.date_of(now);
  return must(show_days(*shop_, "mill1", counter, today - 30, today, now)).days;
}

Result<service::EntryView> Scene::done(std::string_view task, int id, std::string by) {
  return mark_done(*shop_, "mill1", task, {{id_of(id), std::move(by), {}, {}}, {}}, now);
}

Result<service::EntryView> Scene::undo(int entry, int id, std::string by) {
  return service::undo(*shop_, id_of(entry), {id_of(id), std::move(by), {}, {}}, now);
}

Result<service::HourReadingView> Scene::read_hours(double display_h, int id, std::string counter) {
  return service::read_hours(*shop_, "mill1", {id_of(id), "Ada", std::move(counter), display_h, {}}, now);
}

Result<service::HourReadingView> Scene::settle(int reading, std::string as, int id) {
  return settle_hours(*shop_, "mill1", id_of(reading), {id_of(id), "Ada", std::move(as)}, now);
}

}  // namespace hw::shop
