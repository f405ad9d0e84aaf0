#include "src/web/reach.h"

#include <gmock/gmock.h>

namespace hw::web {
namespace {

using certificates::HostName;

std::vector<HostName> names(std::initializer_list<const char*> texts) {
  std::vector<HostName> all;
  for (const char* text : texts) all.push_back(*certificates::parse_host_name(text));
  return all;
}

certificates::Served served(std::initializer_list<const char*> for_names, bool by_own_authority) {
  certificates::Served one;
  one.certificate.names = names(for_names);
  if (by_own_authority) one.authority = certificates::Certificate{};
  return one;
}

TEST(Reach, AnswersAtTheNamesThatWereSaidAndThoseOfTheCertificate) {
  Reach reach(names({"shop.example"}));
  EXPECT_TRUE(reach.has("SHOP.example"));
  EXPECT_FALSE(reach.has("10.0.0.7"));
  reach.set_served(served({"10.0.0.7", "fd00::7", "shop.example"}, true));
  EXPECT_TRUE(reach.has("10.0.0.7"));
  EXPECT_TRUE(reach.has("[fd00:0::7]"));
  EXPECT_FALSE(reach.has("other.example"));
  EXPECT_FALSE(reach.has("shop.example.other.example"));
  EXPECT_FALSE(reach.has(""));
  EXPECT_EQ(reach.names(), names({"shop.example", "10.0.0.7", "fd00::7"}));
}

TEST(Reach, WithoutAnOpenLineThereIsNoAddress) {
  Reach reach(names({"shop.example"}));
  EXPECT_TRUE(reach.addresses().empty());
  EXPECT_EQ(reach.first_address(), "");
}

TEST(Reach, EncryptedAddressesComeFirstAndOnlyForNamesOfTheCertificate) {
  Reach reach(names({"shop.example", "other.example"}));
  reach.set_lines({8470, 8471});
  reach.set_served(served({"shop.example", "fd00::7"}, true));
  EXPECT_THAT(reach.addresses(),
              testing::ElementsAre("https://shop.example:8471", "https://[fd00::7]:8471", "http://shop.example:8470",
                                   "http://other.example:8470", "http://[fd00::7]:8470"));
  reach.set_lines({80, 443});
  EXPECT_THAT(reach.addresses(), testing::Contains("https://shop.example"));
  EXPECT_THAT(reach.addresses(), testing::Contains("http://shop.example"));
}

TEST(Reach, ADeviceBeginsUnencryptedWhereItHasToGetTheAuthorityFirst) {
  Reach reach({});
  reach.set_lines({8470, 8471});
  reach.set_served(served({"shop.example"}, true));
  EXPECT_EQ(reach.first_address(), "http://shop.example:8470");
  reach.set_served(served({"shop.example"}, false));  // phones trust it already
  EXPECT_EQ(reach.first_address(), "https://shop.example:8471");
  reach.set_served(served({"shop.example"}, true));
  reach.set_lines({0, 8471});  // the plain line is this computer's own
  EXPECT_EQ(reach.first_address(), "https://shop.example:8471");
}

}  // namespace
}  // namespace hw::web
