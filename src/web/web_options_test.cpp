#include "src/web/web_options.h"

#include <gtest/gtest.h>

namespace hw::web {
namespace {

Result<WebOptions> parsed(std::string listen, std::vector<std::string> names = {},
                          std::optional<std::string> tls = {}) {
  return parse_options({std::move(listen), std::move(tls), std::move(names)}, {"/data/tls"});
}

std::vector<std::string> texts(const std::vector<certificates::HostName>& names) {
  std::vector<std::string> all;
  for (const auto& name : names) all.push_back(name.text);
  return all;
}

void expect_refused(const Result<WebOptions>& options, std::string_view says) {
  ASSERT_FALSE(options) << says;
  EXPECT_EQ(options.error().code, ErrorCode::wrong_usage);
  EXPECT_NE(options.error().message.find(says), std::string::npos) << options.error().message;
}

TEST(WebOptions, TakeAddressesWithAPort) {
  struct Case {
    std::string text, address;
    int port;
    bool is_for_others;
  };
  for (const Case& one : {Case{"127.0.0.1:8470", "127.0.0.1", 8470, false}, Case{":8470", "127.0.0.1", 8470, false},
                          Case{"localhost:0", "127.0.0.1", 0, false}, Case{"[::1]:65535", "::1", 65535, false},
                          Case{"0.0.0.0:80", "0.0.0.0", 80, true}, Case{"[::]:80", "::", 80, true},
                          Case{"10.0.0.7:80", "10.0.0.7", 80, true}}) {
    const auto options = parsed(one.text, {"shop.example"});
    ASSERT_TRUE(options) << one.text;
    EXPECT_EQ(options->plain.address, one.address);
    EXPECT_EQ(options->plain.port, one.port);
    EXPECT_EQ(is_for_others(options->plain), one.is_for_others) << one.text;
    EXPECT_FALSE(options->tls);
  }
}

TEST(WebOptions, WhatIsNoAddressWithAPortIsRefusedByItsOption) {
  for (const char* text : {"", "8470", "127.0.0.1", "127.0.0.1:", "127.0.0.1:70000", "127.0.0.1:-1", "127.0.0.1:80x"}) {
    expect_refused(parsed(text), "--listen " + std::string{text} + ": it looks like 127.0.0.1:8470");
    expect_refused(parsed(":1", {}, text), "--listen-tls " + std::string{text} + ": it looks like 127.0.0.1:8470");
  }
}

TEST(WebOptions, AnAddressForOthersNeedsANameByWhichTheyReachIt) {
  for (const char* all : {"0.0.0.0:8470", "[::]:8470"}) expect_refused(parsed(all), "--name");
  EXPECT_TRUE(parsed("0.0.0.0:8470", {"shop.example"}));
  EXPECT_TRUE(parsed("0.0.0.0:8470", {}, "0.0.0.0:8471"));  // the certificate has names
  EXPECT_EQ(texts(parsed("10.0.0.7:8470")->names), std::vector<std::string>{"10.0.0.7"});
  EXPECT_EQ(texts(parsed(":8470", {"Shop.Example", "fd00::7"}, "10.0.0.7:8471")->names),
            (std::vector<std::string>{"shop.example", "fd00::7", "10.0.0.7"}));
}

TEST(WebOptions, WhatIsNoNameForOthersIsRefused) {
  for (const char* name : {"localhost", "127.0.0.1", "*.shop.example", "shop.example:8470", ""}) {
    expect_refused(parsed(":8470", {name}), "--name");
  }
}

}  // namespace
}  // namespace hw::web
