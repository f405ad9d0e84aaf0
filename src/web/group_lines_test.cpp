#include "src/web/group_lines.h"

#include <gtest/gtest.h>

namespace hw::web {
namespace {

const Instant six = *parse_instant("2026-03-02T06:00:00Z");
const service::PlantHolder a{"a", "http://a", "secret"};

TEST(GroupLines, TellThePlantsAndWhatTheirServersTold) {
  GroupLines lines;
  EXPECT_EQ(*lines.floor(six), R"({"now":"2026-03-02T06:00:00Z","plants":[]})");
  EXPECT_TRUE(lines.take({{"north", "Plant \"N\"", a}, {"south", "S", {}}, {service::group_key, "Group", a}},
                         {{"north", 3, R"({"as_of":1})"}}));
  EXPECT_EQ(*lines.floor(six), R"({"now":"2026-03-02T06:00:00Z","plants":[)"
                               R"({"key":"north","title":"Plant \"N\"","held":true,"line":{"as_of":1}},)"
                               R"({"key":"south","title":"S","held":false,"line":null}]})");
}

TEST(GroupLines, TellTheVisitsOfEachPlantApart) {
  GroupLines lines;
  ASSERT_TRUE(lines.take({{"north", "N", a}, {"old", "O", a}, {"south", "S", {}}, {service::group_key, "Group", a}},
                         {{"north", 3, R"({"as_of":1,"visits":[{"on":"2026-03-04"}]})"}, {"old", 1, "{}"}}));
  EXPECT_EQ(lines.visits(six),
            R"({"now":"2026-03-02T06:00:00Z","plants":[)"
            R"({"key":"north","title":"N","visits":[{"on":"2026-03-04"}]},)"
            R"({"key":"old","title":"O","visits":null},{"key":"south","title":"S","visits":null}]})");
}

TEST(GroupLines, AreOtherOnlyWhereSomethingPeopleSeeHasChanged) {
  GroupLines lines;
  ASSERT_TRUE(lines.take({{"north", "N", a}}, {{"north", 3, "{}"}}));
  EXPECT_FALSE(lines.take({{"north", "N", service::PlantHolder{"b", "http://b", "s"}}}, {}))
      << "who holds it is no news";
  EXPECT_TRUE(lines.take({{"north", "N", {}}}, {}));
  EXPECT_TRUE(lines.take({{"north", "N", {}}}, {{"north", 4, "{}"}}));
  EXPECT_EQ(lines.known(), (std::map<std::string, std::int64_t>{{"north", 4}}));
  EXPECT_TRUE(lines.take({}, {})) << "a plant that is gone is gone from the Floor";
  EXPECT_EQ(lines.floor(six)->find("north"), std::string::npos);
}

}  // namespace
}  // namespace hw::web
