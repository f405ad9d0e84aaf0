// Clocks that jump: the server's, an agent's, a phone's. Each table is a list of jumps with names, and one law that has
// to hold for all of them; `now` is the only clock that the shop's code ever sees.

#include "src/access/join_codes.h"
#include "tests/shop/stopping.h"

namespace hw::shop {
namespace {

constexpr Duration second = Duration::seconds(1), hour = Duration::hours(1), day = Duration::hours(24);
constexpr Duration days(std::int64_t count) { return Duration::hours(24 * count); }
constexpr Duration back(Duration duration) { return {-duration.ns}; }

struct Jump {
  const char* name;
  Duration by;
};

constexpr Jump jumps[] = {{"a second forward", second},
                          {"a second back", back(second)},
                          {"nine seconds back", back(Duration::seconds(9))},
                          {"a minute forward", Duration::seconds(60)},
                          {"a minute back", back(Duration::seconds(60))},
                          {"an hour forward, as into summer time on a clock that shows local time", hour},
                          {"an hour back, as out of summer time on a clock that shows local time", back(hour)},
                          {"a day forward", day},
                          {"a day back", back(day)},
                          {"a month forward", days(31)},
                          {"a month back", back(days(31))},
                          {"a year forward", days(365)},
                          {"a year back", back(days(365))},
                          {"beyond January 2038", days(365 * 13)},
                          {"back to 1970, as with an empty battery", back(days(365 * 56))},
                          {"to the next century", days(365 * 80)}};

// Who is wrong: the server alone, the agent alone, or both, being one computer.
enum class Whose { server, agent, both };

// A mill that runs all the time, told hour by hour, while clocks jump.
struct Floor {
  Scene scene;
  Duration server_off{}, agent_off{};
  Instant real = scene.now, latest = scene.now;
  double most = 0;

