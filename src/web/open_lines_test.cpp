#include "src/web/open_lines.h"

#include <gtest/gtest.h>

#include "libs/http/client.h"

namespace hw::web {
namespace {

Instant some_time() { return Instant::from_millis(1'772'000'000'000); }

http::Response echo(const http::Request& request) { return http::Response::of(200, "text/plain", request.path); }

std::string asked(std::uint16_t port) {
  const auto url = http::parse_url(fmt::format("http://127.0.0.1:{}/there", port));
  const auto answer = http::get(*url);
  return answer ? std::string{answer->text()} : "";
}

TEST(OpenLines, AnswerUntilTheyAreStopped) {
  Reach reach{{}};
  WebOptions options;
  options.plain.port = 0;
  const auto lines = OpenLines::open(options, {echo, {}}, reach, some_time);
  ASSERT_TRUE(lines);
  EXPECT_EQ(asked((*lines)->port()), "/there");
  EXPECT_EQ((*lines)->tls_port(), 0);
  EXPECT_EQ(reach.lines().plain_port, 0) << "it is this computer's own";
  (*lines)->stop();
  EXPECT_EQ(asked((*lines)->port()), "");
}

TEST(OpenLines, TellHowOtherDevicesReachThem) {
  Reach reach{{*certificates::parse_host_name("shop.example")}};
  WebOptions options;
  options.plain = {"0.0.0.0", 0};
  const auto lines = OpenLines::open(options, {echo, {}}, reach, some_time);
  ASSERT_TRUE(lines);
  EXPECT_EQ(reach.first_address(), fmt::format("http://shop.example:{}", (*lines)->port()));
}

TEST(OpenLines, APortInUseIsRefused) {
  Reach reach{{}};
  WebOptions options;
  options.plain.port = 0;
  const auto first = OpenLines::open(options, {echo, {}}, reach, some_time);
  options.plain.port = (*first)->port();
  const auto second = OpenLines::open(options, {echo, {}}, reach, some_time);
  ASSERT_FALSE(second);
  EXPECT_EQ(second.error().code, ErrorCode::in_use);
}

}  // namespace
}  // namespace hw::web
