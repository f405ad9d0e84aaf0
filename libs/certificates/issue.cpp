#include "libs/certificates/issue.h"

#include <algorithm>

#include <openssl/rand.h>

#include "libs/certificates/certificate.h"
#include "libs/certificates/openssl_handles.h"

namespace hw::certificates {
namespace {

constexpr std::size_t title_max = 64;  // RFC 5280, ub-common-name
constexpr std::size_t serial_bytes = 16;

Key new_key() {
  Key key{EVP_EC_gen("P-256")};
  HW_ASSERT(key != nullptr, "OpenSSL makes a key");
  return key;
}

// Random, above zero, and the same number never twice.
void set_serial(X509* certificate) {
  unsigned char bytes[serial_bytes];
  HW_ASSERT(RAND_bytes(bytes, serial_bytes) == 1, "the system gives random bytes");
  bytes[0] = static_cast<unsigned char>((bytes[0] & 0x7F) | 0x40);
  const std::unique_ptr<BIGNUM, FreeBy<BN_free>> number{BN_bin2bn(bytes, serial_bytes, nullptr)};
  BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(certificate));
}

void set_subject(X509* certificate, std::string title) {
  title.resize(std::min(title.size(), title_max));
  const auto* const bytes = reinterpret_cast<const unsigned char*>(title.data());
  X509_NAME_add_entry_by_txt(X509_get_subject_name(certificate), "CN", MBSTRING_ASC, bytes,
                             static_cast<int>(title.size()), -1, 0);
}

void set_span(X509* certificate, Instant begins_at, Instant ends_at) {
  ASN1_TIME_set(X509_getm_notBefore(certificate), static_cast<time_t>(begins_at.as_millis() / 1000));
  ASN1_TIME_set(X509_getm_notAfter(certificate), static_cast<time_t>(ends_at.as_millis() / 1000));
}

// `value` in the words of OpenSSL's configuration; the key identifiers are those of issuer and subject.
void add_extension(X509* certificate, X509* issuer, int kind, const std::string& value) {
  X509V3_CTX context;
  X509V3_set_ctx(&context, issuer, certificate, nullptr, nullptr, 0);
  const std::unique_ptr<X509_EXTENSION, FreeBy<X509_EXTENSION_free>> extension{
      X509V3_EXT_conf_nid(nullptr, &context, kind, value.c_str())};
  HW_ASSERT(extension != nullptr && X509_add_ext(certificate, extension.get(), -1) == 1, "an extension can be written");
}

GENERAL_SUBTREE* subtree(int type, std::string_view bytes) {
  GENERAL_SUBTREE* const tree = GENERAL_SUBTREE_new();
  ASN1_STRING* const value = type == GEN_IPADD ? ASN1_OCTET_STRING_new() : ASN1_IA5STRING_new();
  ASN1_STRING_set(value, bytes.data(), static_cast<int>(bytes.size()));
  GENERAL_NAME_set0_value(tree->base, type, value);
  return tree;
}

// An address with a mask that leaves none but itself.
std::string exactly(const HostName& address) {
  const std::string bytes = bytes_of_address(address);
  return bytes + std::string(bytes.size(), '\xFF');
}

bool has_kind(const std::vector<HostName>& names, HostName::Kind kind) {
  return std::any_of(names.begin(), names.end(), [&](const HostName& name) { return name.kind == kind; });
}

// A kind of name without any permitted one is not constrained at all (RFC 5280): it is excluded as a whole. The empty
// name stands for all names; addresses with an empty mask for all addresses.
void add_name_constraints(X509* certificate, const std::vector<HostName>& names) {
  const std::unique_ptr<NAME_CONSTRAINTS, FreeBy<NAME_CONSTRAINTS_free>> limits{NAME_CONSTRAINTS_new()};
  limits->permittedSubtrees = sk_GENERAL_SUBTREE_new_null();
  for (const HostName& name : names) {
    const bool is_address = name.kind == HostName::Kind::address;
    sk_GENERAL_SUBTREE_push(limits->permittedSubtrees,
                            is_address ? subtree(GEN_IPADD, exactly(name)) : subtree(GEN_DNS, name.text));
  }
  std::vector<GENERAL_SUBTREE*> excluded;
  if (!has_kind(names, HostName::Kind::name)) excluded.push_back(subtree(GEN_DNS, ""));
  if (!has_kind(names, HostName::Kind::address)) {
    excluded.push_back(subtree(GEN_IPADD, std::string(8, '\0')));
    excluded.push_back(subtree(GEN_IPADD, std::string(32, '\0')));
  }
  if (!excluded.empty()) limits->excludedSubtrees = sk_GENERAL_SUBTREE_new_null();
  for (GENERAL_SUBTREE* const tree : excluded) sk_GENERAL_SUBTREE_push(limits->excludedSubtrees, tree);
  X509_add1_ext_i2d(certificate, NID_name_constraints, limits.get(), 1, 0);
}

std::string alternative_names(const std::vector<HostName>& names) {
  std::string out;
  for (const HostName& name : names) {
    out += fmt::format("{}{}:{}", out.empty() ? "" : ",", name.kind == HostName::Kind::name ? "DNS" : "IP", name.text);
  }
  return out;
}

X509Certificate begin_certificate(EVP_PKEY* key, const std::string& title) {
  X509Certificate certificate{X509_new()};
  HW_ASSERT(certificate != nullptr, "OpenSSL makes a certificate");
  X509_set_version(certificate.get(), X509_VERSION_3);
  set_serial(certificate.get());
  set_subject(certificate.get(), title);
  X509_set_pubkey(certificate.get(), key);
  return certificate;
}

Instant ends_of(const IssueOrder& order) { return order.now + Duration::hours(24LL * order.days); }

Result<void> check_authority(const Certificate& authority, const IssueOrder& order) {
  if (authority.ends_at <= order.now) {
    return refuse(ErrorCode::conflict, "the authority has ended on {}", print(authority.ends_at).substr(0, 10));
  }
  for (const HostName& name : order.names) {
    if (std::find(authority.permitted.begin(), authority.permitted.end(), name) == authority.permitted.end()) {
      return refuse(ErrorCode::conflict, "the authority may not vouch for {}", name.text);
    }
  }
  return {};
}

}  // namespace

