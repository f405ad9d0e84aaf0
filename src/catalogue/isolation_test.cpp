#include "src/catalogue/isolation.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <limits>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "src/catalogue/isolation_fields.h"
#include "src/catalogue/isolation_steps.h"
#include "src/catalogue/shop_files.h"
#include "tests/places/places.h"

namespace hw::catalogue {
namespace {

const std::string point_text = R"([[isolation]]
key = "main-switch"
title = "Main switch"
title_de = "Hauptschalter"
energy = "electrical"
where = "On the cabinet"
where_de = "Am Schrank"
how = "Off and locked."
how_de = "Aus und gesperrt."
wait_minutes = 15
)";
const std::string stored_text = R"([[stored_energy]]
energy = "gravity"
title = "Head"
title_de = "Kopf"
release = "Onto its prop."
release_de = "Auf die Stütze."
verify = "It rests."
verify_de = "Er ruht."
)";

Result<Isolation> read(const std::string& text) { return read_document(text, "kind.toml", read_isolation); }

std::string isolation_with(const std::string& what, const std::string& by) {
  std::string text = point_text + stored_text;
  const auto at = text.find(what);
  EXPECT_NE(at, std::string::npos) << what;
  return text.replace(at, what.size(), by);
}

std::vector<TaskSet> library_sets() {
  std::vector<TaskSet> sets;
  for (const auto& file : std::filesystem::directory_iterator(in_source("library"))) {
    if (file.path().extension() != ".toml") continue;
    std::stringstream text;
    text << std::ifstream(file.path()).rdbuf();
    auto set = parse_task_set(text.str(), file.path().filename().string());
    EXPECT_TRUE(set.has_value()) << set.error().message;
    if (set) sets.push_back(*std::move(set));
  }
  return sets;
}

template <class Things>
bool names(const Things& things, EnergySource energy) {
  return std::any_of(things.begin(), things.end(), [&](const auto& one) { return one.energy == energy; });
}

TEST(IsolationFields, PointsAndStoredEnergiesAreReadFieldByField) {
  const auto isolation = read(point_text + stored_text);
  ASSERT_TRUE(isolation.has_value()) << isolation.error().message;
  EXPECT_EQ(isolation->points.at(0), (IsolationPoint{"main-switch",
                                                     "Main switch",
                                                     "Hauptschalter",
                                                     EnergySource::electrical,
                                                     "On the cabinet",
                                                     "Am Schrank",
                                                     "Off and locked.",
                                                     "Aus und gesperrt.",
                                                     {},
                                                     15.0}));
  EXPECT_EQ(
      isolation->stored.at(0),
      (StoredEnergy{
          EnergySource::gravity, "Head", "Kopf", "Onto its prop.", "Auf die Stütze.", "It rests.", "Er ruht.", {}}));
}

TEST(IsolationFields, AKindWithoutThemHasNone) { EXPECT_EQ(read(""), Isolation{}); }

TEST(IsolationFields, AMistakeIsNamedByFileLineAndFieldWithWhatWouldBeRight) {
  struct Case {
    std::string text;
    std::vector<std::string> says;
  };
  const std::vector<Case> cases{
      {isolation_with("\"electrical\"", "\"steam\""),
       {"kind.toml, isolation 1, line 5, energy", "electrical, hydraulic"}},
      {isolation_with("title_de = \"Hauptschalter\"\n", ""), {"isolation 1", "title_de", "missing"}},
      {isolation_with("\"Aus und gesperrt.\"", "\" \""), {"isolation 1", "how_de", "empty"}},
      {isolation_with("\"Off and locked.\"", "\"" + std::string(601, 'x') + "\""), {"isolation 1", "how", "600"}},
      {isolation_with("= 15", "= 0"), {"wait_minutes", "above 0"}},
      {isolation_with("= 15", "= nan"), {"wait_minutes"}},
      {isolation_with("= 15", "= 1441"), {"wait_minutes", "1440"}},
      {isolation_with("wait_minutes", "wait"), {"wait", "no such field"}},
      {isolation_with("\"It rests.\"", "\"\""), {"stored_energy 1", "verify", "empty"}},
      {isolation_with("\"gravity\"", "\"weight\""), {"stored_energy 1, line 12, energy", "gravity"}},
      {point_text + point_text, {"isolation", "\"main-switch\" stands twice"}},
  };
  for (const Case& one : cases) {
    const auto isolation = read(one.text);
    ASSERT_FALSE(isolation.has_value()) << one.says.front();
    for (const auto& part : one.says) {
      EXPECT_NE(isolation.error().message.find(part), std::string::npos) << isolation.error().message;
    }
  }
}

