// Many at once: slow ones, idle ones, ones that come and go, and a whole shop's phones that send at the same moment.

#include <vector>

#include <fmt/format.h>

#include "src/storage/open_store.h"
#include "tests/abuse/abused_shop.h"

namespace hw::abuse {
namespace {

using Crowd = AbusedShop;

std::vector<RawLine> lines_to(std::uint16_t port, int count) {
  std::vector<RawLine> lines;
  for (int i = 0; i < count; ++i) lines.emplace_back(port);
  return lines;
}

TEST_F(Crowd, SlowHeadsAreToldThatTheyAreLateWhileOthersAreServed) {
  std::vector<RawLine> slow = lines_to(port(), 200);
  for (const RawLine& line : slow) line.send("GET /api/floor HTTP/1.1\r\nHo");
  expect_served();
  for (const RawLine& line : slow) line.send("st: 127.0.0.1\r\nX-Slow: ");  // more of it is not the end of it
  expect_served();
  for (RawLine& line : slow) EXPECT_EQ(status_of(line.until_closed()), 408);
  expect_served();
}

TEST_F(Crowd, SixHundredIdleLinesKeepNobodyOut) {
  std::vector<RawLine> idle = lines_to(port(), 600);
  for (RawLine& line : idle) line.send(request("GET", "/healthz"));
  for (RawLine& line : idle) EXPECT_EQ(status_of(line.answer()), 200);
  expect_served();
  for (RawLine& line : idle) line.send(request("GET", "/healthz"));
  for (RawLine& line : idle) EXPECT_EQ(status_of(line.answer()), 200);
}

TEST_F(Crowd, PagesThatComeAndGoCostNoMemory) {
  const auto come_and_go = [&](int times) {
    for (int i = 0; i < times; ++i) {
      RawLine page(port());
      page.send(request("GET", "/api/events"));
      ASSERT_EQ(status_of(page.head()), 200) << i;
    }
  };
  come_and_go(100);
  const double before_mib = server->memory_max_mib();
  come_and_go(amount_of("HOURWRIGHT_RECONNECTS", 1000));
  EXPECT_LT(server->memory_max_mib(), before_mib + 16);
  expect_served();
}

std::string round_body(int number) {
  const auto id = [](int kind, int n) { return fmt::format("01941f29-7c00-7aaa-8bbb-{:04}{:08}", kind, n); };
  return fmt::format(R"({{"id":"{}","by":"Ada","walk":"{}","others":false,"answers":[)"
                     R"({{"check":"look","kind":"look","answer":"as it should be"}}]}})",
                     id(1, number), id(2, number));
}

// Each round is sent by two phones at the same moment, as one that got no answer sends again.
TEST_F(Crowd, AThousandRoundsAtOnceAreEachAnsweredAndKeptOnce) {
  const int rounds = amount_of("HOURWRIGHT_ROUNDS", 1000);
  std::vector<RawLine> phones = lines_to(port(), 500);
  const auto phone_of = [&](int message) -> RawLine& {
    return phones[static_cast<std::size_t>(message) % phones.size()];
  };
  for (int message = 0; message < 2 * rounds; ++message) {
    phone_of(message).send(request("POST", "/api/machines/m1/rounds/shift/answers", round_body(message / 2)));
  }
  for (int message = 0; message < 2 * rounds; ++message) {
    const std::string answer = phone_of(message).answer();
    ASSERT_EQ(status_of(answer), 200) << answer;
  }
  EXPECT_EQ(server->stop(), 0) << server->said();
  const auto verdict = storage::verify_logbook(data, std::nullopt);
  ASSERT_TRUE(verdict) << verdict.error().message;
  EXPECT_EQ(verdict->entries, rounds);
  EXPECT_TRUE(verdict->breaks.empty());
}

}  // namespace
}  // namespace hw::abuse
