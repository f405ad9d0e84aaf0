// What a job card shows: the order of work, the kit, the findings that the stop settles.

#include <gmock/gmock.h>

#include "src/service/open_stops.h"
#include "src/service/stop_follow_up.h"
#include "src/service/stop_phases.h"
#include "src/service/stop_plan.h"
#include "src/service/stop_works.h"
#include "tests/shop/stopping.h"

namespace hw::shop {
namespace {

using catalogue::EnergyState;
using testing::ElementsAre;

std::string task_of(std::string_view key, std::string_view work, std::string_view energy, std::string_view more) {
  return fmt::format(R"(
[[task]]
key = "{}"
title = "Title of {}"
assembly = "coolant"
work = "{}"
skill = "technician"
energy = "{}"
minutes = 10
trigger = [ {{ calendar = "1 month" }} ]
steps = []
reason = "It is due."
caution = "Take care."
{}
)",
                     key, key, work, energy, more);
}

const std::string card_tasks =
    task_of("refill", "top up", "powered at rest", R"(parts = []
after = ["drain", "clean"])") +
    task_of("drain", "clean", "powered at rest", R"(parts = [ { name = "Bag", quantity = 2, unit = "pc" } ])") +
    task_of("clean", "clean", "isolated", R"(parts = [ { name = "Bag", quantity = 1, unit = "pc" } ]
after = ["drain"])") +
    task_of("level", "measure", "powered at rest", "parts = []");

struct StopCard : testing::Test {
  Scene scene{"2026-03-02T06:00:00Z", "Europe/Berlin", MoreTasks{card_tasks}};
  Stopping stops{scene};

