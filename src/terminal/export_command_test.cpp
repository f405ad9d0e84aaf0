#include "src/terminal/export_command.h"

#include <gmock/gmock.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

using testing::HasSubstr;

TEST(ExportCommand, SaysWhatThereIsAndWhereItGoes) {
  ExportCall asked;
  Entrances entrances;
  const auto report = [&](const ExportCall& call) -> Result<copies::ExportReport> {
    asked = call;
    copies::ExportReport told{call.folder, 3, {}};
    told.head.name = "Works";
    told.head.plant = "north";
    told.head.tables = {{"entry", 7, {"plant"}}, {"task", 5, {"plant"}}};
    return told;
  };
  entrances.export_shop = report;
  entrances.import_shop = report;
  const Called written = call({"export", "out", "--data", "d"}, entrances);
  EXPECT_EQ(written.exit_status, 0) << written.errors;
  EXPECT_THAT(written.output, HasSubstr("out: Works (key north), 12 rows of 2 tables, 3 photos"));
  EXPECT_EQ(asked.data, "d");
  const Called read = call({"import", "out", "--data", "d", "--json"}, entrances);
  EXPECT_THAT(read.output, HasSubstr("\"photos\":3"));
  expect_refused(call({"export", "--data", "d"}, entrances), 2, "FOLDER");
  expect_refused(call({"import", "out"}, entrances), 2, "--data");
}

}  // namespace
}  // namespace hw::terminal
