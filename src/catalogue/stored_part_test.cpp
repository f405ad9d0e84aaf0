#include "src/catalogue/stored_part.h"

#include <gtest/gtest.h>

namespace hw::catalogue {
namespace {

StoredPart filter(std::string number) {
  StoredPart part;
  part.number = std::move(number);
  part.title = "Return filter";
  part.unit = "piece";
  return part;
}

std::string refusal(const Result<void>& checked) { return checked ? "" : checked.error().message; }

TEST(StoredPart, SaysWhichFieldCannotBe) {
  EXPECT_TRUE(check(filter("F-104")));
  EXPECT_EQ(refusal(check(filter("F,104"))).substr(0, 7), "number:");
  EXPECT_EQ(refusal(check(filter(""))), "number: say it in 1 to 40 characters");
  StoredPart part = filter("F-104");
  part.price = -1;
  EXPECT_EQ(refusal(check(part)), "price: -1 must be 0 to 10000000");
  part = filter("F-104");
  part.pack = 2.5;
  EXPECT_NE(refusal(check(part)).find("whole"), std::string::npos);
  part.unit = "l";
  EXPECT_TRUE(check(part));
  part.serial = true;
  EXPECT_EQ(refusal(check(part)), "serial: what is measured in l has no serial numbers");
}

TEST(StoredPart, SubstitutesInARingAreRefusedWithTheRing) {
  std::vector<StoredPart> parts{filter("A"), filter("B"), filter("C"), filter("D")};
  parts[0].substitutes = {"B", "C"};
  parts[1].substitutes = {"C"};
  EXPECT_TRUE(check_substitutes(parts)) << "two ways to one part are no ring";
  parts[2].substitutes = {"D"};
  parts[3].substitutes = {"B"};
  EXPECT_EQ(refusal(check_substitutes(parts)),
            "substitutes: B → C → D → B stand in for each other in a ring; leave one of them out");
  parts[3].substitutes = {"D"};
  EXPECT_NE(refusal(check_substitutes(parts)).find("D → D"), std::string::npos);
  parts[3].substitutes = {"E"};
  EXPECT_NE(refusal(check_substitutes(parts)).find("part D names \"E\""), std::string::npos);
}

TEST(Kit, NamesOneTaskOfOneKindAndPartsThatAreKept) {
  const std::vector<StoredPart> parts{filter("A")};
  Kit kit{.kind = "lathe", .task = "filter", .lines = {{"A", 2}}};
  EXPECT_TRUE(check(kit, parts));
  kit.lines = {{"A", 2}, {"B", 1}};
  EXPECT_EQ(refusal(check(kit, parts)), "lines[1]: part: the stores do not keep \"B\"");
  kit.lines = {{"A", 2}, {"A", 1}};
  EXPECT_NE(refusal(check(kit, parts)).find("named twice"), std::string::npos);
  kit.lines = {{"A", 0.5}};
  EXPECT_NE(refusal(check(kit, parts)).find("no whole number of piece"), std::string::npos);
  kit.lines = {};
  kit.service = "yearly";
  EXPECT_EQ(refusal(check(kit, parts)).substr(0, 5), "task:");
}

}  // namespace
}  // namespace hw::catalogue
