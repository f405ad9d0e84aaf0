#include "src/terminal/logbook_command.h"

#include <gtest/gtest.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

const std::string zeros(64, '0');

Called call_with(const record::Verdict& verdict, std::vector<std::string> words, VerifyCall* heard = nullptr) {
  Entrances entrances;
  entrances.verify = [&](const VerifyCall& one) -> Result<record::Verdict> {
    if (heard) *heard = one;
    return verdict;
  };
  return call(std::move(words), entrances);
}

TEST(LogbookCommand, CalledWronglySaysWhatIsMissing) {
  expect_refused(call({"logbook"}), 2, "subcommand");
  expect_refused(call({"logbook", "verify", "--data", "d", "--noted", "12ab"}), 2, "64 digits");
}

TEST(LogbookCommand, AnUnbrokenLogbookIsOneLineWithItsHead) {
  const Called called = call_with({2, zeros, {}, {}}, {"logbook", "verify", "--data", "d"});
  EXPECT_EQ(called.exit_status, 0);
  EXPECT_EQ(called.output, "2 entries, unbroken, head " + zeros + "\n");
  EXPECT_EQ(called.errors, "");
}

TEST(LogbookCommand, EachBreakIsALineAndTheExitStatusIsOne) {
  const record::Verdict broken{
      3,
      zeros,
      {{record::BreakKind::altered, 1, "entry 1 was altered"}, {record::BreakKind::put_in, 2, "entry 2 ..."}},
      {}};
  const Called called = call_with(broken, {"logbook", "verify", "--data", "d"});
  EXPECT_EQ(called.exit_status, 1);
  EXPECT_EQ(called.output, "entry 1 was altered\nentry 2 ...\n");
  const Called json = call_with(broken, {"logbook", "verify", "--data", "d", "--json"});
  EXPECT_EQ(json.exit_status, 1);
  EXPECT_EQ(json.output, "{\"entries\":3,\"head\":\"" + zeros +
                             "\",\"breaks\":[{\"kind\":\"altered\",\"entry\":1,\"says\":\"entry 1 was altered\"},"
                             "{\"kind\":\"put in\",\"entry\":2,\"says\":\"entry 2 ...\"}],\"photos_awaited\":[]}\n");
}

TEST(LogbookCommand, APhotoThatIsNotHereYetIsSaidAndBreaksNothing) {
  const Called called = call_with({2, zeros, {}, {{2, "p1"}}}, {"logbook", "verify", "--data", "d"});
  EXPECT_EQ(called.exit_status, 0);
  EXPECT_EQ(called.output, "2 entries, unbroken, head " + zeros +
                               "\nphoto p1 of entry 2 is not here; it may still come from a phone\n");
}

TEST(LogbookCommand, HandsOnTheFolderAndTheNotedHash) {
  VerifyCall heard;
  call_with({}, {"logbook", "verify", "--data", "d"}, &heard);
  EXPECT_EQ(heard.data, "d");
  EXPECT_FALSE(heard.noted);
  call_with({}, {"logbook", "verify", "--data", "d", "--noted", zeros}, &heard);
  EXPECT_EQ(heard.noted, zeros);
}

}  // namespace
}  // namespace hw::terminal
