// Agreed stops with work of the outside service, gathered into its visits.

#include "src/service/plant_visits.h"
#include "tests/shop/stopping.h"

namespace hw::shop {
namespace {

const LocalDate wednesday = LocalDate::of(2026, 3, 4);
const LocalDate thursday = LocalDate::of(2026, 3, 5);

// A task of the outside service's, of an hour and a half.
void add_outside_task(Scene& scene, int id, const std::string& machine) {
  service::TaskEdit edit;
  edit.id = id_of(id);
  edit.by = "Ada";
  edit.title = "Have the seals changed";
  edit.assembly = "coolant";
  edit.work = "replace";
  edit.skill = "outside service";
  edit.energy = "isolated";
  edit.minutes = 90;
  service::TriggerText trigger;
  trigger.counter = "operating";
  trigger.interval = 4;
  edit.triggers = {trigger};
  must(add_task(scene.shop(), machine, edit, scene.now));
}

TEST(Visits, GatherTheStopsOfADayAndShiftInWhichTheOutsideServiceHasWork) {
  Scene scene;
  const Stopping stops{scene};
  add_outside_task(scene, 101, "mill1");
  add_outside_task(scene, 102, "mill2");
  EXPECT_TRUE(outside_visits(scene.shop(), scene.now).empty());
  must(agree_stop(scene.shop(), "mill1", stops.edit(1, {id_of(101), "grease"}, wednesday), scene.now));
  must(agree_stop(scene.shop(), "mill2", stops.edit(2, {id_of(102)}, wednesday), scene.now));
  must(agree_stop(scene.shop(), "mill1", stops.edit(3, {"filter"}, thursday), scene.now));
  const auto visits = outside_visits(scene.shop(), scene.now);
  ASSERT_EQ(visits.size(), 1u) << "nobody comes for what the plant does itself";
  EXPECT_EQ(visits[0].on, wednesday);
  EXPECT_EQ(visits[0].work_h, 3) << "without the greasing";
  ASSERT_EQ(visits[0].stops.size(), 2u);
  EXPECT_EQ(visits[0].stops[1].stop, id_of(2));
  EXPECT_EQ(visits[0].way_cost, 0) << "the shop says nothing of its coming";
}

TEST(Visits, ThatAreOverAreNotComing) {
  Scene scene;
  const Stopping stops{scene};
  add_outside_task(scene, 101, "mill1");
  must(agree_stop(scene.shop(), "mill1", stops.edit(1, {id_of(101)}, wednesday), scene.now));
  EXPECT_EQ(outside_visits(scene.shop(), *parse_instant("2026-03-04T12:59:00Z")).size(), 1u);
  EXPECT_TRUE(outside_visits(scene.shop(), *parse_instant("2026-03-04T13:00:00Z")).empty());
}

}  // namespace
}  // namespace hw::shop
