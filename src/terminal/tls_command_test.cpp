#include "src/terminal/tls_command.h"

#include <fstream>

#include <gtest/gtest.h>
#include <unistd.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

namespace fs = std::filesystem;

class TlsCommand : public testing::Test {
 protected:
  TlsCommand() {
    std::string form = (fs::temp_directory_path() / "hw_tls_XXXXXX").string();
    EXPECT_NE(::mkdtemp(form.data()), nullptr);
    data = form;
  }
  ~TlsCommand() override { fs::remove_all(data); }
  Called init(std::vector<std::string> more) const {
    std::vector<std::string> words{"tls", "init", "--data", data};
    words.insert(words.end(), more.begin(), more.end());
    return call(words);
  }
  std::string data;
};

TEST_F(TlsCommand, InitSaysWhatIsServedAndWhomPhonesHaveToTrust) {
  const Called called = init({"--name", "Shop.example", "--name", "192.168.1.20"});
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_EQ(called.output.find(data + "/tls: a certificate for shop.example, 192.168.1.20, until 20"), 0U)
      << called.output;
  EXPECT_NE(called.output.find("\"Hourwright authority of shop.example\""), std::string::npos);
  const auto served = certificates::read_served({fs::path(data) / "tls"}, now());
  ASSERT_TRUE(served);
  EXPECT_NE(called.output.find(spaced_fingerprint(served->authority->fingerprint)), std::string::npos) << called.output;
  EXPECT_NE(called.output.find("--listen-tls"), std::string::npos);
}

TEST_F(TlsCommand, JsonHasTheSame) {
  const Called called = init({"--name", "shop.example", "--json"});
  EXPECT_EQ(called.output.find(R"({"names":["shop.example"],"ends_at":")"), 0U) << called.output;
  EXPECT_NE(called.output.find(R"("authority":{"title":"Hourwright authority of shop.example")"), std::string::npos);
}

TEST_F(TlsCommand, WhatCannotBeDoneIsRefusedInASentence) {
  expect_refused(call({"tls"}), 2, "subcommand");
  expect_refused(call({"tls", "init"}), 2, "--data");
  expect_refused(call({"tls", "init", "--data", data + "/none", "--name", "a"}), 1, "no such folder");
  expect_refused(init({}), 2, "--name");
  expect_refused(init({"--name", "localhost"}), 1, "--name: \"localhost\" leads every device to itself");
  expect_refused(init({"--name", "a", "--days", "826"}), 2, "--days");
  EXPECT_EQ(init({"--name", "shop.example"}).exit_status, 0);
  expect_refused(init({"--name", "works.example"}), 1, "--new-authority");
  EXPECT_EQ(init({"--name", "works.example", "--new-authority"}).exit_status, 0);
}

TEST_F(TlsCommand, UseTakesAPairOfOnesOwn) {
  const auto authority = certificates::make_authority({{*certificates::parse_host_name("a.example")}, now()});
  const auto pair =
      *certificates::issue_server_certificate(authority, {{*certificates::parse_host_name("a.example")}, now()});
  const std::string certificate = data + "/c.pem", key = data + "/k.pem";
  std::ofstream(certificate) << pair.certificate_pem;
  std::ofstream(key) << pair.key_pem;
  const Called called = call({"tls", "use", "--data", data, certificate, key});
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_EQ(called.output.find("trust"), std::string::npos) << called.output;
  std::ofstream(key) << authority.key_pem;
  expect_refused(call({"tls", "use", "--data", data, certificate, key}), 1, "does not belong");
  expect_refused(call({"tls", "use", "--data", data, certificate, data + "/none"}), 1, "none");
  expect_refused(call({"tls", "use", "--data", data, certificate}), 2, "KEY");
}

TEST(Fingerprint, IsShownAsPhonesShowIt) { EXPECT_EQ(spaced_fingerprint("0a1bff"), "0A:1B:FF"); }

}  // namespace
}  // namespace hw::terminal
