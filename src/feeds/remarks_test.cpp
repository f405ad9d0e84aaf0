#include "src/feeds/remarks.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

TEST(Remarks, SentencesNameTheItemAndWhatFollows) {
  counters::MachineModel mill;
  mill.name = "mill";
  mill.items.resize(2);
  mill.items[0].name = "exec";
  mill.items[0].role = counters::Role::execution;
  mill.items[1].id = "s1";
  mill.items[1].category = "SAMPLE";
  mill.items[1].role = counters::Role::load;
  Notes notes;
  Remarks remarks(std::span(&mill, 1), notes);
  remarks.odd_word(0, 0, "EXECUTING");
  remarks.odd_word(0, 1, "much");
  remarks.unknown_item("mill", "x7");
  remarks.unknown_item("saw", "");
  remarks.unknown_key("mill", "Program\x01Status");
  const auto all = notes.take();
  ASSERT_EQ(all.size(), 5U);
  EXPECT_EQ(all[0], (Note{"mill", "exec says \"EXECUTING\", which the standard does not know: counted as not active"}));
  EXPECT_EQ(all[1], (Note{"mill", "s1 says \"much\" where a number belongs: unknown"}));
  EXPECT_EQ(all[2], (Note{"mill", "dataItemId \"x7\" is not in the device model"}));
  EXPECT_EQ(all[3], (Note{"saw", "device \"saw\" is not in the device model"}));
  EXPECT_EQ(all[4], (Note{"mill", "key \"Program Status\" is not in the device model"}));
}

TEST(Remarks, LongTextsAreCutBetweenCharacters) {
  Notes notes;
  Remarks remarks({}, notes);
  std::string key;
  for (int n = 0; n < 100; ++n) key += "\xC3\xA4";
  remarks.unknown_key("mill", "x" + key);
  const std::string text = notes.take().at(0).text;
  EXPECT_LT(text.size(), 120U);
  EXPECT_NE(text.find("\xC3\xA4\""), std::string::npos) << text;
}

}  // namespace
}  // namespace hw::feeds
