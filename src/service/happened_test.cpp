#include "src/service/happened.h"

#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace hw::service {
namespace {

Instant time(std::string_view text) { return *parse_instant(text); }

const Instant now_here = time("2026-03-20T12:00:00Z");
const Instant founded = time("2026-01-01T00:00:00Z");

struct Case {
  const char* what;
  const char* at;       // empty: not said
  const char* sent_at;  // empty: not said
  const char* happened_at;
  double off_s;  // 0: not worth saying
};

std::optional<Instant> maybe(std::string_view text) { return text.empty() ? std::nullopt : std::optional{time(text)}; }

TEST(Happened, IsWhatTheDeviceSaidWithoutWhatItsClockIsOff) {
  const std::vector<Case> cases{
      {"live", "2026-03-20T12:00:00Z", "2026-03-20T12:00:00Z", "2026-03-20T12:00:00Z", 0},
      {"three hours late", "2026-03-20T09:00:00Z", "2026-03-20T12:00:00Z", "2026-03-20T09:00:00Z", 0},
      {"two days ahead", "2026-03-22T09:00:00Z", "2026-03-22T12:00:00Z", "2026-03-20T09:00:00Z", 172800},
      {"two days behind", "2026-03-18T09:00:00Z", "2026-03-18T12:00:00Z", "2026-03-20T09:00:00Z", -172800},
      {"in 1970", "1970-01-01T00:00:10Z", "1970-01-01T00:10:10Z", "2026-03-20T11:50:00Z", -1774007390},
      {"59 s ahead", "2026-03-20T12:00:49Z", "2026-03-20T12:00:59Z", "2026-03-20T11:59:50Z", 0},
      {"60 s ahead", "2026-03-20T12:00:50Z", "2026-03-20T12:01:00Z", "2026-03-20T11:59:50Z", 60},
      {"nothing said", "", "", "2026-03-20T12:00:00Z", 0},
      {"only sending said", "", "2026-03-22T12:00:00Z", "2026-03-20T12:00:00Z", 172800},
      {"no sending said", "2026-03-20T09:00:00Z", "", "2026-03-20T09:00:00Z", 0},
      {"in the future without sending", "2027-03-20T09:00:00Z", "", "2026-03-20T12:00:00Z", 0},
      {"clock set back meanwhile", "2026-03-22T09:00:00Z", "2026-03-20T12:00:00Z", "2026-03-20T12:00:00Z", 0},
      {"59 days ago", "2026-01-20T12:00:00Z", "2026-03-20T12:00:00Z", "2026-01-20T12:00:00Z", 0},
      {"clock set forward meanwhile", "1970-01-01T00:00:10Z", "2026-03-20T12:00:00Z", "2026-03-20T12:00:00Z", 0},
  };
  for (const Case& one : cases) {
    const Happened out = happened({maybe(one.at), maybe(one.sent_at)}, {now_here, founded});
    EXPECT_EQ(print(out.at), print(time(one.happened_at))) << one.what;
    EXPECT_EQ(out.device_off_s.value_or(0), one.off_s) << one.what;
  }
}

TEST(Happened, NothingHappenedBeforeTheShopWas) {
  const DeviceTimes device{time("2026-03-20T09:00:00Z"), now_here};
  EXPECT_EQ(happened(device, {now_here, time("2026-03-20T09:00:00Z")}).at, *device.at);
  EXPECT_EQ(happened(device, {now_here, time("2026-03-20T09:00:01Z")}).at, now_here);
}

TEST(Happened, Property_NeverAfterNowNorMoreThanSixtyDaysAgoWhateverTheClockSays) {
  std::mt19937_64 random(11);
  for (int i = 0; i < 10'000; ++i) {
    const auto any = [&] { return Instant{static_cast<std::int64_t>(random())}; };
    const Happened out = happened({any(), any()}, {now_here, founded});
    EXPECT_LE(out.at, now_here);
    EXPECT_GE(out.at, now_here - Duration::hours(60 * 24));
  }
}

TEST(Happened, Property_HowFarAClockIsOffChangesNothing) {
  std::mt19937_64 random(12);
  for (int i = 0; i < 1000; ++i) {
    const Instant entered = now_here - Duration::millis(static_cast<std::int64_t>(random() % 5'000'000'000));
    const Duration off = Duration::millis(static_cast<std::int64_t>(random() % 600'000'000'000) - 300'000'000'000);
    const Happened out = happened({entered + off, now_here + off}, {now_here, founded});
    EXPECT_EQ(out.at, entered);
  }
}

}  // namespace
}  // namespace hw::service
