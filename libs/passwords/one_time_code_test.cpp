#include "libs/passwords/one_time_code.h"

#include <gtest/gtest.h>

namespace hw::passwords {
namespace {

constexpr std::string_view rfc_key = "12345678901234567890";

TEST(OneTimeCode, IsThatOfTheStandardForEachCounter) {
  // RFC 4226, appendix D.
  const char* const codes[] = {"755224", "287082", "359152", "969429", "338314",
                               "254676", "287922", "162583", "399871", "520489"};
  for (int step = 0; step < 10; ++step) EXPECT_EQ(code_of(rfc_key, step), codes[step]) << step;
}

TEST(OneTimeCode, IsThatOfTheStandardForEachTime) {
  // RFC 6238, appendix B, SHA-1, 8 digits.
  const std::pair<std::int64_t, const char*> cases[] = {{59, "94287082"},         {1111111109, "07081804"},
                                                        {1111111111, "14050471"}, {1234567890, "89005924"},
                                                        {2000000000, "69279037"}, {20000000000, "65353130"}};
  for (const auto& [second, code] : cases) {
    EXPECT_EQ(code_of(rfc_key, second / 30, 8), code) << second;
  }
}

TEST(OneTimeCode, ChangesEveryThirtySeconds) {
  EXPECT_EQ(code_step(Instant::from_millis(59'999)), 1);
  EXPECT_EQ(code_step(Instant::from_millis(60'000)), 2);
  EXPECT_EQ(code_step(Instant::from_millis(-1)), -1) << "a clock before 1970 is no trap";
}

TEST(OneTimeCode, CountsOnceAndAStepToEachSide) {
  const Instant now = Instant::from_millis(1'700'000'010'000);
  const std::int64_t present = code_step(now);
  for (const std::int64_t off : {-1, 0, 1}) {
    EXPECT_EQ(step_of_code(rfc_key, code_of(rfc_key, present + off), now, 0), present + off);
  }
  EXPECT_EQ(step_of_code(rfc_key, code_of(rfc_key, present - 2), now, 0), std::nullopt);
  EXPECT_EQ(step_of_code(rfc_key, code_of(rfc_key, present + 2), now, 0), std::nullopt);
  EXPECT_EQ(step_of_code(rfc_key, code_of(rfc_key, present), now, present), std::nullopt) << "used already";
  EXPECT_EQ(step_of_code(rfc_key, code_of(rfc_key, present - 1), now, present), std::nullopt) << "an older one";
  EXPECT_EQ(step_of_code(rfc_key, "", now, 0), std::nullopt);
}

TEST(Base32, IsThatOfTheStandardWithoutPadding) {
  // RFC 4648, section 10.
  const std::pair<const char*, const char*> cases[] = {{"", ""},
                                                       {"f", "MY"},
                                                       {"fo", "MZXQ"},
                                                       {"foo", "MZXW6"},
                                                       {"foob", "MZXW6YQ"},
                                                       {"fooba", "MZXW6YTB"},
                                                       {"foobar", "MZXW6YTBOI"}};
  for (const auto& [bytes, text] : cases) EXPECT_EQ(print_base32(bytes), text);
}

}  // namespace
}  // namespace hw::passwords
