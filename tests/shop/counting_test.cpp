// Counting through service and store: what is on disk, in which order, and what a restart makes of it.

#include <algorithm>
#include <functional>
#include <utility>

#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

using counters::Observation;

enum Place : std::uint32_t { avail, exec, speed, feed };

void expect_same_counts(const Scene& a, const Scene& b) {
  const auto left = a.machine().counters, right = b.machine().counters;
  ASSERT_EQ(left.size(), right.size());
  for (std::size_t i = 0; i < left.size(); ++i) {
    SCOPED_TRACE(left[i].key);
    EXPECT_EQ(left[i].key, right[i].key);
    EXPECT_EQ(left[i].counted, right[i].counted);
    EXPECT_EQ(left[i].unknown_h, right[i].unknown_h);
    EXPECT_EQ(left[i].today, right[i].today);
    EXPECT_EQ(a.days(left[i].key), b.days(left[i].key));
  }
}

TEST(Counting, APictureGivesItsHours) {
  Scene scene;
  scene.play("mill1 |####..##S.o??#|");
  EXPECT_NEAR(scene.total("operating"), 7, 1e-9);
  EXPECT_NEAR(scene.total("spindle"), 8, 1e-9);
  EXPECT_NEAR(scene.total("powered"), 11, 1e-9);
  EXPECT_NEAR(scene.counter("operating").unknown_h, 2, 1e-9);
  EXPECT_EQ(scene.machine().doing.state, "cutting");
  EXPECT_TRUE(scene.machine("mill2").counters.empty());
}

TEST(Counting, HoursInWhichNothingChangesAreKnownAsLongAsTheFeedSaysSo) {
  Scene scene;
  scene.play("mill1 |##########|");
  EXPECT_NEAR(scene.total("operating"), 10, 1e-9);
  EXPECT_EQ(scene.counter("operating").unknown_h, 0);
}

// The agent kept what happened while we were away: it is told at once and nothing of it is unknown.
TEST(Counting, WhatIsToldAfterwardsInOnePieceIsKnown) {
  Scene scene;
  scene.play("mill1 |#|");
  const Instant from = scene.now;
  scene.now = scene.now + Duration::hours(3);
  scene.tell("mill1", {{from + Duration::hours(1), exec, 0}, {from + Duration::hours(2), exec, 1}});
  EXPECT_NEAR(scene.total("operating"), 3, 1e-9);
  EXPECT_EQ(scene.counter("operating").unknown_h, 0);
}

TEST(Counting, AfterTheLastSignOfLifeNothingIsKnownFromAMinuteOn) {
  Scene scene;
  scene.play("mill1 |#|");
  scene.now = scene.now + Duration::hours(1);
  EXPECT_NEAR(scene.total("operating"), 1 + 60 / 3600.0, 1e-9);
  EXPECT_NEAR(scene.counter("operating").unknown_h, 1 - 60 / 3600.0, 1e-9);
}

TEST(Counting, Survives_ARestartAfterAnyHourWithoutChangingANumber) {
  const std::string marks = "####..##S.o??##.#";
  Scene undisturbed;
  undisturbed.play("mill1 |" + marks + "|");
  must(undisturbed.keep());
  for (std::size_t cut = 1; cut < marks.size(); ++cut) {
    SCOPED_TRACE(cut);
    Scene scene;
    scene.play("mill1 |" + marks.substr(0, cut) + "|");
    const auto before = scene.total("operating");
    scene.reopen();
    EXPECT_EQ(scene.total("operating"), before);
    scene.play("mill1 |" + marks.substr(cut) + "|");
    must(scene.keep());
    expect_same_counts(scene, undisturbed);
  }
}

