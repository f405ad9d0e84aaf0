#include "src/counters/live_count.h"

#include <algorithm>
#include <map>

#include <gtest/gtest.h>

#include "src/counters/count_run.h"
#include "src/counters/naive_test.h"

namespace hw::counters {
namespace {

// Clocks of random feeds differ by up to 20 s: all of that finds its place.
LiveSettings wide_settings() {
  LiveSettings settings;
  settings.reorder = Duration::seconds(60);
  return settings;
}

const CounterTotal* find_total(const Snapshot& snapshot, std::string_view key) {
  const auto total = std::find_if(snapshot.totals.begin(), snapshot.totals.end(),
                                  [&](const CounterTotal& one) { return print(one.key) == key; });
  return total == snapshot.totals.end() ? nullptr : &*total;
}

double counted_s(const Snapshot& snapshot, std::string_view key) {
  const CounterTotal* total = find_total(snapshot, key);
  return total == nullptr ? -1 : static_cast<double>(total->tally.counted_ns()) / 1e9;
}

double unknown_s(const Snapshot& snapshot, std::string_view key) {
  const CounterTotal* total = find_total(snapshot, key);
  return total == nullptr ? -1 : static_cast<double>(total->tally.unknown_ns()) / 1e9;
}

double filled_s(const Snapshot& snapshot, std::string_view key) {
  const CounterTotal* total = find_total(snapshot, key);
  return total == nullptr ? -1 : static_cast<double>(total->tally.filled_ns) / 1e9;
}

struct Feed {
  MachineModel model;
  std::vector<Observation> arrivals;  // every item is known before the count begins at 0
  Instant end;
};

MachineModel positions_machine() {
  MachineModel model;
  model.name = "mill-2";
  model.items = {item_of("exec", Role::execution), item_of("X", Role::position), item_of("Y", Role::position),
                 item_of("speed", Role::spindle_speed)};
  return model;
}

Feed random_feed(naive::Chance& chance) {
  Feed feed;
  feed.model = chance.happens(0.3) ? positions_machine() : chance.machine();
  for (std::uint32_t i = 0; i < feed.model.items.size(); ++i) feed.arrivals.push_back(seen(-100, i, 0));
  for (const Observation& one : chance.arrivals(feed.model, 300)) feed.arrivals.push_back(one);
  for (const Observation& one : feed.arrivals) feed.end = std::max(feed.end, one.at);
  feed.end = feed.end + Duration::seconds(10);
  return feed;
}

Report whole(const Feed& feed) {
  const std::vector<Source> sources = {feed.arrivals};
  CountSettings settings;
  settings.by_day = true;
  return *count_run(feed.model, sources, {Instant{0}, feed.end}, settings);
}

void expect_equal(const Snapshot& snapshot, const Feed& feed) {
  const Report report = whole(feed);
  for (std::size_t slot = 0; slot < machine_counters; ++slot) {
    const std::string_view key = word_of(static_cast<CounterKind>(slot));
    const CounterTotal* total = find_total(snapshot, key);
    ASSERT_EQ(total != nullptr, report.counters[slot].has_value()) << key;
    if (total == nullptr) continue;
    Tally tally = total->tally;
    tally.filled_ns = 0;  // recordings are not filled
    ASSERT_EQ(tally, *report.counters[slot]) << key;
  }
  for (const ItemCount& item : report.items) {
    if (feed.model.items[item.item].role != Role::spindle_speed) continue;
    ASSERT_EQ(find_total(snapshot, "spindle " + item.label)->tally, item.tally);
    ASSERT_EQ(find_total(snapshot, "revolutions " + item.label)->tally, item.tally);
  }
}

// Takes a feed in pieces of random size; between two of them `between` may do what it likes with the count.
template <class Between>
void take_in_pieces(LiveCount& live, const Feed& feed, naive::Chance& chance, Between between) {
  Instant now{0};
  for (std::size_t begin = 0; begin < feed.arrivals.size();) {
    const std::size_t size =
        std::min<std::size_t>(1 + chance.below(chance.happens(0.2) ? 200 : 5), feed.arrivals.size() - begin);
    for (std::size_t n = begin; n < begin + size; ++n) now = std::max(now, feed.arrivals[n].at);
    const auto late = live.take(std::span(feed.arrivals).subspan(begin, size), now);
    ASSERT_FALSE(late) << print(*late);
    begin += size;
    between(now);
  }
}

TEST(LiveCount, Property_InAnyPiecesCountsWhatTheWholeRecordingCounts) {
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    const Feed feed = random_feed(chance);
    LiveCount live(feed.model, wide_settings(), Instant{0});
    take_in_pieces(live, feed, chance, [&](Instant now) {
      if (chance.happens(0.1)) live.snapshot(now);
    });
    expect_equal(live.snapshot(feed.end), feed);
  }
}

TEST(LiveCount, Property_SavedAndRestoredAtAnyPointGoesOnBitByBit) {
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    const Feed feed = random_feed(chance);
    LiveCount live(feed.model, wide_settings(), Instant{0});
    take_in_pieces(live, feed, chance, [&](Instant now) {
      if (!chance.happens(0.3)) return;
      const std::string record = live.save();
      auto restored = LiveCount::restore(feed.model, wide_settings(), record);
      ASSERT_TRUE(restored) << restored.error().message;
      ASSERT_EQ(restored->snapshot(now).totals, live.snapshot(now).totals);
      ASSERT_EQ(restored->save(), record);
      live = std::move(*restored);
    });
    expect_equal(live.snapshot(feed.end), feed);
  }
}

