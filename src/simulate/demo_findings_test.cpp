#include "src/simulate/demo_findings.h"

#include <gtest/gtest.h>

#include "src/service/finding.h"

namespace hw::simulate {
namespace {

const Instant now = *parse_instant("2026-03-04T10:00:00Z");

DemoFindings findings(std::string machine) {
  service::ShopRecord shop;
  shop.people = {{"Lea", catalogue::Skill::technician, true},
                 {"Tom", catalogue::Skill::technician, false},
                 {"Oki", catalogue::Skill::machine_operator, false}};
  service::MachineRecord record;
  record.machine.key = std::move(machine);
  const DemoUse use({{"operating", 1000}}, {}, shop.calendar.zone.date_of(now), 1);
  return demo_findings(record, shop, use, 1, now);
}

TEST(DemoFindings, AreOfEachSortThatIsWorthLookingAt) {
  int open = 0, settled = 0, without_owner = 0, overdue = 0, stop = 0, photos = 0;
  for (int n = 1; n <= 24; ++n) {
    const DemoFindings told = findings(fmt::format("m{:02}", n));
    photos += static_cast<int>(told.photos.size());
    if (told.entries.empty()) continue;
    const auto finding = service::finding_of(told.entries).value().value();
    EXPECT_EQ(finding.photos.size(), told.photos.size());
    EXPECT_LT(finding.at, now);
    (finding.settled ? settled : open) += 1;
    if (finding.settled) {
      EXPECT_GT(finding.settled->at, finding.at);
      continue;
    }
    without_owner += !finding.owner;
    overdue += finding.due_on && *finding.due_on < LocalDate::of(2026, 3, 4);
    stop += finding.severity == service::Severity::stop_the_machine;
  }
  EXPECT_EQ(open, 6);
  EXPECT_EQ(settled, 3);
  EXPECT_EQ(without_owner, 1);
  EXPECT_EQ(overdue, 1);
  EXPECT_EQ(stop, 1);
  EXPECT_EQ(photos, 1);
}

TEST(DemoFindings, AreTheSameEveryTime) {
  const auto one = findings("m22"), other = findings("m22");
  ASSERT_EQ(one.entries.size(), 3u);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(one.entries[i].id, other.entries[i].id);
  EXPECT_TRUE(findings("m05").entries.empty());
}

}  // namespace
}  // namespace hw::simulate
