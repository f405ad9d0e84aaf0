#include "libs/certificates/tls_folder.h"

#include <fstream>

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include "libs/certificates/verified_test.h"
#include "libs/values/whole_file.h"

namespace hw::certificates {
namespace {

namespace fs = std::filesystem;

class Folder : public testing::Test {
 protected:
  Folder() {
    std::string form = (fs::temp_directory_path() / "hw_certificates_XXXXXX").string();
    EXPECT_NE(::mkdtemp(form.data()), nullptr);
    data = form;
    folder.path = data / "tls";
  }
  ~Folder() override { fs::remove_all(data); }

  Result<Served> init(std::initializer_list<const char*> names, InitOrder order = {.names = {}, .now = today}) {
    for (const char* name : names) order.names.push_back(*parse_host_name(name));
    return init_folder(folder, order);
  }
  std::string text_of(const fs::path& file) const { return *read_whole_file(file); }
  fs::path written(const std::string& name, const std::string& text) const {
    std::ofstream(data / name) << text;
    return data / name;
  }

  fs::path data;
  TlsFolder folder;
};

TEST_F(Folder, InitMakesAnAuthorityAndACertificateThatItsTrustVerifies) {
  const auto served = init({"shop.example", "192.168.1.20"});
  ASSERT_TRUE(served) << served.error().message;
  ASSERT_TRUE(served->authority);
  EXPECT_EQ(served->authority->title, "Hourwright authority of shop.example");
  EXPECT_EQ(served->authority->ends_at, after(authority_days));
  EXPECT_EQ(served->certificate.ends_at, after(server_days));
  for (const char* host : {"shop.example", "192.168.1.20"}) {
    EXPECT_EQ(verified({text_of(folder.server_file()), text_of(folder.authority_file()), host, today}), "ok");
  }
}

TEST_F(Folder, KeysAreForTheirOwnerOnly) {
  ASSERT_TRUE(init({"shop.example"}));
  struct stat found {};
  for (const fs::path& path : {folder.authority_file(), folder.server_file(), folder.path}) {
    ASSERT_EQ(::stat(path.c_str(), &found), 0);
    EXPECT_EQ(found.st_mode & 077U, 0U) << path;
  }
}

TEST_F(Folder, InitAgainKeepsTheAuthorityThatPhonesTrust) {
  const auto first = init({"shop.example", "192.168.1.20"});
  const auto second = init({"shop.example"});
  ASSERT_TRUE(second) << second.error().message;
  EXPECT_EQ(second->authority->fingerprint, first->authority->fingerprint);
  EXPECT_NE(second->certificate.fingerprint, first->certificate.fingerprint);
  EXPECT_EQ(second->certificate.names.size(), 1U);
  const auto third = init({});  // all names of the authority
  ASSERT_TRUE(third);
  EXPECT_EQ(third->certificate.names.size(), 2U);
}

TEST_F(Folder, OtherNamesNeedANewAuthorityAndChangeNothingWithoutOne) {
  const auto first = init({"shop.example"});
  const auto other = init({"works.example"});
  ASSERT_FALSE(other);
  EXPECT_EQ(other.error().code, ErrorCode::conflict);
  EXPECT_EQ(read_served(folder, today)->certificate.fingerprint, first->certificate.fingerprint);
  const auto anew = init({"works.example"}, {.names = {}, .now = today, .with_new_authority = true});
  ASSERT_TRUE(anew) << anew.error().message;
  EXPECT_NE(anew->authority->fingerprint, first->authority->fingerprint);
}

TEST_F(Folder, WithoutNamesAndWithoutAnAuthorityItSaysWhatToSay) {
  const auto served = init({});
  ASSERT_FALSE(served);
  EXPECT_EQ(served.error().code, ErrorCode::wrong_usage);
  EXPECT_NE(served.error().message.find("--name"), std::string::npos);
}

TEST_F(Folder, APairFromElsewhereIsTakenWholeOrNotAtAll) {
  ASSERT_TRUE(init({"shop.example"}));
  const auto elsewhere = make_authority({{*parse_host_name("works.example")}, today, authority_days});
  const auto pair = *issue_server_certificate(elsewhere, {{*parse_host_name("works.example")}, today});
  const auto other = *issue_server_certificate(elsewhere, {{*parse_host_name("works.example")}, today});
  const fs::path certificate = written("c.pem", pair.certificate_pem + elsewhere.certificate_pem);
  const std::string before = text_of(folder.server_file());
  const auto expect_refused = [&](const PairFiles& files, Instant now, ErrorCode code) {
    const auto served = use_pair(folder, files, now);
    ASSERT_FALSE(served);
    EXPECT_EQ(served.error().code, code) << served.error().message;
    EXPECT_NE(served.error().message.find(data.string()), std::string::npos) << served.error().message;
    EXPECT_EQ(text_of(folder.server_file()), before);
  };
  expect_refused({certificate, written("other.pem", other.key_pem)}, today, ErrorCode::bad_input);
  expect_refused({certificate, data / "none.pem"}, today, ErrorCode::not_found);
  expect_refused({written("text.pem", "no certificate"), written("k.pem", pair.key_pem)}, today, ErrorCode::bad_input);
  expect_refused({certificate, written("k.pem", pair.key_pem)}, after(400), ErrorCode::bad_input);
  // A certificate beside the key, as some programs write them, is not taken for the one that is served.
  const auto served = use_pair(folder, {certificate, written("k.pem", other.certificate_pem + pair.key_pem)}, today);
  ASSERT_TRUE(served) << served.error().message;
  EXPECT_FALSE(served->authority);
  EXPECT_EQ(served->certificate.names, std::vector{*parse_host_name("works.example")});
  EXPECT_EQ(verified({text_of(folder.server_file()), elsewhere.certificate_pem, "works.example", today}), "ok");
  EXPECT_EQ(text_of(folder.server_file()), pair.key_pem + pair.certificate_pem + elsewhere.certificate_pem);
}

TEST_F(Folder, WhatIsServedIsThereAndLasts) {
  EXPECT_EQ(read_served(folder, today).error().code, ErrorCode::not_found);
  ASSERT_TRUE(init({"shop.example"}));
  EXPECT_TRUE(read_served(folder, after(server_days - 1)));
  const auto late = read_served(folder, after(server_days));
  ASSERT_FALSE(late);
  EXPECT_NE(late.error().message.find("has ended on 2027-12-27"), std::string::npos) << late.error().message;
}

TEST(Renewal, IsDueInTheLastThirtyDaysOrTheLastThirdOfAShortLife) {
  Certificate certificate;
  certificate.begins_at = today;
  certificate.ends_at = after(397);
  EXPECT_FALSE(is_renewal_due(certificate, after(367)));
  EXPECT_TRUE(is_renewal_due(certificate, after(367) + Duration::seconds(1)));
  EXPECT_TRUE(is_renewal_due(certificate, after(500)));
  certificate.ends_at = after(9);
  EXPECT_FALSE(is_renewal_due(certificate, after(6)));
  EXPECT_TRUE(is_renewal_due(certificate, after(7)));
}

TEST_F(Folder, RenewalIssuesTheSameNamesForAsLongAgain) {
  const auto first = init({"shop.example", "10.0.0.7"}, {.names = {}, .now = today, .days = 90});
  ASSERT_TRUE(first);
  EXPECT_FALSE(*renew_when_due(folder, after(50)));
  ASSERT_TRUE(*renew_when_due(folder, after(80)));
  const auto second = read_served(folder, after(80));
  EXPECT_EQ(second->certificate.names, first->certificate.names);
  EXPECT_EQ(second->certificate.ends_at, after(170));
  EXPECT_EQ(second->authority->fingerprint, first->authority->fingerprint);
  EXPECT_FALSE(*renew_when_due(folder, after(80)));
  ASSERT_TRUE(*renew_when_due(folder, after(500)));  // the server was off for a year
  EXPECT_TRUE(read_served(folder, after(500)));
}

TEST_F(Folder, ACertificateFromElsewhereIsNotRenewed) {
  ASSERT_TRUE(init({"shop.example"}));
  const auto elsewhere = make_authority({{*parse_host_name("shop.example")}, today, authority_days});
  const auto pair = *issue_server_certificate(elsewhere, {{*parse_host_name("shop.example")}, today});
  ASSERT_TRUE(use_pair(folder, {written("c", pair.certificate_pem), written("k", pair.key_pem)}, today));
  EXPECT_FALSE(*renew_when_due(folder, after(396)));
}

}  // namespace
}  // namespace hw::certificates