TEST(Counting, Survives_AKillByGoingBackToTheStoredPositionAndTheStoredCount) {
  Scene undisturbed, scene;
  undisturbed.play("mill1 |##..##|");
  scene.play("mill1 |##..|");
  must(scene.keep());
  const auto kept = must(scene.store().positions()).at(0);
  const Instant kept_at = scene.now;
  scene.play("mill1 |##|");
  scene.end_and_reopen();
  EXPECT_EQ(scene.feed().position().next_sequence, kept.next_sequence);
  scene.now = kept_at;
  scene.play("mill1 |##|");  // the agent tells it again, from the position on
  must(scene.keep());
  must(undisturbed.keep());
  expect_same_counts(scene, undisturbed);
}

// A store whose next writings are refused, as when the disk is full.
class Refusing : public service::Store {
 public:
  explicit Refusing(service::Store& kept) : kept_(kept) {}
  Result<std::unique_ptr<service::Writing>> begin() override {
    if (refuses) return refuse(ErrorCode::disk_full, "no room");
    if (meanwhile) std::exchange(meanwhile, {})();
    return kept_.begin();
  }
  Result<void> create_shop(const service::ShopRecord& shop, const std::vector<service::MachineRecord>& all) override {
    return kept_.create_shop(shop, all);
  }
  Result<void> create_awaiting(const service::ShopRecord& shop) override { return kept_.create_awaiting(shop); }
  Result<std::optional<service::ShipmentTaken>> edge_taken() override { return kept_.edge_taken(); }
  Result<std::optional<service::PiecesHere>> pieces_here() override { return kept_.pieces_here(); }
  Result<bool> take_piece(const service::ShipmentPiece& piece, Instant now) override {
    return kept_.take_piece(piece, now);
  }
  std::optional<Error> failure() override { return kept_.failure(); }
  Result<std::optional<service::ShopRecord>> shop() override { return kept_.shop(); }
  Result<std::vector<service::MachineRecord>> machines() override { return kept_.machines(); }
  Result<std::vector<service::TaskRecord>> tasks_of(std::string_view machine) override {
    return kept_.tasks_of(machine);
  }
  Result<std::optional<service::Entry>> entry(std::string_view id) override { return kept_.entry(id); }
  Result<std::vector<service::Entry>> entries_of(std::string_view machine, int count_max) override {
    return kept_.entries_of(machine, count_max);
  }
  Result<std::optional<service::Entry>> last_done(std::string_view machine, std::string_view task) override {
    return kept_.last_done(machine, task);
  }
  Result<std::vector<service::Entry>> doings_of(std::string_view machine, std::string_view task) override {
    return kept_.doings_of(machine, task);
  }
  Result<std::vector<service::WalkRecord>> latest_walks_of(std::string_view machine, Duration back) override {
    return kept_.latest_walks_of(machine, back);
  }
  Result<std::optional<service::WalkRecord>> walk(std::string_view machine, std::string_view id) override {
    return kept_.walk(machine, id);
  }
  Result<std::vector<service::AnswerRecord>> readings_of(std::string_view machine, std::string_view check,
                                                         int count_max) override {
    return kept_.readings_of(machine, check, count_max);
  }
  Result<std::vector<service::Entry>> measured_doings_of(std::string_view machine, std::string_view task,
                                                         int count_max) override {
    return kept_.measured_doings_of(machine, task, count_max);
  }
  Result<std::vector<service::HourReading>> hour_readings_of(std::string_view machine) override {
    return kept_.hour_readings_of(machine);
  }
  Result<std::vector<service::Adjustment>> adjustments_of(std::string_view machine) override {
    return kept_.adjustments_of(machine);
  }
  Result<std::optional<service::Photo>> photo(std::string_view id) override { return kept_.photo(id); }
  Result<std::vector<service::Entry>> entries(const service::EntryFilter& filter, int count_max) override {
    return kept_.entries(filter, count_max);
  }
  Result<std::int64_t> stray_count() override { return kept_.stray_count(); }
  Result<record::Verdict> verdict() override { return kept_.verdict(); }
  Result<std::optional<service::Finding>> finding(std::string_view id) override { return kept_.finding(id); }
  Result<std::vector<service::Entry>> entries_about(std::string_view finding) override {
    return kept_.entries_about(finding);
  }
  Result<std::vector<service::Finding>> open_findings(const std::optional<std::string>& machine) override {
    return kept_.open_findings(machine);
  }
  Result<std::vector<service::Finding>> settled_findings(const std::optional<std::string>& machine,
                                                         int count_max) override {
    return kept_.settled_findings(machine, count_max);
  }
  Result<std::optional<service::Stop>> stop(std::string_view id) override { return kept_.stop(id); }
  Result<std::vector<service::Stop>> agreed_stops(const std::optional<std::string>& machine) override {
    return kept_.agreed_stops(machine);
  }
  Result<std::vector<service::Stop>> past_stops(const std::optional<std::string>& machine,
                                                std::optional<service::StopState> only, int count_max) override {
    return kept_.past_stops(machine, only, count_max);
  }
  Result<std::vector<service::CountingRecord>> counting() override { return kept_.counting(); }
  Result<std::vector<service::Device>> devices() override { return kept_.devices(); }
  Result<service::AccessRows> access_rows() override { return kept_.access_rows(); }
  Result<std::vector<service::AccessNote>> access_notes(int count_max) override {
    return kept_.access_notes(count_max);
  }
  Result<std::optional<service::Grant>> grant(const std::string& hash) override { return kept_.grant(hash); }
  Result<void> drop_grant(const std::string& hash) override { return kept_.drop_grant(hash); }
  Result<std::vector<service::FeedPosition>> positions() override { return kept_.positions(); }
  Result<std::vector<service::MessagePosition>> message_positions() override { return kept_.message_positions(); }
  Result<std::vector<service::DayRecord>> days_of(std::string_view machine, std::string_view counter, LocalDate first,
                                                  LocalDate last) override {
    return kept_.days_of(machine, counter, first, last);
  }
  Result<std::optional<Checkpoint>> checkpoint_of(std::string_view machine, LocalDate on) override {
    return kept_.checkpoint_of(machine, on);
  }
  Result<void> read_log(std::string_view machine, std::optional<LocalDate> after,
                        const std::function<Result<void>(const service::LogPiece&)>& take) override {
    return kept_.read_log(machine, after, take);
  }
  bool refuses = false;
  std::function<void()> meanwhile;  // what happens, once, while the store works