  service::StopCardView card(std::vector<std::string> tasks) {
    must(stops.agree(1, std::move(tasks)));
    return must(show_stop(scene.shop(), id_of(1), scene.now));
  }
};

std::vector<std::string> changes_of(const service::CardOrderView& order) {
  std::vector<std::string> changes;
  for (const auto& phase : order.phases) changes.push_back(phase.change);
  return changes;
}

std::vector<std::string> keys_of(const std::vector<service::TaskView>& tasks) {
  std::vector<std::string> keys;
  for (const auto& task : tasks) keys.push_back(task.key);
  return keys;
}

TEST_F(StopCard, OrdersTheWorkByStateAndByWhatComesBefore) {
  const auto shown = card({"refill", "clean", "drain", "look"});
  EXPECT_THAT(keys_of(shown.tasks), ElementsAre("look", "drain", "clean", "refill"));
  EXPECT_THAT(changes_of(shown.order), ElementsAre("none", "shut down", "isolate", "release", "restart"));
  EXPECT_EQ(shown.order.state_changes, 4);
  EXPECT_EQ(shown.order.minutes_one, 45 + 3 + 3 * 10);
  EXPECT_LE(shown.order.minutes_two, shown.order.minutes_one);
  const auto& refill = shown.order.phases.at(3).works.at(0);
  EXPECT_THAT(refill.after, testing::UnorderedElementsAre("drain", "clean"));
  EXPECT_GT(refill.begin_minutes, shown.order.phases.at(2).works.at(0).begin_minutes);
}

TEST_F(StopCard, GoesThroughEachStateEvenWhereNothingIsDoneInIt) {
  const auto shown = card({"grease"});
  EXPECT_THAT(changes_of(shown.order), ElementsAre("shut down", "isolate", "release", "restart"));
  EXPECT_TRUE(shown.order.phases.at(0).works.empty());
  EXPECT_EQ(shown.order.phases.at(1).works.at(0).begin_minutes, 22.5) << "half of the set-up lies before";
  EXPECT_EQ(shown.order.minutes_one, shown.stop.minutes);
}

TEST_F(StopCard, SumsThePartsOfItsTasks) {
  const auto shown = card({"clean", "drain", "filter"});
  ASSERT_EQ(shown.kit.size(), 2u);
  for (const auto& part : shown.kit) {
    EXPECT_EQ(part.quantity, part.name == "Bag" ? 3 : 1) << part.name;
    EXPECT_EQ(part.tasks.size(), part.name == "Bag" ? 2u : 1u);
  }
}

TEST_F(StopCard, NamesTheOpenFindingsThatItSettles) {
  service::FindingEdit finding;
  finding.id = id_of(50);
  finding.by = "Ada";
  finding.what = "Sludge in the tank";
  finding.task = "clean";
  must(make_finding(scene.shop(), "mill1", finding, scene.now));
  finding.id = id_of(51);
  finding.task = "filter";
  must(make_finding(scene.shop(), "mill1", finding, scene.now));
  const auto shown = card({"clean"});
  ASSERT_EQ(shown.findings.size(), 1u);
  EXPECT_EQ(shown.findings[0].id, id_of(50));
}

TEST_F(StopCard, TellsTheStepsAndCautionsOfIsolation) {
  const auto isolation = card({"grease"}).isolation;
  ASSERT_EQ(isolation.steps.size(), 6u);
  EXPECT_EQ(isolation.steps.front().code, "prepare");
  EXPECT_EQ(isolation.steps.back().code, "verify");
  EXPECT_EQ(isolation.way_back.size(), 4u);
  EXPECT_FALSE(isolation.cautions.empty());
}

TEST_F(StopCard, OfAClosedStopIsStillShown) {
  const auto before = card({"drain", "clean"});
  must(stops.close(1, 1, {"drain"}, 10));
  const auto shown = must(show_stop(scene.shop(), id_of(1), scene.now));
  EXPECT_EQ(keys_of(shown.tasks), keys_of(before.tasks));
  EXPECT_EQ(shown.stop.tasks.at(1).state, "left undone");
}

TEST_F(StopCard, WhoMeasuresUnderPowerWorksAlone) {
  const auto shown = card({"level", "drain"});
  for (const auto& phase : shown.order.phases) {
    for (const auto& work : phase.works) EXPECT_EQ(work.alone, work.task == "level");
  }
  EXPECT_EQ(shown.order.minutes_two, 15 + 20) << "the other waits";
}

TEST_F(StopCard, TasksThatWouldWaitForEachOtherAreRefused) {
  service::TaskEdit edit;
  for (const auto& record : scene.shop().machines()[0]->record.tasks) {
    if (record.task.key == "drain") static_cast<service::TaskText&>(edit) = service::text_of(record.task);
  }
  edit.id = id_of(1);
  edit.by = "Ada";
  edit.version = 1;
  edit.after = std::vector<std::string>{"refill"};
  const auto refused = change_task(scene.shop(), "mill1", "drain", edit, scene.now);
  EXPECT_EQ(refused.error().code, ErrorCode::bad_input);
  EXPECT_THAT(refused.error().message, testing::HasSubstr("after: "));
  edit.after = std::vector<std::string>{"no-such"};
  EXPECT_THAT(change_task(scene.shop(), "mill1", "drain", edit, scene.now).error().message,
              testing::HasSubstr("after: mill1 has no task \"no-such\""));
  edit.after = std::vector<std::string>{"filter"};
  EXPECT_THAT(*must(change_task(scene.shop(), "mill1", "drain", edit, scene.now)).after, ElementsAre("filter"));
  scene.reopen();
  EXPECT_THAT(*scene.task("drain").after, ElementsAre("filter"));
}

TEST(StopPlan, SetUpGrowsWithTheState) {
  const catalogue::Stopping stopping;
  EXPECT_EQ(service::set_up_minutes(stopping, EnergyState::in_production), 0);
  EXPECT_LT(service::set_up_minutes(stopping, EnergyState::powered_at_rest),
            service::set_up_minutes(stopping, EnergyState::isolated));
  catalogue::Stopping turned;
  turned.powered_at_rest.hours = 2;
  EXPECT_EQ(service::set_up_minutes(turned, EnergyState::isolated), 120) << "isolated takes no less";
  EXPECT_EQ(service::energy_of({}), "powered at rest");
  EXPECT_EQ(service::standing_minutes(stopping, {{.task = "a", .energy = "in production", .minutes = 5}}), 15);
}

TEST(StopPlan, AnUnknownStopIsNotFound) {
  Scene scene;
  EXPECT_EQ(service::stored_stop(scene.shop(), id_of(9)).error().saying->code, "no-stop");
  EXPECT_TRUE(service::reload_stops(scene.shop(), "mill9"));
  EXPECT_FALSE(service::next_stop(scene.shop(), *scene.shop().machines()[0], scene.now));
}

// Whatever the tasks, the phases are as many as the changes, and each work is in a phase of its own state.
TEST_F(StopCard, Property_EachWorkIsInAPhaseOfItsState) {
  const std::vector<std::string> keys{"filter", "grease", "look", "refill", "drain", "clean", "level"};
  const auto& machine = *scene.shop().machines()[0];
  for (unsigned chosen = 1; chosen < 1u << keys.size(); ++chosen) {
    std::vector<std::string> tasks;
    for (std::size_t i = 0; i < keys.size(); ++i) {
      if (chosen >> i & 1u) tasks.push_back(keys[i]);
    }
    const auto plan =
        must(service::plan_of(scene.shop(), machine, {"none", LocalDate::of(2026, 3, 4), "early", tasks, ""}));
    const auto order = service::order_view(must(service::order_works(machine, plan.tasks)), plan.tasks,
                                           scene.shop().record().stopping);
    int changes = 0;
    std::size_t works = 0;
    for (const auto& phase : order.phases) {
      changes += phase.change != "none";
      works += phase.works.size();
      for (const auto& work : phase.works) EXPECT_EQ(scene.task(work.task).energy, phase.energy);
    }
    EXPECT_EQ(changes, order.state_changes);
    EXPECT_EQ(works, tasks.size());
    EXPECT_LE(order.minutes_two, order.minutes_one);
  }
}

}  // namespace
}  // namespace hw::shop