  void jump(Whose whose, Duration by) {
    if (whose != Whose::agent) server_off = server_off + by;
    if (whose != Whose::server) agent_off = agent_off + by;
  }
  void run(int hours) {
    for (; hours > 0; --hours) {
      scene.now = real + server_off;
      scene.tell("mill1", state_at('#', real + agent_off));
      look();
      real = real + hour;
    }
    scene.now = real + server_off;
    scene.tell("mill1", state_at('.', real + agent_off));
    look();
  }
  // Never below zero, never more than has passed between the first and the latest moment that a clock showed.
  void look() {
    latest = std::max({latest, scene.now, real + agent_off});
    const Instant begin = std::min(*parse_instant("2026-03-02T06:00:00Z"), scene.now);
    for (const auto& counter : scene.machine().counters) {
      if (counter.unit != "h") continue;
      EXPECT_GE(counter.counted, 0) << counter.key;
      EXPECT_GE(counter.unknown_h, 0) << counter.key;
      EXPECT_LE(counter.counted + counter.unknown_h, (latest - begin).as_hours() + 1e-9) << counter.key;
    }
  }
  double total() const { return scene.machine().counters.empty() ? 0 : scene.total("operating"); }
  // The hours of the days are those of the counter.
  void expect_days_fit() {
    must(scene.keep());
    const auto last = scene.shop().calendar().zone.date_of(latest) + 1;
    double sum_h = 0;
    for (const auto& one : must(scene.store().days_of("mill1", "operating", LocalDate::of(1970, 1, 1), last))) {
      EXPECT_GE(one.counted_ns, 0);
      EXPECT_LE(one.counted_ns, Duration::hours(25).ns) << print(one.on);
      sum_h += static_cast<double>(one.counted_ns) / 3.6e12;
    }
    EXPECT_LE(sum_h, total() + 1e-6);
  }
};

TEST(ClockJumps, NoCounterRunsFasterThanTimeNorBackwards) {
  for (const Whose whose : {Whose::server, Whose::agent, Whose::both}) {
    for (const Jump& jump : jumps) {
      SCOPED_TRACE(fmt::format("{} of {}", jump.name, static_cast<int>(whose)));
      Floor floor;
      floor.run(3);
      EXPECT_NEAR(floor.total(), 3, 1e-6);
      floor.jump(whose, jump.by);
      floor.run(2);
      const double before = floor.total();
      EXPECT_GE(before, 2 - 1e-6) << "what was settled stays; the last hour is beyond now where the clock was set back";
      floor.jump(whose, back(jump.by));
      floor.run(2);
      floor.expect_days_fit();
      EXPECT_GE(floor.total(), 3 - 1e-6) << "what was counted is there again with the right time";
      EXPECT_LE(floor.total(), 7 + 1e-6) << "so long it ran";
    }
  }
}

TEST(ClockJumps, BetweenTwoStartsLoseNothingThatWasStored) {
  for (const Jump& jump : jumps) {
    SCOPED_TRACE(jump.name);
    Floor floor;
    floor.run(3);
    floor.scene.reopen();
    floor.jump(Whose::both, jump.by);
    floor.scene.now = floor.real + floor.server_off;
    EXPECT_LE(floor.total(), 3 + 1e-6);
    EXPECT_GE(floor.total(), 2 - 1e-6);
    floor.run(2);
    floor.jump(Whose::both, back(jump.by));
    floor.run(2);
    floor.scene.reopen();
    EXPECT_GE(floor.total(), 3 - 1e-6);
    EXPECT_LE(floor.total(), 7 + 1e-6);
    floor.expect_days_fit();
  }
}

TEST(ClockJumps, EntriesKeepTheOrderInWhichTheyCame) {
  for (const Jump& jump : jumps) {
    SCOPED_TRACE(jump.name);
    Scene scene;
    must(scene.done("filter", 1));
    scene.now = scene.now + jump.by;
    must(scene.done("grease", 2));
    must(scene.done("filter", 3));
    scene.now = scene.now - jump.by;
    must(scene.done("look", 4));
    scene.end_and_reopen();
    const auto entries = must(show_logbook(scene.shop(), {})).entries;
    ASSERT_EQ(entries.size(), 4u);
    for (int n = 0; n < 4; ++n) EXPECT_EQ(entries.at(static_cast<std::size_t>(n)).id, id_of(4 - n));
    EXPECT_TRUE(must(prove_logbook(scene.shop())).breaks.empty());
  }
}

TEST(ClockJumps, APhonesClockPutsNothingOff) {
  for (const Jump& jump : jumps) {
    SCOPED_TRACE(jump.name);
    Scene scene;
    scene.now = scene.now + days(10);
    // Entered an hour ago and sent now, both by the phone's clock.
    const service::DoneEdit edit{{id_of(1), "Ada", scene.now - hour + jump.by, scene.now + jump.by}, {}};
    const auto entry = must(mark_done(scene.shop(), "mill1", "grease", edit, scene.now));
    EXPECT_EQ(entry.happened_at, scene.now - hour);
    // The clock jumped between entering and sending: it can only be taken for something between then and now.
    const service::DoneEdit jumped{{id_of(2), "Ada", scene.now - hour, scene.now + jump.by}, {}};
    const auto other = must(mark_done(scene.shop(), "mill1", "grease", jumped, scene.now));
    EXPECT_LE(other.happened_at, scene.now);
    EXPECT_GE(other.happened_at, scene.now - days(60));
    EXPECT_LE(*scene.task("grease").triggers.back().due_on, scene.shop().calendar().zone.date_of(scene.now) + 31);
  }
}

TEST(ClockJumps, AnUndoHasItsTenSecondsAndNoMore) {
  for (const Jump& jump : jumps) {
    SCOPED_TRACE(jump.name);
    Scene scene;
    scene.now = scene.now + days(1);
    must(scene.done("filter", 1));
    scene.now = scene.now + jump.by;
    const bool is_within = std::abs(jump.by.ns) <= service::undo_within.ns;
    EXPECT_EQ(scene.undo(1, 2).has_value(), is_within);
  }
}

TEST(ClockJumps, ACodeToJoinByLastsNoLongerAndLocksNobodyOut) {
  const Instant noon = *parse_instant("2026-03-02T12:00:00Z");
  for (const Jump& jump : jumps) {
    SCOPED_TRACE(jump.name);
    access::JoinCodes codes([n = 0](std::size_t bytes) mutable {
      std::string chance;
      while (chance.size() < bytes) chance += static_cast<char>(n++);
      return chance;
    });
    const auto code = must(codes.offer({id_of(1), "Ada"}, noon));
    for (std::size_t tries = 0; tries < access::wrong_tries_max; ++tries) EXPECT_FALSE(codes.find("WRONG", noon));
    const Instant after = noon + jump.by;
    const bool is_out = std::abs(jump.by.ns) >= Duration::seconds(60).ns;
    const auto found = codes.find(code.code, after);
    if (!is_out) {
      EXPECT_EQ(found.error().code, ErrorCode::too_often) << "the tries are still counted";
      EXPECT_TRUE(codes.find(code.code, noon + Duration::seconds(61)));
    } else if (jump.by < Duration{} || jump.by >= access::code_life) {
      EXPECT_EQ(found.error().code, ErrorCode::not_found);
      EXPECT_TRUE(codes.find(must(codes.offer({id_of(2), "Ada"}, after)).code, after)) << "a new one is good at once";
    } else {
      EXPECT_TRUE(found);
    }
  }
}

TEST(ClockJumps, AStopStaysAgreedAndIsClosedWithTimesThatCanBe) {
  for (const Jump& jump : jumps) {
    SCOPED_TRACE(jump.name);
    Scene scene;
    const Stopping stops{scene};
    must(stops.agree(1, {"filter"}));
    scene.now = scene.now + jump.by;
    EXPECT_EQ(stops.shown(1).state, "agreed");
    const auto closed = stops.close(1, 1, {"filter"}, 10);
    EXPECT_TRUE(closed) << closed.error().message;
    scene.now = scene.now - jump.by;
    EXPECT_EQ(stops.shown(1).state, "closed");
    EXPECT_EQ(stops.entries("task done").size(), 1u);
  }
}

TEST(ClockJumps, WhatIsDueComesBackWithTheClock) {
  for (const Jump& jump : jumps) {
    SCOPED_TRACE(jump.name);
    Scene scene;
    scene.play("mill1 |###|");
    const auto before = scene.task("grease");
    const auto horizon_days = [&] {
      service::UseForecasts forecasts(scene.shop());
      std::vector<std::string> on;
      for (const auto& machine : must(show_horizon(scene.shop(), forecasts, std::nullopt, scene.now)).machines) {
        on.push_back(machine.machine);
      }
      return on;
    };
    const auto horizon = horizon_days();
    scene.now = scene.now + jump.by;
    const auto meanwhile = scene.task("grease");
    EXPECT_EQ(meanwhile.triggers.back().due_on, before.triggers.back().due_on) << "a date of the calendar stays";
    EXPECT_EQ(horizon_days(), horizon);
    EXPECT_EQ(must(show_rounds(scene.shop(), std::nullopt, scene.now)).machines.size(), 2u);
    scene.now = scene.now - jump.by;
    const auto after = scene.task("grease");
    EXPECT_EQ(after.state, before.state);
    EXPECT_EQ(after.triggers.at(0).used, before.triggers.at(0).used);
  }
}

// Moments at which days, hours or years are not as usual: nothing jumps, but dates do.
struct Night {
  const char* name;
  const char* begin;  // a machine runs from here on
  int hours;
  const char* date;  // a local day that lies wholly within, and its hours
  double day_h;
};

TEST(ClockJumps, DaysHaveTheHoursThatTheyHave) {
  constexpr Night nights[] = {
      {"into summer time in 2026", "2026-03-28T22:00:00Z", 30, "2026-03-29", 23},
      {"out of summer time in 2026", "2026-10-24T21:00:00Z", 30, "2026-10-25", 25},
      {"the end of a year", "2026-12-31T20:00:00Z", 30, "2027-01-01", 24},
      {"the leap day of 2028", "2028-02-28T20:00:00Z", 30, "2028-02-29", 24},
      {"the day behind a leap day", "2028-02-29T20:00:00Z", 30, "2028-03-01", 24},
      {"no leap day in 2100", "2100-02-28T20:00:00Z", 30, "2100-03-01", 24},
      {"the second of 2038 beyond which 32 bits do not count", "2038-01-18T20:00:00Z", 34, "2038-01-19", 24},
      {"the leap second at the end of 2016", "2016-12-31T20:00:00Z", 30, "2017-01-01", 24},
  };
  for (const Night& night : nights) {
    SCOPED_TRACE(night.name);
    Scene scene(night.begin);
    scene.play("mill1 |" + std::string(static_cast<std::size_t>(night.hours), '#') + "|");
    scene.reopen();
    const LocalDate date = *parse_local_date(night.date);
    const auto stored = must(scene.store().days_of("mill1", "operating", date, date));
    ASSERT_EQ(stored.size(), 1u);
    EXPECT_NEAR(static_cast<double>(stored.at(0).counted_ns) / 3.6e12, night.day_h, 1e-9);
    EXPECT_NEAR(scene.total("operating"), night.hours, 1e-9);
  }
}

TEST(ClockJumps, ALeapSecondIsTheNextMinutesFirst) {
  Scene scene("2016-12-31T23:00:00Z");
  scene.tell("mill1", state_at('#', scene.now));
  scene.now = *parse_instant("2016-12-31T23:59:60Z");
  EXPECT_EQ(scene.now, *parse_instant("2017-01-01T00:00:00Z"));
  scene.tell("mill1", state_at('.', scene.now));
  scene.now = scene.now + hour;
  EXPECT_NEAR(scene.total("operating"), 1, 1e-9);
}

}  // namespace
}  // namespace hw::shop
