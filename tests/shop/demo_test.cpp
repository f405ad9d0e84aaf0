// The invented shop as the demo founds it: months of counting, a record of what was done, a mix of states worth looking
// at.

#include <algorithm>
#include <map>

#include <gtest/gtest.h>
#include <unistd.h>

#include "src/proposal/stop_instance.h"
#include "src/service/look_ahead.h"
#include "src/service/use_cases.h"
#include "src/simulate/demo_record.h"
#include "src/simulate/demo_rounds.h"
#include "src/simulate/demo_shop.h"
#include "src/simulate/demo_stops.h"
#include "src/simulate/demo_stores.h"
#include "src/simulate/demo_use.h"
#include "src/storage/founding_files.h"
#include "src/storage/open_store.h"
#include "tests/places/places.h"
#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

const Instant wednesday = *parse_instant("2026-03-04T10:00:00Z");

// How many tasks that belong to no round are in hand, and how many are not.
std::pair<int, int> standings_beside_rounds(const service::MachineView& machine) {
  std::pair<int, int> out;
  for (const auto& task : machine.tasks) {
    const bool is_of_a_round = std::any_of(task.triggers.begin(), task.triggers.end(), [](const auto& one) {
      return one.calendar && one.calendar->starts_with("1 ") && *one.calendar != "1 month" && *one.calendar != "1 year";
    });
    if (!is_of_a_round) ++(task.state == "in hand" ? out.first : out.second);
  }
  return out;
}

// Its stops can be planned, and a Saturday is among the days on which one could be.
void expect_plannable(const service::OpenShop& shop) {
  service::UseForecasts forecasts(shop);
  const auto ahead = must(service::look_ahead(shop, forecasts, std::nullopt, wednesday));
  const auto made = make_instance(ahead, 84, proposal::Moving::fixed);
  const auto checked = plan::check_instance(made.instance);
  EXPECT_TRUE(checked) << checked.error().message;
  for (const auto& machine : made.instance.machines) EXPECT_GT(machine.tasks.size(), 15u) << machine.id;
  const std::size_t saturday = 3;  // from Wednesday on
  EXPECT_GT(made.instance.crews.at(1).hours.at(saturday).at(0), 0);
  EXPECT_EQ(made.instance.machines.at(0).loss_per_hour.at(saturday).at(0), 0);
}

TEST(DemoShop, IsFoundedWithItsHistoryAndMostTasksInHand) {
  const auto folder = std::filesystem::path(testing::TempDir()) / ("hourwright-demo-" + std::to_string(::getpid()));
  std::filesystem::remove_all(folder);
  auto files = must(storage::read_founding_files(in_source("demo/shop.toml"), in_source("library")));
  files.shop.machines.resize(4);  // the whole of it takes long in a build with sanitizers
  const auto floor = must(simulate::demo_floor(files.shop, wednesday));
  const auto founded = must(service::found_shop(files.shop, files.sets, wednesday));
  const auto store = must(storage::open_store(folder));
  ASSERT_TRUE(simulate::found_demo(*store, founded, *floor, {}, wednesday));
  const auto open = must(service::OpenShop::open(*store));
  for (const auto& machine : show_floor(*open, wednesday).machines) {
    EXPECT_EQ(machine.counters.size(), 5u) << machine.key;
    for (const auto& counter : machine.counters) {
      EXPECT_GT(counter.counted, 200) << machine.key << " " << counter.key;
      EXPECT_LE(counter.counted + counter.unknown_h, 24.0 * simulate::demo_history_days + 1);
    }
    EXPECT_EQ(machine.rounds.size(), 4u) << machine.key;
    const auto [in_hand, others] = standings_beside_rounds(must(show_machine(*open, machine.key, wednesday)));
    EXPECT_GT(in_hand, 3 * others) << machine.key;
  }
  const auto machine = must(show_machine(*open, "m01", wednesday));
  for (const auto& task : machine.tasks) {
    ASSERT_TRUE(task.last_done) << task.key;
    EXPECT_LT(task.last_done->at, wednesday);
    for (const auto& trigger : task.triggers) EXPECT_GE(trigger.used.value_or(0), 0) << task.key;
  }
  const auto stops = must(show_stops(*open, {{}, service::StopsShown::all})).stops;
  ASSERT_EQ(stops.size(), 3u) << "of the first four machines";
  EXPECT_EQ(stops[0].state, "agreed");
  EXPECT_GT(stops[0].begins_at, wednesday);
  EXPECT_EQ(stops[2].state, "closed");
  for (const auto& stop : stops) EXPECT_TRUE(show_stop(*open, stop.id, wednesday)) << stop.id;
  expect_plannable(*open);
  const auto logbook = must(storage::verify_logbook(folder, {}));
  EXPECT_GT(logbook.entries, 100);
  EXPECT_TRUE(logbook.breaks.empty());
  std::filesystem::remove_all(folder);
}

