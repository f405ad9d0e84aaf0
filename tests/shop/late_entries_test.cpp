// What comes hours late has the counters of the moment when it happened.

#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

service::DoneEdit done_at(const Scene& scene, int id, Instant at) { return {{id_of(id), "Ada", at, scene.now}, {}}; }

// Plays the picture twice: an entry in time after `hours` of it, and late, `later` being what happens in between.
template <class Later>
void expect_the_same_late(std::string_view before, std::string_view after, Later later) {
  Scene in_time, late;
  in_time.play(before);
  const auto right = must(in_time.done("filter", 1));
  late.play(before);
  const Instant at = late.now;
  later(late);
  late.play(after);
  const auto entry = must(mark_done(late.shop(), "mill1", "filter", done_at(late, 1, at), late.now));
  EXPECT_EQ(entry.happened_at, right.happened_at);
  ASSERT_EQ(entry.counters.size(), right.counters.size());
  for (const auto& [counter, total] : right.counters) EXPECT_NEAR(entry.counters.at(counter), total, 1e-9) << counter;
  EXPECT_NE(late.total("operating"), right.counters.at("operating"));
}

TEST(LateEntry, HasTheCountersThatItWouldHaveHadInTime) {
  expect_the_same_late("mill1 |####..S?#|", "mill1 |#S#|", [](Scene&) {});
}

TEST(LateEntry, HasThemAfterWhatWasCountedIsStored) {
  expect_the_same_late("mill1 |####..S?#|", "mill1 |#S#|", [](Scene& late) { must(late.keep()); });
}

TEST(LateEntry, HasThemAfterARestart) {
  expect_the_same_late("mill1 |####..S?#|", "mill1 |#S#|", [](Scene& late) { late.reopen(); });
}

TEST(LateEntry, HasThemOverMidnight) {
  expect_the_same_late("mill1 |####..S?#......####|", "mill1 |#S##......#|", [](Scene& late) { must(late.keep()); });
  expect_the_same_late("mill1 |####..S?#......####..#|", "mill1 |#S##......#|", [](Scene& late) { late.reopen(); });
}

TEST(LateEntry, WithinAMinuteHasThoseOfNow) {
  Scene scene;
  scene.play("mill1 |##|");
  const Instant at = scene.now - Duration::seconds(60);
  const auto entry = must(mark_done(scene.shop(), "mill1", "filter", done_at(scene, 1, at), scene.now));
  EXPECT_NEAR(entry.counters.at("operating"), 2, 1e-9);
}

TEST(LateEntry, BeforeCountingBeganHasCountedNothing) {
  Scene scene;
  const Instant at = scene.now;
  scene.now = scene.now + Duration::hours(2);
  scene.play("mill1 |##|");
  const auto entry = must(mark_done(scene.shop(), "mill1", "filter", done_at(scene, 1, at), scene.now));
  EXPECT_EQ(entry.counters, (std::map<std::string, double>{}));
}

// What was settled between then and now belongs to now.
TEST(LateEntry, ASettlementSinceThenIsNotInIt) {
  Scene scene;
  scene.play("mill1 |##|");
  const Instant at = scene.now;
  scene.play("mill1 |#|");
  must(scene.read_hours(1000, 2));
  must(scene.settle(2, "display is right", 3));
  EXPECT_NEAR(scene.total("operating"), 1000, 1e-9);
  const auto entry = must(mark_done(scene.shop(), "mill1", "filter", done_at(scene, 1, at), scene.now));
  EXPECT_NEAR(entry.counters.at("operating"), 2, 1e-9);
  EXPECT_NEAR(*scene.trigger("filter").used, 1, 1e-9);
}

TEST(LateEntry, OfAnEarlierModelHasThoseOfNow) {
  Scene scene;
  scene.play("mill1 |##|");
  const Instant at = scene.now;
  scene.play("mill1 |#|");
  scene.tell_model(changed_model_of("mill1"));
  scene.play("mill1 |#|");
  const auto entry = must(mark_done(scene.shop(), "mill1", "filter", done_at(scene, 1, at), scene.now));
  EXPECT_NEAR(entry.counters.at("operating"), scene.total("operating"), 1e-9);
}

}  // namespace
}  // namespace hw::shop
