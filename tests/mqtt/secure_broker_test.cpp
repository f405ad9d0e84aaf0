// Over TLS: a broker is believed whose certificate the given file vouches for by its name, and no other.

#include <cstdlib>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "libs/mqtt/client.h"
#include "libs/sql/test_folder.h"
#include "tests/mqtt/private_broker.h"

namespace hw::mqtt_tests {
namespace {

// A certificate that vouches for itself, NAME.pem and NAME.key in the folder; `host` as in "IP:127.0.0.1".
void make_certificate(const std::string& name, const std::string& host) {
  const std::string command = fmt::format(
      "openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -days 2 -subj /CN={1} "
      "-addext subjectAltName={1} -keyout {0}.key -out {0}.pem 2>/dev/null",
      name, host);
  ASSERT_EQ(std::system(command.c_str()), 0);  // NOLINT(cert-env33-c): a test's own words
}

// What a client says that trusts `trusted`, of a broker that shows `shown`.
Result<void> connected(const std::string& shown, const std::string& trusted) {
  const PrivateBroker broker(fmt::format("allow_anonymous true\ncertfile {0}.pem\nkeyfile {0}.key\n", shown));
  const auto url = mqtt::parse_broker_url(fmt::format("mqtts://127.0.0.1:{}?ca_file={}.pem", broker.port(), trusted));
  mqtt::Client client(*url, {}, {[](const mqtt::Message&) {}, [](const std::string&) {}});
  HW_TRY(client.connect());
  return client.publish("hw/a", "1", mqtt::Retained::no);
}

TEST(SecureBroker, IsBelievedByItsCertificateAndItsNameOnly) {
  const sql::TestFolder folder;
  const auto path = [&](const char* name) { return (folder.path() / name).string(); };
  make_certificate(path("right"), "IP:127.0.0.1");
  make_certificate(path("other"), "IP:127.0.0.1");
  make_certificate(path("named"), "DNS:broker.shop.example");
  const auto there = connected(path("right"), path("right"));
  EXPECT_TRUE(there) << there.error().message;
  EXPECT_FALSE(connected(path("right"), path("other"))) << "another one of the same name";
  EXPECT_FALSE(connected(path("named"), path("named"))) << "of another name";
}

}  // namespace
}  // namespace hw::mqtt_tests