TEST(DemoRounds, AreWalkedMissedAndHalfWalkedAndReadingsStayWithinTheirLimits) {
  auto files = must(storage::read_founding_files(in_source("demo/shop.toml"), in_source("library")));
  files.shop.machines.resize(4);
  const auto founded = must(service::found_shop(files.shop, files.sets, wednesday));
  const simulate::DemoUse use({{"operating", 1000}}, {}, LocalDate::of(2026, 3, 4), 1);
  std::map<std::string, int> kinds;
  for (const auto& machine : founded.machines) {
    const auto rounds = simulate::demo_rounds(machine, founded.shop, use, 7, wednesday);
    EXPECT_GT(simulate::demo_entries(machine, founded.shop, use, 7, wednesday).size(), rounds.size());
    for (const auto& entry : rounds) {
      ++kinds[entry.kind];
      EXPECT_LT(entry.at, wednesday);
      EXPECT_FALSE(entry.body.stray) << *entry.body.stray;
      for (const auto& answer : entry.body.answers.value_or(std::vector<service::GivenAnswer>{})) {
        EXPECT_NE(answer.state, "action") << entry.says;
      }
    }
  }
  const int turns = 4 * (19 + 10 + 10 + 12);
  EXPECT_GT(kinds["round begun"], turns * 8 / 10);
  EXPECT_LT(kinds["round begun"], turns);
  EXPECT_GT(kinds["check answered"], kinds["round begun"] / 3);
  EXPECT_GT(kinds["others as they should be"], kinds["round begun"] * 6 / 10);
}

TEST(DemoStops, AreAheadOverAndClosedAndNoneIsToldBeforeItHappened) {
  auto files = must(storage::read_founding_files(in_source("demo/shop.toml"), in_source("library")));
  const auto founded = must(service::found_shop(files.shop, files.sets, wednesday));
  const simulate::DemoUse use({{"operating", 1000}}, {}, LocalDate::of(2026, 3, 4), 1);
  std::map<std::string, int> kinds;
  for (const auto& machine : founded.machines) {
    const auto done = simulate::demo_entries(machine, founded.shop, use, 7, wednesday);
    for (const auto& entry : simulate::demo_stops(machine, founded.shop, use, done, 7, wednesday)) {
      EXPECT_LT(entry.at, wednesday) << entry.says;
      EXPECT_TRUE(entry.body.stop) << entry.says;
      ++kinds[entry.kind];
    }
  }
  EXPECT_EQ(kinds["stop agreed"], 12);
  EXPECT_EQ(kinds["stop closed"], 4);
  EXPECT_EQ(kinds["stop withdrawn"], 1);
  EXPECT_GT(kinds["task done"], 8);
}

TEST(DemoStores, ASaturdaysKitLacksOnePartThatIsNotOnOrderAndOneShelfIsDisputed) {
  auto files = must(storage::read_founding_files(in_source("demo/shop.toml"), in_source("library")));
  const auto founded = must(service::found_shop(files.shop, files.sets, wednesday));
  const simulate::DemoUse use({{"operating", 1000}}, {}, LocalDate::of(2026, 3, 4), 1);
  std::vector<service::Entry> entries;
  for (const auto& machine : founded.machines) {
    const auto done = simulate::demo_entries(machine, founded.shop, use, 7, wednesday);
    auto stops = simulate::demo_stops(machine, founded.shop, use, done, 7, wednesday);
    std::move(stops.begin(), stops.end(), std::back_inserter(entries));
  }
  service::Stores stores;
  const auto told = simulate::demo_stores(founded, entries, 7, wednesday);
  stores.take(told);
  for (const auto& entry : told) EXPECT_LT(entry.at, wednesday) << entry.says;
  int lacking = 0;
  for (const auto& [number, part] : stores.parts()) {
    EXPECT_EQ(part.shelf.difference, number == "F-104" ? -1 : 0) << number;
    if (part.moves.front().quantity > 0) continue;
    ++lacking;
    EXPECT_EQ(part.shelf.book, 0) << number;
  }
  EXPECT_EQ(lacking, 1) << "of which there was none from the first count on";
  const auto is_open = [](const auto& order) { return order.second.is_open(); };
  EXPECT_EQ(std::count_if(stores.orders().begin(), stores.orders().end(), is_open), 1) << "the late one";
}

TEST(DemoUse, AnAmountIsFoundWhereTheDaysRoseByIt) {
  const LocalDate today = LocalDate::of(2026, 3, 4);
  constexpr std::int64_t ten_hours_ns = Duration::hours(10).ns;
  const std::vector<service::CounterDays> days{{"operating", {{today, ten_hours_ns}, {today - 1, ten_hours_ns}}}};
  const simulate::DemoUse use({{"operating", 1000}}, days, today, 1);
  EXPECT_NEAR(use.totals_ago(1).at("operating"), 990, 1e-9);
  EXPECT_NEAR(use.totals_ago(10).at("operating"), 900, 1e-9);  // before the history, by its mean
  EXPECT_NEAR(use.days_since("operating", 50), 5, 0.03);
  EXPECT_EQ(use.days_since("spindle", 1), simulate::DemoUse::days_max);
}

TEST(FoundingFiles, AMissingFileOrLibraryIsNamed) {
  const auto shop = storage::read_founding_files("/nowhere/shop.toml", in_source("library"));
  EXPECT_EQ(shop.error().code, ErrorCode::not_found);
  EXPECT_NE(shop.error().message.find("/nowhere/shop.toml"), std::string::npos);
  const auto library = storage::read_founding_files(in_source("demo/shop.toml"), "/nowhere/library");
  EXPECT_NE(library.error().message.find("/nowhere/library"), std::string::npos);
}

}  // namespace
}  // namespace hw::shop