TEST(LiveCount, Property_RowsOfDaysAddUpToTheTotals) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    Feed feed = random_feed(chance);
    for (Observation& one : feed.arrivals) one.at.ns *= 1000;  // days
    feed.end.ns *= 1000;
    LiveSettings settings;
    settings.reorder = Duration::hours(24);
    settings.counting.zone = *Zone::find("Europe/Berlin");
    LiveCount live(feed.model, settings, Instant{0});
    std::map<std::pair<std::int32_t, std::string>, CounterDay> stored;
    const auto store = [&](const std::vector<CounterDay>& days) {
      for (const CounterDay& day : days) stored[{day.date.days, print(day.key)}] = day;
    };
    take_in_pieces(live, feed, chance, [&](Instant) { store(live.changed_days()); });
    const Snapshot snapshot = live.snapshot(feed.end);
    store(snapshot.days);
    for (const CounterTotal& total : snapshot.totals) {
      std::int64_t counted = 0, unknown = 0, filled = 0;
      for (const auto& [key, day] : stored) {
        if (key.second != print(total.key)) continue;
        counted += day.counted_ns;
        unknown += day.unknown_ns;
        filled += day.filled_ns;
      }
      ASSERT_EQ(counted, total.tally.counted_ns()) << print(total.key);
      ASSERT_EQ(unknown, total.tally.unknown_ns()) << print(total.key);
      ASSERT_EQ(filled, total.tally.filled_ns) << print(total.key);
      ASSERT_LE(total.tally.filled_ns, total.tally.unknown_ns()) << print(total.key);
    }
  }
}

TEST(LiveCount, Property_OrderOfArrivalWithinTheWindowDoesNotMatter) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(seed);
    naive::Chance chance(seed);
    const MachineModel model = scene_machine();
    std::vector<Observation> arrivals;
    for (std::uint32_t i = 0; i < model.items.size(); ++i) arrivals.push_back(seen(-100, i, 0));
    std::int64_t tenths = 0;
    for (int n = 0; n < 300; ++n) {
      const auto item = static_cast<std::uint32_t>(chance.below(model.items.size()));
      arrivals.push_back({Instant{(tenths += 1 + static_cast<std::int64_t>(chance.below(9))) * naive::Chance::tenth},
                          item, chance.value(model.items[item].role)});
    }
    const Feed ordered{model, arrivals, arrivals.back().at + Duration::seconds(10)};
    Feed mixed = ordered;
    for (std::size_t n = 20; n < arrivals.size(); ++n) {
      auto& one = mixed.arrivals[n];
      auto& before = mixed.arrivals[n - 1];
      const bool may = one.item != before.item && one.at - before.at < Duration::seconds(2);
      if (may && chance.happens(0.5)) std::swap(one, before);
    }
    LiveSettings settings;
    settings.reorder = Duration::seconds(30);
    LiveCount live(model, settings, Instant{0});
    take_in_pieces(live, mixed, chance, [](Instant) {});
    expect_equal(live.snapshot(ordered.end), ordered);
  }
}

