#include "src/service/title.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

TEST(Title, HasOneToSixtyCharactersAndNoBlanksAtItsEnds) {
  const auto is_right = [](const std::string& title) {
    return check_title("title", title, "what it is for").has_value();
  };
  EXPECT_TRUE(is_right("Phone at the lathes"));
  std::string sixty;
  for (int i = 0; i < 60; ++i) sixty += "Ö";
  EXPECT_TRUE(is_right(sixty));
  EXPECT_FALSE(is_right(sixty + "x"));
  for (const char* wrong : {"", " ", " Phone", "Phone ", "Pho\nne", "\t"}) EXPECT_FALSE(is_right(wrong)) << wrong;
}

TEST(Title, ThatIsRefusedIsToldWithItsFieldAndWhatBelongsThere) {
  EXPECT_EQ(check_title("name", "", "as it is to stand in the logbook").error().message,
            "name: 1 to 60 characters without blanks at the ends, as it is to stand in the logbook");
}

}  // namespace
}  // namespace hw::service
