#include "libs/certificates/host_name.h"

#include <gtest/gtest.h>

namespace hw::certificates {
namespace {

TEST(HostName, IsANameOrAnAddressInItsUsualForm) {
  struct Case {
    std::string text, printed;
    HostName::Kind kind;
  };
  for (const Case& one :
       {Case{"Shop.Example", "shop.example", HostName::Kind::name}, Case{"shop", "shop", HostName::Kind::name},
        Case{"3com-7.shop.example", "3com-7.shop.example", HostName::Kind::name},
        Case{"192.168.1.20", "192.168.1.20", HostName::Kind::address},
        Case{"FD00:0:0::0012", "[fd00::12]", HostName::Kind::address},
        Case{"[fd00::12]", "[fd00::12]", HostName::Kind::address}}) {
    const auto name = parse_host_name(one.text);
    ASSERT_TRUE(name) << one.text << ": " << name.error().message;
    EXPECT_EQ(print_in_url(*name), one.printed);
    EXPECT_EQ(name->kind, one.kind) << one.text;
  }
}

TEST(HostName, WhatIsNeitherIsRefusedWithWhatWouldBeRight) {
  const std::string long_label(64, 'a');
  for (const std::string& text :
       {std::string{}, std::string{"*.shop.example"}, std::string{"shop_1"}, std::string{"-shop.example"},
        std::string{"shop..example"}, std::string{"shop.example."}, std::string{"shop.example:8470"},
        std::string{"http://shop.example"}, std::string{"192.168.1.300"}, std::string{"192.168.1"},
        std::string{"werkst\xC3\xA4tte.example"}, long_label, std::string{"a b"}, std::string{"fd00::12%eth0"},
        std::string("shop\0.example", 13)}) {
    const auto name = parse_host_name(text);
    ASSERT_FALSE(name) << text;
    EXPECT_EQ(name.error().code, ErrorCode::bad_input);
    EXPECT_NE(name.error().message.find("right is"), std::string::npos) << name.error().message;
  }
}

TEST(HostName, WhatLeadsADeviceToItselfIsRefused) {
  for (const char* text :
       {"localhost", "LocalHost", "shop.localhost", "127.0.0.1", "127.9.9.9", "::1", "[::1]", "::", "0.0.0.0"}) {
    const auto name = parse_host_name(text);
    ASSERT_FALSE(name) << text;
    EXPECT_NE(name.error().message.find("to itself"), std::string::npos) << name.error().message;
  }
}

TEST(HostName, AddressesAndTheirBytesGoBothWays) {
  for (const char* text : {"10.0.0.7", "fd00::12"}) {
    const HostName address = *parse_host_name(text);
    EXPECT_EQ(address_of_bytes(bytes_of_address(address)), address);
  }
}

}  // namespace
}  // namespace hw::certificates
