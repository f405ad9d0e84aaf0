#include "src/terminal/copy_to_command.h"

#include <gtest/gtest.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

const copies::MoveReport moved{
    "d", "north", "Werk", 17, "abc", 0, "def", {{"plant", 1}, {"entry", 17}}, 0, "d/hourwright.db.moved"};

Called call_with(const Result<copies::MoveReport>& report, std::vector<std::string> words, CopyToCall& heard) {
  Entrances entrances;
  entrances.move_to_server = [&](const CopyToCall& one) { return heard = one, report; };
  return call(std::move(words), entrances);
}

TEST(CopyToCommand, CalledWronglySaysWhatIsMissing) {
  expect_refused(call({"copy-to", "--data", "d"}), 2, "--database");
  expect_refused(call({"copy-to", "--database", "postgresql://h/d"}), 2, "--data");
}

TEST(CopyToCommand, HandsOnBothPlacesAndSaysWhatCameOver) {
  CopyToCall heard;
  const Called said = call_with(moved, {"copy-to", "--data", "d", "--database", "postgresql://h/d"}, heard);
  EXPECT_EQ(said.exit_status, 0) << said.errors;
  EXPECT_EQ(heard.data, "d");
  EXPECT_EQ(heard.database, "postgresql://h/d");
  EXPECT_TRUE(
      said.output.starts_with("d: Werk is in the database now, under its key north: 18 rows of 2 tables, 17 "
                              "entries, head abc\nBoth sides have the same rows: SHA-256 def\n"))
      << said.output;
  EXPECT_NE(said.output.find("kept as d/hourwright.db.moved"), std::string::npos);
}

TEST(CopyToCommand, AsJsonItIsOneObject) {
  CopyToCall heard;
  EXPECT_EQ(
      call_with(moved, {"copy-to", "--data", "d", "--database", "postgresql://h/d", "--json"}, heard).output,
      "{\"data\":\"d\",\"key\":\"north\",\"plant\":\"Werk\",\"entries\":17,\"head\":\"abc\",\"breaks\":0,\"sha256\":"
      "\"def\",\"tables\":[{\"name\":\"plant\",\"rows\":1},{\"name\":\"entry\",\"rows\":17}],\"grants\":0,\"kept_"
      "file\":"
      "\"d/hourwright.db.moved\"}\n");
}

TEST(CopyToCommand, OfALogbookThatWasAlteredEndsWithOneAndSaysSo) {
  CopyToCall heard;
  copies::MoveReport altered = moved;
  altered.breaks = 2;
  altered.grants = 3;
  const Called said = call_with(altered, {"copy-to", "--data", "d", "--database", "postgresql://h/d"}, heard);
  EXPECT_EQ(said.exit_status, 1);
  EXPECT_NE(said.output.find("2 breaks"), std::string::npos);
  EXPECT_NE(said.output.find("3 links and tokens"), std::string::npos);
}

TEST(CopyToCommand, WhatIsRefusedIsOneSentence) {
  CopyToCall heard;
  const auto refused = refuse(ErrorCode::conflict, "d: its shop lies in a database on a server already");
  expect_refused(call_with(refused, {"copy-to", "--data", "d", "--database", "postgresql://h/d"}, heard), 1, "already");
}

}  // namespace
}  // namespace hw::terminal
