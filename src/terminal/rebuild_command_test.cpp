#include "src/terminal/rebuild_command.h"

#include <gtest/gtest.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

TEST(RebuildCommand, SaysBeforeAndAfterAndExitsWithOneWhereTheyDiffer) {
  service::RebuildReport report{{{"entries", 17, "aa", "aa", {}, {}}}};
  Entrances entrances;
  entrances.rebuild = [&](const std::string&) -> Result<service::RebuildReport> { return report; };
  const Called equal = call({"rebuild", "--data", "d"}, entrances);
  EXPECT_EQ(equal.exit_status, 0);
  EXPECT_EQ(equal.output, "From 17 entries: equal, nothing was changed\n  before aa\n  after  aa\n");
  report.parts[0].after = "bb";
  report.parts[0].differences = {"the table walk does not agree"};
  const Called differing = call({"rebuild", "--data", "d"}, entrances);
  EXPECT_EQ(differing.exit_status, 1);
  EXPECT_EQ(differing.output,
            "From 17 entries: not equal, made again\n  before aa\n  after  bb\n  the table walk does not agree\n");
  EXPECT_EQ(call({"rebuild", "--data", "d", "--json"}, entrances).exit_status, 1);
}

}  // namespace
}  // namespace hw::terminal
