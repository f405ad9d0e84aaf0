#pragma once
// What a certificate says, and whether a certificate and a key go together.

#include <string>
#include <string_view>
#include <vector>

#include "libs/certificates/host_name.h"
#include "libs/values/instant.h"
#include "libs/values/result.h"

namespace hw::certificates {

struct Certificate {
  std::string title;  // the subject's common name; may be empty
  // The subject alternative names. Left out: wildcards and what is no name for other devices (parse_host_name).
  std::vector<HostName> names;
  std::vector<HostName> permitted;  // of an authority: for which names it may vouch
  Instant begins_at;
  Instant ends_at;
  std::string fingerprint;  // SHA-256 of the DER form, 64 hexadecimal digits
};

// The first certificate of a PEM text. Refuses (bad_input) a text without one.
Result<Certificate> read_certificate(std::string_view pem);
// Its DER form. Refuses like read_certificate.
Result<std::string> der_of(std::string_view pem);

// All certificates of a PEM text, in their order, and its key, each without anything around it. Refuse (bad_input) a
// text without one.
Result<std::string> certificates_of(std::string_view pem);
Result<std::string> key_of(std::string_view pem);

// Whether the first certificate of `pem` is signed by the first one of `authority_pem`; false where one does not read.
struct Issuing {
  std::string_view pem;
  std::string_view authority_pem;
};
bool is_issued(const Issuing& issuing);

// Refuses (bad_input) a key that does not belong to the first certificate, a certificate that has ended by `now`, and
// what is not PEM or is encrypted. `pair` may stand for one text in which both are.
struct PemPair {
  std::string_view certificate_pem;
  std::string_view key_pem;
};
Result<void> check_pair(const PemPair& pair, Instant now);

}  // namespace hw::certificates
