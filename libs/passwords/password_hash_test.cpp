#include "libs/passwords/password_hash.h"

#include <gtest/gtest.h>

#include "libs/passwords/password_strength.h"

namespace hw::passwords {
namespace {

TEST(PasswordHash, FitsItsPasswordAndNoOther) {
  const std::string hash = hash_password("blue lathe hums");
  EXPECT_TRUE(hash.starts_with("$argon2id$v=19$m=19456,t=2,p=1$")) << hash;
  EXPECT_TRUE(is_password_of(hash, "blue lathe hums"));
  for (const char* other : {"", "blue lathe hum", "blue lathe hums ", "Blue lathe hums"}) {
    EXPECT_FALSE(is_password_of(hash, other)) << other;
  }
  EXPECT_NE(hash_password("blue lathe hums"), hash) << "the salt is another one each time";
}

// Made by Debian's argon2 (0~20171227), the reference program:
// printf 'kühlmittel am Montag' | argon2 0123456789abcdef -id -t 2 -k 19456 -p 1 -l 32 -e
TEST(PasswordHash, IsThatOfTheReferenceProgram) {
  const std::string_view ours =
      "$argon2id$v=19$m=19456,t=2,p=1$MDEyMzQ1Njc4OWFiY2RlZg$5ZPnXhS0NghEB2eKLjd4dfW5Mb2gJb6di6AavUrZPtE";
  EXPECT_TRUE(is_password_of(ours, "kühlmittel am Montag"));
  EXPECT_FALSE(is_password_of(ours, "kühlmittel am Dienstag"));
}

TEST(PasswordHash, NobodysHashAndWhatIsNoHashFitNothing) {
  EXPECT_FALSE(is_password_of(hash_of_nobody(), ""));
  for (const char* broken : {"", "x", "$argon2id$", "$argon2id$v=19$m=19456,t=2,p=1$$"}) {
    EXPECT_FALSE(is_password_of(broken, "")) << broken;
  }
}

TEST(PasswordStrength, KnowsListedOnesAndWordsThatAreNear) {
  const std::vector<std::string> near{"Tauwerder"};
  EXPECT_LT(guesses_power("password1234", near), 5);
  EXPECT_LT(guesses_power("tauwerder", near), 3);
  EXPECT_GT(guesses_power("tauwerder", {}), 5);
  EXPECT_GT(guesses_power("blue lathe hums under rain", near), 12);
  EXPECT_EQ(guesses_power("", near), 0);
  EXPECT_GT(guesses_power(std::string(5000, 'x') + "y", near), 0) << "its beginning is looked at";
}

}  // namespace
}  // namespace hw::passwords
