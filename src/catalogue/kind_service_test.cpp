#include "src/catalogue/kind_service.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "src/catalogue/shop_files.h"
#include "tests/places/places.h"

namespace hw::catalogue {
namespace {

Task work_of(WorkType work, EnergyState energy, double minutes) {
  Task task;
  task.work = work;
  task.energy = energy;
  task.minutes = minutes;
  return task;
}

TEST(KindService, TwoPeopleShareWorkInEachStateButNotWhatIsMeasuredUnderPower) {
  const std::vector<Task> tasks{work_of(WorkType::replace, EnergyState::isolated, 60),
                                work_of(WorkType::clean, EnergyState::isolated, 40),
                                work_of(WorkType::replace, EnergyState::powered_at_rest, 30),
                                work_of(WorkType::measure, EnergyState::powered_at_rest, 20),
                                work_of(WorkType::inspect, EnergyState::in_production, 500)};
  EXPECT_DOUBLE_EQ(standing_minutes(tasks, 1), 60 + 40 + 30 + 20);
  EXPECT_DOUBLE_EQ(standing_minutes(tasks, 2), 60 + 30 + 20) << "the longest task binds in both states";
  EXPECT_DOUBLE_EQ(standing_minutes({tasks[0], tasks[0], tasks[0]}, 2), 90);
  EXPECT_DOUBLE_EQ(standing_minutes({}, 2), 0);
}

TEST(KindService, EveryKindOfTheLibraryHasAYearlyOneThatFitsAShiftWithTwoPeople) {
  int sets = 0;
  for (const auto& file : std::filesystem::directory_iterator(in_source("library"))) {
    if (file.path().extension() != ".toml") continue;
    std::ifstream in(file.path());
    std::stringstream text;
    text << in.rdbuf();
    const auto set = parse_task_set(text.str(), file.path().filename().string());
    ASSERT_TRUE(set.has_value()) << set.error().message;
    ASSERT_EQ(set->services.size(), 1u) << set->kind;
    const KindService& yearly = set->services[0];
    EXPECT_EQ(yearly.key, "yearly");
    EXPECT_EQ(yearly.months, 12);
    std::vector<Task> tasks;
    for (const Task& task : set->tasks) {
      if (std::count(yearly.tasks.begin(), yearly.tasks.end(), task.key) > 0) tasks.push_back(task);
    }
    EXPECT_EQ(tasks.size(), yearly.tasks.size());
    EXPECT_LE(standing_minutes(tasks, yearly.people) + 45, 8 * 60) << set->kind;
    ++sets;
  }
  EXPECT_EQ(sets, 7);
}

}  // namespace
}  // namespace hw::catalogue
