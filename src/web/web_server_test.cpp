#include "src/web/web_server.h"

#include <gtest/gtest.h>

namespace hw::web {
namespace {

TEST(ParseListen, TakesThisComputersAddresses) {
  struct Case {
    std::string text, address;
    int port;
  };
  for (const Case& one : {Case{"127.0.0.1:8470", "127.0.0.1", 8470}, Case{":8470", "127.0.0.1", 8470},
                          Case{"localhost:0", "127.0.0.1", 0}, Case{"[::1]:65535", "::1", 65535}}) {
    const auto options = parse_listen(one.text);
    ASSERT_TRUE(options) << one.text;
    EXPECT_EQ(options->address, one.address);
    EXPECT_EQ(options->port, one.port);
  }
}

TEST(ParseListen, RefusesEveryOtherAddressUntilThereIsASignIn) {
  for (const char* text : {"0.0.0.0:8470", "[::]:8470", "10.0.0.7:8470", "shop.example:8470", "127.0.0.1.example:80"}) {
    const auto options = parse_listen(text);
    ASSERT_FALSE(options) << text;
    EXPECT_EQ(options.error().code, ErrorCode::wrong_usage);
    EXPECT_NE(options.error().message.find("sign-in"), std::string::npos) << options.error().message;
  }
}

TEST(ParseListen, RefusesWhatIsNoAddressWithAPort) {
  for (const char* text : {"", "8470", "127.0.0.1", "127.0.0.1:", "127.0.0.1:70000", "127.0.0.1:-1", "127.0.0.1:80x"}) {
    const auto options = parse_listen(text);
    ASSERT_FALSE(options) << text;
    EXPECT_NE(options.error().message.find("127.0.0.1:8470"), std::string::npos) << options.error().message;
  }
}

}  // namespace
}  // namespace hw::web
