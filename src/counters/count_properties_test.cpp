#include <gtest/gtest.h>

#include "src/counters/count_run.h"
#include "src/counters/naive_test.h"

namespace hw::counters {
namespace {

constexpr std::uint64_t seeds = 150;

CountSettings random_settings(naive::Chance& chance) {
  CountSettings settings;
  if (chance.happens(0.5)) settings.load_above_percent = static_cast<double>(chance.below(6));
  settings.by_day = chance.happens(0.5);
  return settings;
}

Window random_window(naive::Chance& chance, const std::vector<Observation>& arrivals) {
  if (chance.happens(0.3)) return {};
  const std::int64_t end = arrivals.back().at.ns / naive::Chance::tenth;
  const auto from = static_cast<std::int64_t>(chance.below(static_cast<std::uint64_t>(end)));
  const auto to = from + 1 + static_cast<std::int64_t>(chance.below(static_cast<std::uint64_t>(end)));
  return {Instant{from * naive::Chance::tenth}, Instant{to * naive::Chance::tenth}};
}

// Amounts are not whole: the reference does not know them.
Tally without_amount(Tally tally) {
  tally.amount = 0;
  return tally;
}

TEST(CountRun, Property_EqualsThePlainReadingOfTheConventionsToTheNanosecond) {
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    const MachineModel model = chance.machine();
    const std::vector<Observation> arrivals = chance.arrivals(model, 20 + chance.below(150));
    const CountSettings settings = random_settings(chance);
    const std::vector<Source> sources = {arrivals};
    const auto report = count_run(model, sources, random_window(chance, arrivals), settings);
    ASSERT_TRUE(report) << report.error().message;
    const naive::Machine plain(model, settings, naive::ordered(arrivals));
    for (std::size_t slot = 0; slot < machine_counters; ++slot) {
      const auto kind = static_cast<CounterKind>(slot);
      SCOPED_TRACE(word_of(kind));
      ASSERT_EQ(report->counters[slot].has_value(), plain.state(kind, report->from).has_value());
      if (!report->counters[slot]) continue;
      ASSERT_EQ(without_amount(*report->counters[slot]), plain.tally(kind, report->from, report->to));
    }
  }
}

TEST(CountRun, Property_TrueFalseAndUnknownAreTheWindow) {
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    const MachineModel model = chance.machine();
    const std::vector<Observation> arrivals = chance.arrivals(model, 300);
    const std::vector<Source> sources = {arrivals};
    const auto report = count_run(model, sources, random_window(chance, arrivals), random_settings(chance));
    ASSERT_TRUE(report);
    for (const auto& tally : report->counters) {
      if (!tally) continue;
      ASSERT_EQ(tally->counted_ns() + tally->false_ns() + tally->unknown_ns(), report->window_ns());
    }
    for (const ItemCount& item : report->items) {
      ASSERT_EQ(item.tally.counted_ns() + item.tally.false_ns() + item.tally.unknown_ns(), report->window_ns());
    }
  }
}

TEST(CountRun, Property_DaysAddUpToTheWhole) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    const MachineModel model = chance.machine();
    std::vector<Observation> arrivals = chance.arrivals(model, 300);
    for (Observation& one : arrivals) one.at.ns *= 2000;  // weeks
    CountSettings settings;
    settings.by_day = true;
    settings.zone = *Zone::find(seed % 2 == 0 ? "America/New_York" : "Australia/Lord_Howe");
    const std::vector<Source> sources = {arrivals};
    const auto report = count_run(model, sources, {}, settings);
    ASSERT_TRUE(report);
    for (std::size_t slot = 0; slot < machine_counters; ++slot) {
      if (!report->counters[slot]) continue;
      Tally sum;
      for (const auto& [date, tallies] : report->days) sum += tallies[slot];
      ASSERT_EQ(sum, *report->counters[slot]);
    }
  }
}

// One log cut into several files, some of them given twice, in any order.
TEST(CountRun, Property_TheOrderOfTheFilesDoesNotMatter) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    const MachineModel model = chance.machine();
    std::vector<Observation> arrivals = chance.arrivals(model, 400);
    std::stable_sort(arrivals.begin(), arrivals.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    std::vector<Source> files;
    std::size_t begin = 0;
    for (std::size_t n = 1; n < arrivals.size(); ++n) {
      if (arrivals[n].at == arrivals[n - 1].at || !chance.happens(0.05)) continue;
      files.push_back(Source(arrivals).subspan(begin, n - begin));
      begin = n;
    }
    files.push_back(Source(arrivals).subspan(begin));
    const std::vector<Source> whole = {arrivals};
    const auto expected = count_run(model, whole, {}, {});
    ASSERT_TRUE(expected);
    files.push_back(files[chance.below(files.size())]);
    for (std::size_t n = files.size() - 1; n > 0; --n) std::swap(files[n], files[chance.below(n + 1)]);
    const auto report = count_run(model, files, {}, {});
    ASSERT_TRUE(report);
    ASSERT_EQ(report->counters, expected->counters);
  }
}

}  // namespace
}  // namespace hw::counters