LiveCount running_since_0(LiveSettings settings = {}) {
  LiveCount live(scene_machine(), std::move(settings), Instant{0});
  const std::vector<Observation> arrivals = {seen(-5000, exec, 1), seen(-5000, timer, 1000), seen(-5000, speed1, 60)};
  EXPECT_FALSE(live.take(arrivals, at_s(0)));
  return live;
}

TEST(LiveCount, WhatWasBeforeTheBeginningOnlySetsTheState) {
  const Snapshot snapshot = running_since_0().snapshot(at_s(100));
  EXPECT_EQ(counted_s(snapshot, "operating"), 100);
  EXPECT_EQ(find_total(snapshot, "revolutions speed1")->tally.amount, 100);
  EXPECT_EQ(find_total(snapshot, "operating")->state, Truth::yes);
}

TEST(LiveCount, ASnapshotChangesNothingAndNeverCountsPastNow) {
  LiveCount live = running_since_0();
  const std::vector<Observation> ahead = {seen(300, exec, 0)};  // the machine's clock is ahead of ours
  EXPECT_FALSE(live.take(ahead, at_s(10)));
  const std::string record = live.save();
  EXPECT_EQ(counted_s(live.snapshot(at_s(20)), "operating"), 20);
  EXPECT_EQ(live.save(), record);
  EXPECT_EQ(counted_s(live.snapshot(at_s(400)), "operating"), 300);
}

TEST(LiveCount, AnItemCountsFromWhenItIsFirstKnown) {
  LiveCount live = running_since_0();
  const std::vector<Observation> first = {seen(40, path, gone), seen(60, path, 5)};
  EXPECT_FALSE(live.take(first, at_s(60)));
  EXPECT_FALSE(find_total(live.snapshot(at_s(50)), "feeding"));
  const Snapshot snapshot = live.snapshot(at_s(100));
  EXPECT_EQ(counted_s(snapshot, "feeding"), 40);
  EXPECT_EQ(unknown_s(snapshot, "feeding"), 0);
  EXPECT_EQ(counted_s(snapshot, "cutting"), 40);
}

TEST(LiveCount, TellsTheEarliestTimeOfWhatCameTooLate) {
  LiveCount live = running_since_0();
  const std::vector<Observation> far = {seen(100, exec, 0), seen(101, exec, 1)};
  EXPECT_FALSE(live.take(far, at_s(101)));
  const std::vector<Observation> slightly = {seen(97, speed1, 0)};
  EXPECT_FALSE(live.take(slightly, at_s(101)));
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(200, exec, 0), seen(201, exec, 1)}, at_s(201)));
  EXPECT_EQ(live.take(std::vector<Observation>{seen(150, exec, 0), seen(90, speed1, 5)}, at_s(201)), at_s(90));
}

// After a lost link `current` tells all values once more, with the times at which they began.
TEST(LiveCount, OldValuesThatComeAgainAreNotLate) {
  LiveCount live = running_since_0();
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(100, speed1, 70), seen(200, speed1, 80)}, at_s(200)));
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(-5000, exec, 1), seen(-9000, path, 3)}, at_s(205)));
  EXPECT_EQ(counted_s(live.snapshot(at_s(300)), "operating"), 300);
}