TEST(Isolation, EverySetNamesTheMainSwitchWithItsWaitAndPutsItWhereTheCabinetIs) {
  const auto sets = library_sets();
  ASSERT_EQ(sets.size(), 7u);
  for (const auto& set : sets) {
    const auto& points = set.isolation.points;
    const auto main =
        std::find_if(points.begin(), points.end(), [](const auto& one) { return one.key == "main-switch"; });
    ASSERT_NE(main, points.end()) << set.kind;
    ASSERT_TRUE(main->wait_minutes && main->point) << set.kind;
    EXPECT_GE(*main->wait_minutes, 5) << set.kind;
    EXPECT_NE(main->how.find("plate"), std::string::npos) << set.kind;
    EXPECT_NE(main->how.find("common practice"), std::string::npos) << set.kind;
    EXPECT_NE(main->how_de.find("üblich"), std::string::npos) << set.kind;
    const auto there = std::find_if(set.points.begin(), set.points.end(),
                                    [&](const auto& point) { return point.number == *main->point; });
    ASSERT_NE(there, set.points.end()) << set.kind;
    EXPECT_EQ(there->assembly, "cabinet") << set.kind;
  }
}

TEST(Isolation, EverySetNamesEachEnergyThatItsAssembliesHold) {
  for (const auto& set : library_sets()) {
    const auto has = [&](std::string_view key) {
      return std::any_of(set.assemblies.begin(), set.assemblies.end(),
                         [&](const auto& assembly) { return assembly.key == key; });
    };
    for (const auto energy : {EnergySource::electrical, EnergySource::hydraulic, EnergySource::gravity,
                              EnergySource::spring, EnergySource::heat, EnergySource::coolant}) {
      EXPECT_TRUE(names(set.isolation.stored, energy)) << set.kind << " " << word_of(energy);
    }
    EXPECT_TRUE(!has("air") || names(set.isolation.points, EnergySource::air)) << set.kind;
    EXPECT_TRUE(!has("air") || names(set.isolation.stored, EnergySource::air)) << set.kind;
    EXPECT_TRUE(names(set.isolation.points, EnergySource::hydraulic)) << set.kind;
    EXPECT_TRUE(names(set.isolation.points, EnergySource::gravity)) << set.kind;
  }
}

TEST(Isolation, NoTextOfTheLibraryOrTheTablesSaysThatAMachineIsSafe) {
  std::string all;
  for (const auto& set : library_sets()) {
    for (const auto& one : set.isolation.points) all += one.title + one.where + one.how + one.how_de;
    for (const auto& one : set.isolation.stored) all += one.release + one.verify + one.release_de + one.verify_de;
  }
  for (const auto& steps : {isolation_steps(), way_back_steps()}) {
    for (const auto& step : steps) all += std::string{step.text} + std::string{step.text_de};
  }
  for (const auto& says : {"is safe", "are safe", "ist sicher", "sind sicher", "gefahrlos"}) {
    EXPECT_EQ(all.find(says), std::string::npos) << says;
  }
}

TEST(IsolationSteps, AreTheSixOfTheStandardInItsOrderAndTheWayBack) {
  std::string codes;
  for (const auto& step : isolation_steps()) codes += std::string{step.code} + " ";
  EXPECT_EQ(codes, "prepare shut-down isolate lock release verify ");
  EXPECT_EQ(way_back_steps().front().code, "tools-out");
  EXPECT_EQ(way_back_steps().back().code, "tell-people");
  for (const auto& steps : {isolation_steps(), way_back_steps()}) {
    for (const auto& step : steps) EXPECT_TRUE(!step.text.empty() && !step.text_de.empty()) << step.code;
  }
  EXPECT_NE(isolation_cautions().front().text.find("builder's manual"), std::string_view::npos);
}

}  // namespace
}  // namespace hw::catalogue