 private:
  service::Store& kept_;
};

// A shop on a store that refuses, and the feed into it.
struct OnRefusingStore {
  explicit OnRefusingStore(Scene& scene)
      : store(scene.store()),
        shop(must(service::OpenShop::open(store))),
        feed(*shop, "feed-1", std::nullopt, [](std::string_view) {}) {}

  void tell(std::uint64_t next_sequence, Instant now, std::vector<Observation> observations,
            std::optional<counters::MachineModel> model = {}) {
    feeds::Batch batch;
    batch.position = {7, next_sequence};
    batch.received_at = now;
    batch.alive_at = now;
    if (model) batch.models = std::vector{*model};
    if (!observations.empty()) batch.machines.push_back({"mill1", std::move(observations), {}});
    must(feed.take(batch));
  }
  Result<void> keep(Instant now) { return service::store_counting(*shop, {&feed}, now); }

  Refusing store;
  std::unique_ptr<service::OpenShop> shop;
  service::FeedSink feed;
};

TEST(Counting, CountAndPositionAreStoredTogetherOrNeither) {
  Scene scene;
  OnRefusingStore live(scene);
  live.tell(1, scene.now, {}, model_of("mill1"));
  live.tell(5, scene.now, state_at('#', scene.now));
  live.tell(5, scene.now + Duration::hours(1), {});
  live.store.refuses = true;
  EXPECT_EQ(live.keep(scene.now).error().code, ErrorCode::disk_full);
  EXPECT_TRUE(must(scene.store().positions()).empty());
  EXPECT_TRUE(must(scene.store().counting()).empty());
  live.store.refuses = false;
  must(live.keep(scene.now));
  EXPECT_EQ(must(scene.store().positions()).at(0).next_sequence, 5u);
  EXPECT_EQ(must(scene.store().counting()).size(), 1u);
}

