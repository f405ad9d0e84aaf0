#include "src/terminal/backup_command.h"

#include <gtest/gtest.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

copies::CopyReport some_report(int breaks = 0) {
  copies::CopyHead head{1, "0.1.0", "Werk", *parse_instant("2026-11-26T02:00:00Z"), 17, "abc", breaks, {}};
  head.files = {{"hourwright.db", 1'500'000, "def"}};
  return {"shop.copy", 400'000, head};
}

struct Heard {
  BackupCall backup;
  std::string checked;
  RestoreCall restore;
};

Called call_with(const Result<copies::CopyReport>& report, std::vector<std::string> words, Heard& heard) {
  Entrances entrances;
  entrances.make_copy = [&](const BackupCall& one) { return heard.backup = one, report; };
  entrances.check_copy = [&](const std::string& one) { return heard.checked = one, report; };
  entrances.restore_copy = [&](const RestoreCall& one) { return heard.restore = one, report; };
  return call(std::move(words), entrances);
}

TEST(BackupCommand, CalledWronglySaysWhatIsMissing) {
  expect_refused(call({"backup"}), 2, "name the file");
  expect_refused(call({"backup", "verify"}), 2, "FILE");
  expect_refused(call({"restore", "f"}), 2, "--data");
}

TEST(BackupCommand, HandsOnFileAndFolderAndSaysWhatIsInTheCopy) {
  Heard heard;
  const Called made = call_with(some_report(), {"backup", "f", "--data", "d"}, heard);
  EXPECT_EQ(made.exit_status, 0) << made.errors;
  EXPECT_EQ(heard.backup.file, "f");
  EXPECT_EQ(heard.backup.data, "d");
  EXPECT_EQ(heard.checked, "");
  EXPECT_TRUE(made.output.starts_with("shop.copy: Werk, made 2026-11-26T02:00:00Z, 17 entries, head abc"))
      << made.output;
  const Called checked = call_with(some_report(), {"backup", "verify", "f"}, heard);
  EXPECT_EQ(heard.checked, "f");
  EXPECT_TRUE(checked.output.ends_with("The copy is good.\n"));
  call_with(some_report(), {"restore", "f", "--data", "new"}, heard);
  EXPECT_EQ(heard.restore.file, "f");
  EXPECT_EQ(heard.restore.data, "new");
}

TEST(BackupCommand, AsJsonItIsOneObject) {
  Heard heard;
  EXPECT_EQ(call_with(some_report(), {"backup", "f", "--json"}, heard).output,
            "{\"file\":\"shop.copy\",\"bytes\":400000,\"copy\":{\"schema\":1,\"program\":\"0.1.0\",\"plant\":\"Werk\","
            "\"made_at\":\"2026-11-26T02:00:00Z\",\"entries\":17,\"head\":\"abc\",\"breaks\":0,\"files\":[{\"name\":"
            "\"hourwright.db\",\"bytes\":1500000,\"sha256\":\"def\"}]}}\n");
}

TEST(BackupCommand, OfABrokenLogbookTheExitStatusIsOne) {
  Heard heard;
  const Called called = call_with(some_report(2), {"backup", "f"}, heard);
  EXPECT_EQ(called.exit_status, 1);
  EXPECT_NE(called.output.find("2 breaks"), std::string::npos);
  expect_refused(call_with(refuse(ErrorCode::disk_full, "no room"), {"backup", "f"}, heard), 1, "no room");
}

}  // namespace
}  // namespace hw::terminal
