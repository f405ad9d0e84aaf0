#include "src/access/join_codes.h"

#include <map>
#include <set>

#include <gtest/gtest.h>

#include "libs/values/secret.h"

namespace hw::access {
namespace {

const Instant morning = *parse_instant("2026-11-25T06:30:00Z");
constexpr Duration a_moment = Duration::millis(1);

TEST(JoinCodes, ACodeIsEightSignsThatAreNotTakenForOneAnother) {
  JoinCodes codes(secret_bytes);
  std::set<std::string> seen;
  for (int i = 0; i < 100; ++i) {
    const auto code = codes.offer({std::to_string(i), "Ada"}, morning);
    ASSERT_TRUE(code);
    EXPECT_EQ(code->code.size(), 8U);
    EXPECT_EQ(code->code.find_first_not_of(code_signs), std::string::npos) << code->code;
    seen.insert(code->code);
  }
  EXPECT_EQ(seen.size(), 100U);
  for (const char alike : std::string_view{"0O1IL2Z5S8BGUVQ"}) EXPECT_EQ(code_signs.find(alike), std::string::npos);
}

TEST(JoinCodes, EachSignIsAsLikelyAsTheOthers) {
  // Of 256 bytes, one of each value, 252 become signs: each sign twelve times.
  std::string all;
  for (int byte = 0; byte < 256; ++byte) all += static_cast<char>(byte);
  std::size_t at = 0;
  JoinCodes codes([&](std::size_t count) {
    const std::string bytes = all.substr(at, count);
    at += count;
    return bytes;
  });
  std::map<char, int> times;
  // Each code draws 16 bytes and uses the first 8 of them.
  for (int i = 0; i < 15; ++i) {
    const auto offered = codes.offer({std::to_string(i), "Ada"}, morning);
    for (const char sign : offered->code) ++times[sign];
  }
  for (const auto& [sign, count] : times) EXPECT_NEAR(count, 6, 2) << sign;
  EXPECT_EQ(times.size(), code_signs.size());
}

TEST(JoinCodes, TheSameIdAgainIsTheSameCode) {
  JoinCodes codes(secret_bytes);
  const auto first = codes.offer({"a", "Ada"}, morning);
  EXPECT_EQ(codes.offer({"a", "Ada"}, morning + Duration::seconds(60))->code, first->code);
  EXPECT_NE(codes.offer({"b", "Ada"}, morning)->code, first->code);
}

TEST(JoinCodes, IsFoundAsPeopleTypeIt) {
  JoinCodes codes([](std::size_t count) { return std::string(count, '\x05'); });
  ASSERT_EQ(codes.offer({"a", "Ada"}, morning)->code, "AAAAAAAA");
  for (const char* typed : {"AAAAAAAA", "aaaaaaaa", "AAAA-AAAA", " aaaa aaaa "}) {
    EXPECT_TRUE(codes.find(typed, morning)) << typed;
  }
  for (const char* typed : {"", "AAAAAAA", "AAAAAAAAA", "AAAAAAAC", "AAAA_AAAA"}) {
    EXPECT_FALSE(codes.find(typed, morning)) << typed;
  }
}

TEST(JoinCodes, LastsAQuarterOfAnHour) {
  JoinCodes codes(secret_bytes);
  const auto code = codes.offer({"a", "Ada"}, morning);
  EXPECT_EQ(code->valid_until, morning + Duration::seconds(900));
  EXPECT_TRUE(codes.find(code->code, code->valid_until - a_moment));
  const auto late = codes.find(code->code, code->valid_until);
  ASSERT_FALSE(late);
  EXPECT_EQ(late.error().code, ErrorCode::not_found);
  EXPECT_NE(late.error().message.find("15 minutes"), std::string::npos);
}

TEST(JoinCodes, AfterTenWrongTriesNoneIsTakenUntilAMinuteIsOver) {
  JoinCodes codes(secret_bytes);
  const auto code = codes.offer({"a", "Ada"}, morning);
  for (int i = 0; i < 10; ++i) {
    EXPECT_EQ(codes.find("wrong", morning + Duration::seconds(i)).error().code, ErrorCode::not_found);
  }
  const auto right = codes.find(code->code, morning + Duration::seconds(10));
  ASSERT_FALSE(right);  // or guessing would go on
  EXPECT_EQ(right.error().code, ErrorCode::too_often);
  EXPECT_NE(right.error().message.find("in 50 s"), std::string::npos) << right.error().message;
  EXPECT_FALSE(codes.find(code->code, morning + Duration::seconds(60) - a_moment));
  EXPECT_TRUE(codes.find(code->code, morning + Duration::seconds(60)));
}

TEST(JoinCodes, OnceUsedTheCodeNamesItsDevice) {
  JoinCodes codes(secret_bytes);
  const std::string code = codes.offer({"a", "Ada"}, morning)->code;
  EXPECT_FALSE(codes.find(code, morning)->use);
  codes.mark_used(code, {"device", "secret"});
  const auto found = codes.find(code, morning);
  ASSERT_TRUE(found && found->use);
  EXPECT_EQ(found->use->device, "device");
  EXPECT_EQ(found->use->secret, "secret");
}

TEST(JoinCodes, NoMoreThanAHundredAreOutAtOnce) {
  JoinCodes codes(secret_bytes);
  for (std::size_t i = 0; i < codes_max; ++i) EXPECT_TRUE(codes.offer({std::to_string(i), "Ada"}, morning));
  const auto more = codes.offer({"more", "Ada"}, morning + Duration::seconds(100));
  ASSERT_FALSE(more);
  EXPECT_EQ(more.error().code, ErrorCode::too_often);
  EXPECT_NE(more.error().message.find("in 800 s"), std::string::npos) << more.error().message;
  EXPECT_TRUE(codes.offer({"more", "Ada"}, morning + code_life));
}

}  // namespace
}  // namespace hw::access