// Nothing new came since the refusal: what was refused is stored all the same, not the position alone.
TEST(Counting, ARefusedStepIsOfferedAgainWhole) {
  Scene scene;
  OnRefusingStore live(scene);
  live.tell(1, scene.now, {}, model_of("mill1"));
  must(live.keep(scene.now));
  live.tell(2, scene.now + Duration::seconds(1), {}, changed_model_of("mill1"));
  live.store.refuses = true;
  EXPECT_FALSE(live.keep(scene.now));
  live.store.refuses = false;
  must(live.keep(scene.now));
  EXPECT_EQ(must(scene.store().positions()).at(0).next_sequence, 2u);
  EXPECT_NE(must(scene.store().counting()).at(0).model.find("Door"), std::string::npos);
}

// A second piece of the same moment: the position has moved though the sign of life has not.
TEST(Counting, APositionThatMovedWithinOneMomentIsStored) {
  Scene scene;
  OnRefusingStore live(scene);
  live.tell(1, scene.now, {}, model_of("mill1"));
  live.tell(5, scene.now, state_at('#', scene.now));
  must(live.keep(scene.now));
  live.tell(6, scene.now, {{scene.now, exec, 0}});
  must(live.keep(scene.now));
  EXPECT_EQ(must(scene.store().positions()).at(0).next_sequence, 6u);
}

TEST(Counting, WithNothingNewNothingIsStored) {
  Scene scene;
  scene.play("mill1 |#|");
  must(scene.keep());
  const auto before = must(scene.store().counting());
  must(scene.keep());
  EXPECT_EQ(must(scene.store().counting()).at(0).state, before.at(0).state);
}