TEST(LiveCount, AnInterruptionIsUnknownThoughValuesHold) {
  LiveCount live = running_since_0();
  EXPECT_FALSE(live.interrupt(at_s(10), at_s(30)));
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(40, speed1, 120)}, at_s(40)));
  const Snapshot snapshot = live.snapshot(at_s(50));
  EXPECT_EQ(counted_s(snapshot, "operating"), 30);
  EXPECT_EQ(unknown_s(snapshot, "operating"), 20);
  EXPECT_EQ(counted_s(snapshot, "connected"), 30);
  EXPECT_EQ(find_total(snapshot, "revolutions speed1")->tally.amount, 10 + 10 + 20);
}

TEST(LiveCount, InterruptionsThatOverlapCountOnce) {
  LiveCount live = running_since_0();
  EXPECT_FALSE(live.interrupt(at_s(10), at_s(30)));
  EXPECT_FALSE(live.interrupt(at_s(20), at_s(40)));
  EXPECT_EQ(unknown_s(live.snapshot(at_s(50)), "operating"), 30);
}

TEST(LiveCount, SilenceBeyondItsLimitIsUnknownUntilSomethingIsHeard) {
  LiveSettings settings;
  settings.counting.silence_limit = Duration::seconds(60);
  LiveCount live = running_since_0(settings);
  EXPECT_EQ(counted_s(live.snapshot(at_s(1000)), "operating"), 60);
  live.alive_until(at_s(100));
  EXPECT_EQ(counted_s(live.snapshot(at_s(1000)), "operating"), 160);
  EXPECT_EQ(unknown_s(live.snapshot(at_s(1000)), "operating"), 840);
  const Snapshot silent = live.snapshot(at_s(1000));
  EXPECT_EQ(find_total(silent, "operating")->state, Truth::unknown);
  EXPECT_EQ(find_total(silent, "operating")->state_since, at_s(160));
  EXPECT_EQ(find_total(live.snapshot(at_s(120)), "operating")->state, Truth::yes);
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(500, speed1, 120), seen(600, speed1, 0)}, at_s(600)));
  const Snapshot snapshot = live.snapshot(at_s(600));
  EXPECT_EQ(counted_s(snapshot, "operating"), 160 + 60);
  EXPECT_EQ(find_total(snapshot, "revolutions speed1")->tally.amount, 160 + 2 * 60);
}

// The timer ran 30 s of the 100 s that Execution was unknown.
TEST(LiveCount, UnknownTimeIsFilledByTheControlsOwnCounter) {
  LiveCount live = running_since_0();
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(100, exec, gone), seen(100, timer, gone), seen(200, exec, 0),
                                                  seen(200, timer, 1030)},
                         at_s(200)));
  const Snapshot snapshot = live.snapshot(at_s(300));
  EXPECT_EQ(counted_s(snapshot, "operating"), 100);
  EXPECT_EQ(unknown_s(snapshot, "operating"), 100);
  EXPECT_EQ(filled_s(snapshot, "operating"), 30);
  EXPECT_EQ(filled_s(snapshot, "spindle"), 0);
  EXPECT_DOUBLE_EQ(find_total(snapshot, "own timer")->tally.amount, 30.0 / 3600);
}

TEST(LiveCount, AFillIsNeverMoreThanItsGapNorLessThanNothing) {
  LiveCount jumped = running_since_0();
  EXPECT_FALSE(jumped.take(std::vector<Observation>{seen(100, exec, gone), seen(200, exec, 0), seen(200, timer, 99999)},
                           at_s(200)));
  EXPECT_EQ(filled_s(jumped.snapshot(at_s(300)), "operating"), 100);
  LiveCount fell = running_since_0();
  EXPECT_FALSE(
      fell.take(std::vector<Observation>{seen(100, exec, gone), seen(200, exec, 0), seen(200, timer, 5)}, at_s(200)));
  EXPECT_EQ(filled_s(fell.snapshot(at_s(300)), "operating"), 0);
}

