#include "libs/certificates/issue.h"

#include <gtest/gtest.h>

#include "libs/certificates/certificate.h"
#include "libs/certificates/verified_test.h"

namespace hw::certificates {
namespace {

std::vector<HostName> names(std::initializer_list<const char*> texts) {
  std::vector<HostName> all;
  for (const char* text : texts) all.push_back(*parse_host_name(text));
  return all;
}

// A certificate that somebody made who has the authority's key, without asking whether the authority may.
std::string forged(const KeyedCertificate& authority, const std::string& alternative_name) {
  const X509Certificate issuer = parse_certificate(authority.certificate_pem);
  const Key issuer_key = parse_key(authority.key_pem), key{EVP_EC_gen("P-256")};
  const X509Certificate own{X509_new()};
  X509_set_version(own.get(), X509_VERSION_3);
  ASN1_INTEGER_set(X509_get_serialNumber(own.get()), 7);
  X509_set_issuer_name(own.get(), X509_get_subject_name(issuer.get()));
  X509_NAME_add_entry_by_txt(X509_get_subject_name(own.get()), "O", MBSTRING_ASC,
                             reinterpret_cast<const unsigned char*>("Forged"), -1, -1, 0);
  ASN1_TIME_set(X509_getm_notBefore(own.get()), static_cast<time_t>(today.as_millis() / 1000 - 60));
  ASN1_TIME_set(X509_getm_notAfter(own.get()), static_cast<time_t>(today.as_millis() / 1000 + 3600));
  X509_set_pubkey(own.get(), key.get());
  X509V3_CTX context;
  X509V3_set_ctx(&context, issuer.get(), own.get(), nullptr, nullptr, 0);
  for (const auto& [kind, value] : {std::pair{NID_subject_alt_name, alternative_name},
                                    std::pair{NID_authority_key_identifier, std::string{"keyid:always"}}}) {
    const std::unique_ptr<X509_EXTENSION, FreeBy<X509_EXTENSION_free>> extension{
        X509V3_EXT_conf_nid(nullptr, &context, kind, value.c_str())};
    X509_add_ext(own.get(), extension.get(), -1);
  }
  X509_sign(own.get(), issuer_key.get(), EVP_sha256());
  return print_pem(own.get());
}

std::string look(const std::string& certificate, const KeyedCertificate& authority, const std::string& host = "") {
  return verified({certificate, authority.certificate_pem, host, today});
}

TEST(Issue, WhoeverTrustsTheAuthorityTrustsTheServerForItsNamesOnly) {
  const auto authority = make_authority({names({"shop.example", "192.168.1.20", "fd00::12"}), today, authority_days});
  const auto server = issue_server_certificate(authority, {names({"shop.example", "192.168.1.20", "fd00::12"}), today});
  ASSERT_TRUE(server) << server.error().message;
  for (const char* host : {"shop.example", "192.168.1.20", "fd00::12"}) {
    EXPECT_EQ(look(server->certificate_pem, authority, host), "ok") << host;
  }
  EXPECT_EQ(look(server->certificate_pem, authority, "other.example"), "hostname mismatch");
  EXPECT_EQ(look(server->certificate_pem, authority, "192.168.1.21"), "IP address mismatch");
  const auto stranger = make_authority({names({"shop.example"}), today, authority_days});
  EXPECT_NE(look(server->certificate_pem, stranger, "shop.example"), "ok");
}

TEST(Issue, TheNameConstraintsHoldEvenAgainstWhoeverStealsTheAuthoritysKey) {
  const auto of_names = make_authority({names({"shop.example"}), today, authority_days});
  EXPECT_EQ(look(forged(of_names, "DNS:shop.example"), of_names), "ok");
  EXPECT_EQ(look(forged(of_names, "DNS:bank.example"), of_names), "permitted subtree violation");
  EXPECT_EQ(look(forged(of_names, "DNS:shop.example,DNS:bank.example"), of_names), "permitted subtree violation");
  EXPECT_EQ(look(forged(of_names, "IP:10.0.0.7"), of_names), "excluded subtree violation");
  EXPECT_EQ(look(forged(of_names, "IP:fd00::7"), of_names), "excluded subtree violation");
  const auto of_addresses = make_authority({names({"192.168.1.20"}), today, authority_days});
  EXPECT_EQ(look(forged(of_addresses, "IP:192.168.1.20"), of_addresses), "ok");
  EXPECT_EQ(look(forged(of_addresses, "IP:192.168.1.21"), of_addresses), "permitted subtree violation");
  EXPECT_EQ(look(forged(of_addresses, "IP:fd00::7"), of_addresses), "permitted subtree violation");
  EXPECT_EQ(look(forged(of_addresses, "DNS:bank.example"), of_addresses), "excluded subtree violation");
}

TEST(Issue, TheAuthorityMayIssueNoOtherAuthorityAndIsNoServer) {
  const auto authority = make_authority({names({"shop.example"}), today, authority_days});
  const X509Certificate own = parse_certificate(authority.certificate_pem);
  EXPECT_EQ(X509_get_pathlen(own.get()), 0);
  EXPECT_EQ(X509_get_key_usage(own.get()), static_cast<std::uint32_t>(KU_KEY_CERT_SIGN));
  EXPECT_EQ(X509_check_ca(own.get()), 1);
  for (const int critical : {NID_basic_constraints, NID_key_usage, NID_name_constraints}) {
    EXPECT_EQ(X509_EXTENSION_get_critical(X509_get_ext(own.get(), X509_get_ext_by_NID(own.get(), critical, -1))), 1);
  }
  EXPECT_EQ(EVP_PKEY_get_bits(X509_get0_pubkey(own.get())), 256);
}

TEST(Issue, TheServersCertificateServesAndSignsNothing) {
  const auto authority = make_authority({names({"shop.example"}), today, authority_days});
  const auto server = issue_server_certificate(authority, {names({"shop.example"}), today});
  ASSERT_TRUE(server);
  const X509Certificate own = parse_certificate(server->certificate_pem);
  EXPECT_EQ(X509_get_key_usage(own.get()), static_cast<std::uint32_t>(KU_DIGITAL_SIGNATURE));
  EXPECT_EQ(X509_get_extended_key_usage(own.get()), static_cast<std::uint32_t>(XKU_SSL_SERVER));
  EXPECT_EQ(X509_check_ca(own.get()), 0);
  EXPECT_TRUE(check_pair({server->certificate_pem, server->key_pem}, today));
}

TEST(Issue, NoTwoCertificatesHaveTheSameSerialNumber) {
  const auto authority = make_authority({names({"shop.example"}), today, authority_days});
  const IssueOrder order{names({"shop.example"}), today};
  const auto one = parse_certificate(issue_server_certificate(authority, order)->certificate_pem);
  const auto two = parse_certificate(issue_server_certificate(authority, order)->certificate_pem);
  EXPECT_NE(ASN1_INTEGER_cmp(X509_get0_serialNumber(one.get()), X509_get0_serialNumber(two.get())), 0);
}

TEST(Issue, CertificatesBeginADayEarlyAndNeverOutlastTheirAuthority) {
  const auto authority = make_authority({names({"shop.example"}), today, 100});
  const auto server = issue_server_certificate(authority, {names({"shop.example"}), today, 397});
  const auto read = read_certificate(server->certificate_pem);
  ASSERT_TRUE(read);
  EXPECT_EQ(read->begins_at, after(-1));
  EXPECT_EQ(read->ends_at, after(100));
  EXPECT_EQ(read->names, names({"shop.example"}));
  EXPECT_EQ(read_certificate(authority.certificate_pem)->permitted, names({"shop.example"}));
}

TEST(Issue, WhatTheAuthorityMayNotVouchForIsRefusedByName) {
  const auto authority = make_authority({names({"shop.example"}), today, 100});
  const auto other = issue_server_certificate(authority, {names({"shop.example", "10.0.0.7"}), today});
  ASSERT_FALSE(other);
  EXPECT_EQ(other.error().code, ErrorCode::conflict);
  EXPECT_NE(other.error().message.find("10.0.0.7"), std::string::npos) << other.error().message;
  const auto late = issue_server_certificate(authority, {names({"shop.example"}), after(100)});
  ASSERT_FALSE(late);
  EXPECT_NE(late.error().message.find("2027-03-05"), std::string::npos) << late.error().message;
  const auto broken = issue_server_certificate({"", "x"}, {names({"shop.example"}), today});
  ASSERT_FALSE(broken);
  EXPECT_EQ(broken.error().code, ErrorCode::bad_input);
}

}  // namespace
}  // namespace hw::certificates
