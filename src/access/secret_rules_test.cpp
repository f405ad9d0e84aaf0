#include "src/access/secret_rules.h"

#include <vector>

#include <gtest/gtest.h>

namespace hw::access {
namespace {

const std::vector<std::string> near{"Ilka Brandorf", "Tauwerder Pumpenbau"};

std::string said(std::string_view password) {
  const auto checked = check_password(password, near);
  return checked ? "" : checked.error().saying->code;
}

TEST(Password, IsLongEnoughAndNotEndless) {
  EXPECT_EQ(said("grün tor 7x"), "password-short") << "characters count, not bytes";
  EXPECT_EQ(said("grün tor 7xq"), "");
  EXPECT_EQ(said(std::string(129, 'a')), "password-long");
}

TEST(Password, MayHaveAnyCharactersAndNeedsNone) {
  for (const char* right : {"blue lathe hums under rain", "vier gruene fraesen summen", "ключ лежит под синим станком",
                            "   spaces stay as they are   ", "qX9$vv!2mmZ_"}) {
    EXPECT_EQ(said(right), "") << right;
  }
}

TEST(Password, ThatIsGuessedEarlyIsRefused) {
  for (const char* guessed : {"password1234", "123456789012", "qwertyuiop12", "iloveyou1234", "aaaaaaaaaaaa",
                              "Passw0rd2024!", "ilkabrandorf1", "abcdefghijkl", "football2023"}) {
    EXPECT_EQ(said(guessed), "password-common") << guessed;
  }
}

TEST(Pin, IsFourToSixDigitsThatAreNotARow) {
  for (const char* right : {"2580", "19370", "402918"}) EXPECT_TRUE(check_pin(right)) << right;
  for (const char* wrong : {"", "123", "1234567", "12a4", "12 4", "-123", "１２３４"}) {
    ASSERT_FALSE(check_pin(wrong)) << wrong;
    EXPECT_EQ(check_pin(wrong).error().saying->code, "pin-form") << wrong;
  }
  for (const char* simple : {"0000", "111111", "1234", "345678", "9876", "43210"}) {
    ASSERT_FALSE(check_pin(simple)) << simple;
    EXPECT_EQ(check_pin(simple).error().saying->code, "pin-simple") << simple;
  }
}

}  // namespace
}  // namespace hw::access