// The timer speaks only at 250; from 200 on 50 s were counted, which were no part of the gap.
TEST(LiveCount, AFillThatIsToldLaterTakesOffWhatWasCountedSince) {
  LiveCount live = running_since_0();
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(100, exec, gone), seen(200, exec, 1), seen(250, timer, 1080)},
                         at_s(250)));
  EXPECT_EQ(filled_s(live.snapshot(at_s(240)), "operating"), 0);
  EXPECT_EQ(filled_s(live.snapshot(at_s(300)), "operating"), 30);
}

TEST(LiveCount, AFillIsSpreadOverTheDaysOfItsGap) {
  LiveCount live = running_since_0();
  const double day = 86400;
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(day - 3600, exec, gone), seen(day - 3600, timer, gone),
                                                  seen(day + 10800, exec, 0), seen(day + 10800, timer, 1000 + 7200)},
                         at_s(day + 10800)));
  std::map<std::string, std::int64_t> filled_s_by_day;
  for (const CounterDay& row : live.snapshot(at_s(day + 20000)).days) {
    if (print(row.key) == "operating") filled_s_by_day[print(row.date)] = row.filled_ns / 1'000'000'000;
  }
  const std::map<std::string, std::int64_t> expected = {{"1970-01-01", 1800}, {"1970-01-02", 5400}};
  EXPECT_EQ(filled_s_by_day, expected);
}

TEST(LiveCount, AnInterruptionIsFilledByTheFirstValueBehindIt) {
  LiveCount live = running_since_0();
  EXPECT_FALSE(live.interrupt(at_s(100), at_s(200)));
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(200, timer, 1060), seen(200, exec, 0)}, at_s(200)));
  EXPECT_EQ(filled_s(live.snapshot(at_s(300)), "operating"), 60);
}

TEST(LiveCount, AnotherItemCanBeNamedToFill) {
  LiveSettings settings;
  settings.fills = {{CounterKind::spindle, "timer"}, {CounterKind::operating, ""}};
  LiveCount live = running_since_0(settings);
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(100, exec, gone), seen(100, speed1, gone), seen(200, exec, 0),
                                                  seen(200, speed1, 0), seen(200, timer, 1030)},
                         at_s(200)));
  EXPECT_EQ(filled_s(live.snapshot(at_s(300)), "spindle"), 30);
  EXPECT_EQ(filled_s(live.snapshot(at_s(300)), "operating"), 0);
}

TEST(LiveCount, OnlyRowsThatChangedAreHandedOut) {
  LiveCount live = running_since_0();
  EXPECT_FALSE(live.take(
      std::vector<Observation>{seen(1, path, 0), seen(10, exec, 0), seen(20, parts, 6), seen(30, parts, 7)}, at_s(30)));
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(40, parts, 8)}, at_s(40)));
  live.changed_days();
  EXPECT_TRUE(live.changed_days().empty());
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(50, parts, 9), seen(60, parts, 10)}, at_s(60)));
  std::vector<std::string> keys;
  for (const CounterDay& row : live.changed_days()) keys.push_back(print(row.key));
  EXPECT_EQ(std::count(keys.begin(), keys.end(), "operating"), 0) << "it stands";
  EXPECT_EQ(std::count(keys.begin(), keys.end(), "spindle"), 1) << "it turns";
  EXPECT_EQ(std::count(keys.begin(), keys.end(), "count parts"), 1);
}

// Rows are as far as everything is settled, though nothing has turned for hours.
TEST(LiveCount, TheOpenDaysRowsGoOnWhileNothingChanges) {
  LiveCount live = running_since_0();
  EXPECT_FALSE(live.take(std::vector<Observation>{seen(1, path, 0), seen(9, timer, 1001), seen(3600, timer, 1002),
                                                  seen(7200, timer, 1003), seen(9000, timer, 1004)},
                         at_s(9000)));
  for (const CounterDay& row : live.changed_days()) {
    if (print(row.key) == "operating") {
      EXPECT_EQ(row.counted_ns, ns_of_s(3600)) << "7200 is settled once something later is";
    }
    if (print(row.key) == "revolutions speed1") {
      EXPECT_DOUBLE_EQ(row.amount, 3600);
    }
  }
}

}  // namespace
}  // namespace hw::counters