TEST(LateObservation, IsCountedInItsPlaceBitForBit) {
  const auto run = [](Scene& scene, bool is_late) {
    const Instant begin = scene.now;
    const Instant missed = begin + Duration{3'600'000'000'000 + 1'234'567'891};
    scene.tell("mill1", state_at('S', begin));
    must(scene.keep());
    for (int hour = 1; hour <= 5; ++hour) {
      scene.now = begin + Duration::hours(hour);
      scene.tell("mill1", {{scene.now, speed, 1000.0 + hour}});
      if (hour == 1 && !is_late) {
        scene.now = missed;
        scene.tell("mill1", {{missed, exec, 1}});
      }
      must(scene.keep());
    }
    scene.now = begin + Duration::hours(6);
    if (is_late) scene.tell("mill1", {{missed, exec, 1}});
    scene.tell("mill1", {{scene.now, exec, 0}});
    scene.play("mill1 |..|");
    must(scene.keep());
    must(scene.keep());
  };
  Scene undisturbed, late;
  run(undisturbed, false);
  run(late, true);
  EXPECT_NEAR(late.total("operating"), 5 - 1.234567891 / 3600, 1e-9);
  EXPECT_EQ(late.counter("operating").unknown_h, 0);
  expect_same_counts(late, undisturbed);
}

// The day of before, across midnight and a checkpoint; the machine ran while nothing else was said for hours.
TEST(LateObservation, OfYesterdayIsPutIntoYesterdaysRow) {
  const auto run = [](bool is_late, bool with_restart) {
    auto scene = std::make_unique<Scene>("2026-03-02T20:00:00Z", "UTC");
    scene->play("mill1 |..|");
    must(scene->keep());
    const Instant missed = scene->now + Duration::hours(1);
    if (!is_late) {
      scene->now = missed;
      scene->tell("mill1", {{missed, exec, 1}});
    }
    scene->now = missed + Duration::hours(1);
    scene->tell("mill1", {{scene->now, speed, 500}});
    for (int hour = 0; hour < 3; ++hour) {
      scene->now = scene->now + Duration::hours(1);
      scene->tell("mill1", {{scene->now, speed, 501.0 + hour}});
      must(scene->keep());
    }
    if (is_late) scene->tell("mill1", {{missed, exec, 1}});
    must(scene->keep());
    if (with_restart) scene->end_and_reopen();  // counted anew, but that was not stored yet
    scene->now = scene->now + Duration::hours(1);
    scene->tell("mill1", {{scene->now, speed, 0}});
    must(scene->keep());
    must(scene->keep());
    return scene;
  };
  const auto undisturbed = run(false, false);
  const auto days = undisturbed->days("operating");
  ASSERT_EQ(days.size(), 2u);
  EXPECT_EQ(Duration{days.at(0).counted_ns}.as_hours(), 1);
  expect_same_counts(*run(true, false), *undisturbed);
  expect_same_counts(*run(true, true), *undisturbed);
}

// The late word takes back what today's stored row has: the row goes back too.
TEST(LateObservation, ARowThatGoesBackToWhatItWasAtTheCheckpointIsStored) {
  Scene scene("2026-03-02T06:00:00Z", "UTC");
  const Instant begin = scene.now;
  scene.tell("mill1", state_at('.', begin));
  for (int minute : {20, 40, 60}) {
    scene.now = begin + Duration::seconds(60 * minute);
    scene.tell("mill1", {{scene.now, speed, minute / 1.0}});
  }
  must(scene.keep());
  const Instant wrong = scene.now + Duration::hours(1);
  scene.now = wrong;
  scene.tell("mill1", {{wrong, exec, 1}});
  scene.now = wrong + Duration::hours(2);
  scene.tell("mill1", {{scene.now - Duration::seconds(20), feed, 0},
                       {scene.now - Duration::seconds(10), feed, 1},
                       {scene.now, speed, 2}});
  must(scene.keep());
  EXPECT_GT(scene.days("operating").at(0).counted_ns, Duration::hours(1).ns);
  scene.tell("mill1", {{wrong, exec, 0}});
  must(scene.keep());
  must(scene.keep());
  EXPECT_EQ(scene.total("operating"), 0);
  EXPECT_EQ(scene.days("operating").at(0).counted_ns, 0);
}

TEST(LateObservation, WhatComesWhileItIsStoredIsNotLost) {
  Scene scene;
  OnRefusingStore live(scene);
  const Instant begin = scene.now;
  const auto tell = [&](int minute, std::vector<Observation> observations) {
    live.tell(static_cast<std::uint64_t>(minute) + 9, begin + Duration::seconds(60 * minute), std::move(observations));
  };
  const auto minute = [&](int n) { return begin + Duration::seconds(60 * n); };
  live.tell(1, begin, state_at('#', begin), model_of("mill1"));
  tell(1, {{minute(1), speed, 1}});
  must(live.keep(minute(1)));
  tell(30, {{minute(30), speed, 2}});
  tell(50, {{minute(50), speed, 2.5}});
  tell(60, {{minute(60), speed, 3}, {minute(20), exec, 0}});
  live.store.meanwhile = [&] { tell(70, {{minute(70), exec, 1}}); };
  must(live.keep(minute(70)));
  tell(80, {});
  const auto view = must(show_machine(*live.shop, "mill1", minute(80)));
  const auto operating =
      std::find_if(view.counters.begin(), view.counters.end(), [](const auto& one) { return one.key == "operating"; });
  EXPECT_NEAR(operating->total, 0.5, 1e-9);
}

TEST(LateObservation, FindsTheCheckpointOfBeforeARestartOfTheSameDay) {
  Scene scene;
  scene.play("mill1 |#S|");
  must(scene.keep());
  scene.play("mill1 |##S|");
  scene.reopen();
  scene.play("mill1 |S|");
  must(scene.keep());
  scene.tell("mill1", {{scene.now - Duration::hours(3), exec, 0}});  // in the middle of the two hours
  must(scene.keep());
  EXPECT_NEAR(scene.total("operating"), 2, 1e-9);
}

// Nothing is heard between the restart and the recount: only the record says until when values hold.
TEST(LateObservation, CountedAnewAfterARestartTakesNothingFromWhatWasTold) {
  Scene scene;
  scene.play("mill1 |.|");
  must(scene.keep());
  scene.play("mill1 |S##|");
  scene.tell("mill1", {{scene.now - Duration::seconds(9000), exec, 0}});
  must(scene.keep());
  scene.end_and_reopen();  // counted anew, but that was not stored yet
  EXPECT_NEAR(scene.total("operating"), 2, 1e-9);
  must(scene.keep());
  EXPECT_NEAR(scene.total("operating"), 2, 1e-9);
  EXPECT_EQ(scene.counter("operating").unknown_h, 0);
}

// The same model again, after another one: the log between is not of its items.
TEST(LateObservation, OfBeforeAModelChangeIsLeftOutEvenIfTheModelIsTheSameAgain) {
  Scene scene("2026-03-02T06:00:00Z", "UTC");
  const Instant begin = scene.now;
  const auto day = [&](const counters::MachineModel& model) {
    scene.tell_model(model);
    scene.play("mill1 |#S#S|");
    must(scene.keep());
    scene.play("mill1 |....................|");
    must(scene.keep());
  };
  day(model_of("mill1"));
  day(changed_model_of("mill1"));
  day(model_of("mill1"));
  scene.play("mill1 |#S|");
  EXPECT_NEAR(scene.total("operating"), 7, 0.01);
  const double before = scene.total("operating");
  scene.tell("mill1", {{begin + Duration::hours(3), exec, 0}});
  must(scene.keep());
  EXPECT_EQ(scene.total("operating"), before);
}

TEST(LateObservation, OfBeforeEverythingThatWasKeptIsLeftOut) {
  Scene scene;
  scene.play("mill1 |#S#S|");
  must(scene.keep());
  scene.tell("mill1", {{scene.now - Duration::hours(3) - Duration::seconds(1), exec, 0}});
  must(scene.keep());
  must(scene.keep());
  EXPECT_NEAR(scene.total("operating"), 2, 1e-9);
  scene.play("mill1 |#|");
  EXPECT_NEAR(scene.total("operating"), 3, 1e-9);
}

TEST(ModelChange, CountersGoOnUnderTheirNames) {
  Scene scene;
  scene.play("mill1 |###|");
  must(scene.done("filter", 1));
  scene.play("mill1 |##|");
  scene.tell_model(changed_model_of("mill1"));
  // The new model has told nothing yet: what was counted stays, and so does what is left of the tasks.
  EXPECT_NEAR(scene.total("operating"), 5, 1e-9);
  EXPECT_NEAR(*scene.trigger("filter").used, 2, 1e-9);
  scene.play("mill1 |##|");
  EXPECT_NEAR(scene.total("operating"), 7, 1e-9);
  EXPECT_NEAR(scene.counter("operating").today, 7, 1e-9);
  EXPECT_NEAR(*scene.trigger("filter").used, 4, 1e-9);
  scene.reopen();
  EXPECT_NEAR(scene.total("operating"), 7, 1e-9);
  ASSERT_EQ(scene.shown_days("operating").size(), 1u);
  EXPECT_NEAR(scene.shown_days("operating").at(0).counted, 7, 1e-9);
}

TEST(ModelChange, ACounterThatTheNewModelHasNotKeepsItsTotal) {
  Scene scene;
  scene.play("mill1 |S|");
  auto model = model_of("mill1");
  model.items.pop_back();
  model.items.pop_back();
  scene.tell_model(model);
  scene.now = scene.now + Duration::hours(1);
  EXPECT_NEAR(scene.total("spindle"), 1, 1e-9);
  EXPECT_NEAR(*scene.trigger("grease").used, 1, 1e-9);
}

TEST(ModelChange, TheDayAfterItTodayBeginsAtZero) {
  Scene scene("2026-03-02T20:00:00Z", "UTC");
  scene.play("mill1 |##|");
  scene.tell_model(changed_model_of("mill1"));
  scene.play("mill1 |##|");
  EXPECT_EQ(scene.counter("operating").today, 0);
  scene.play("mill1 |#|");
  EXPECT_NEAR(scene.counter("operating").today, 1, 1e-9);
  EXPECT_NEAR(scene.total("operating"), 5, 1e-9);
  must(scene.keep());
  ASSERT_EQ(scene.shown_days("operating").size(), 2u);
  EXPECT_NEAR(scene.shown_days("operating").at(0).counted, 4, 1e-9);
}

TEST(Days, AreCutAtLocalMidnight) {
  Scene scene("2026-03-02T20:00:00Z", "Europe/Berlin");  // 21:00 local
  scene.play("mill1 |######|");
  EXPECT_NEAR(scene.counter("operating").today, 3, 1e-9);
  must(scene.keep());
  const auto days = scene.shown_days("operating");
  ASSERT_EQ(days.size(), 2u);
  EXPECT_EQ(print(days.at(0).date), "2026-03-02");
  EXPECT_NEAR(days.at(0).counted, 3, 1e-9);
  EXPECT_EQ(print(days.at(1).date), "2026-03-03");
  EXPECT_NEAR(days.at(1).counted, 3, 1e-9);
}

TEST(Days, TheDayOnWhichClocksGoForwardHas23Hours) {
  Scene scene("2026-03-28T23:00:00Z", "Europe/Berlin");  // local midnight before the change
  scene.play("mill1 |########################|");
  must(scene.keep());
  ASSERT_EQ(scene.shown_days("operating").size(), 2u);
  EXPECT_NEAR(scene.shown_days("operating").at(0).counted, 23, 1e-9);
  EXPECT_EQ(print(scene.shown_days("operating").at(1).date), "2026-03-30");
}

TEST(Days, TodayIsShownAsItIsNowWhetherItIsStoredOrNot) {
  Scene scene;
  scene.play("mill1 |##|");
  EXPECT_NEAR(scene.shown_days("operating").at(0).counted, 2, 1e-9);
  must(scene.keep());
  EXPECT_NEAR(scene.shown_days("operating").at(0).counted, 2, 1e-9);
  scene.reopen();
  EXPECT_NEAR(scene.shown_days("operating").at(0).counted, 2, 1e-9);
}

TEST(Days, AreShownFromTheFirstToTheLastThatIsAskedFor) {
  Scene scene("2026-03-02T20:00:00Z", "UTC");
  scene.play("mill1 |######|");
  must(scene.keep());
  const auto asked = [&](std::optional<LocalDate> first, std::optional<LocalDate> last) {
    return show_days(scene.shop(), "mill1", "operating", first, last, scene.now);
  };
  EXPECT_EQ(must(asked({}, {})).days.size(), 2u);
  EXPECT_EQ(must(asked(LocalDate::of(2026, 3, 3), {})).days.size(), 1u);
  EXPECT_EQ(asked(LocalDate::of(2026, 3, 4), LocalDate::of(2026, 3, 3)).error().code, ErrorCode::bad_input);
  EXPECT_EQ(asked(LocalDate::of(2020, 3, 4), {}).error().code, ErrorCode::bad_input);
  EXPECT_EQ(show_days(scene.shop(), "mill1", "hours", {}, {}, scene.now).error().code, ErrorCode::bad_input);
  EXPECT_EQ(show_days(scene.shop(), "mill9", "operating", {}, {}, scene.now).error().code, ErrorCode::not_found);
}

}  // namespace
}  // namespace hw::shop