KeyedCertificate make_authority(const IssueOrder& order) {
  HW_ASSERT(!order.names.empty(), "an authority is for some names");
  const Key key = new_key();
  const auto certificate = begin_certificate(key.get(), "Hourwright authority of " + order.names.front().text);
  X509* const own = certificate.get();
  X509_set_issuer_name(own, X509_get_subject_name(own));
  set_span(own, order.now - begins_early, ends_of(order));
  add_extension(own, own, NID_basic_constraints, "critical,CA:TRUE,pathlen:0");
  add_extension(own, own, NID_key_usage, "critical,keyCertSign");
  add_extension(own, own, NID_subject_key_identifier, "hash");
  add_name_constraints(own, order.names);
  HW_ASSERT(X509_sign(own, key.get(), EVP_sha256()) > 0, "a certificate can be signed");
  return {print_pem(key.get()), print_pem(own)};
}

Result<KeyedCertificate> issue_server_certificate(const KeyedCertificate& authority, const IssueOrder& order) {
  HW_ASSERT(!order.names.empty(), "a certificate is for some names");
  const X509Certificate issuer = parse_certificate(authority.certificate_pem);
  const Key issuer_key = parse_key(authority.key_pem);
  if (!issuer || !issuer_key) return refuse(ErrorCode::bad_input, "the authority has no certificate and key that read");
  HW_TAKE(issuer_read, read_certificate(authority.certificate_pem));
  HW_TRY(check_authority(issuer_read, order));
  const Key key = new_key();
  const auto certificate = begin_certificate(key.get(), order.names.front().text);
  X509* const own = certificate.get();
  X509_set_issuer_name(own, X509_get_subject_name(issuer.get()));
  set_span(own, order.now - begins_early, std::min(ends_of(order), issuer_read.ends_at));
  add_extension(own, issuer.get(), NID_basic_constraints, "critical,CA:FALSE");
  add_extension(own, issuer.get(), NID_key_usage, "critical,digitalSignature");
  add_extension(own, issuer.get(), NID_ext_key_usage, "serverAuth");
  add_extension(own, issuer.get(), NID_subject_alt_name, alternative_names(order.names));
  add_extension(own, issuer.get(), NID_subject_key_identifier, "hash");
  add_extension(own, issuer.get(), NID_authority_key_identifier, "keyid:always");
  HW_ASSERT(X509_sign(own, issuer_key.get(), EVP_sha256()) > 0, "a certificate can be signed");
  return KeyedCertificate{print_pem(key.get()), print_pem(own)};
}

}  // namespace hw::certificates
