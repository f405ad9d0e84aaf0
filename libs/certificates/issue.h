#pragma once
// A local authority and the certificates that it issues, for a server on a shop's own network: keys are ECDSA on P-256,
// signatures with SHA-256 (RFC 5280, RFC 5480).
//
// Whoever trusts the authority trusts it for its names only: they are in its certificate as critical name constraints
// (RFC 5280, 4.2.1.10), and addresses or names are excluded altogether where none of them is given. By the same
// section a name stands for the names below it too: an authority for shop.example may vouch for a.shop.example.

#include <string>
#include <vector>

#include "libs/certificates/host_name.h"
#include "libs/values/instant.h"
#include "libs/values/result.h"

namespace hw::certificates {

inline constexpr int authority_days = 3652;  // ten years
inline constexpr int server_days = 397;
// Phones that trust an authority of one's own refuse longer ones: Apple's requirement of 2019 for certificates of
// servers (support article 103769), from memory.
inline constexpr int server_days_max = 825;
// Certificates begin a day early: the clock of a device may lag.
inline constexpr Duration begins_early = Duration::hours(24);

// Both in PEM.
struct KeyedCertificate {
  std::string key_pem;
  std::string certificate_pem;
};

struct IssueOrder {
  std::vector<HostName> names;  // at least one
  Instant now;
  int days = server_days;
};

// CA:TRUE with path length 0 and key usage keyCertSign only. Lasts `order.days`.
KeyedCertificate make_authority(const IssueOrder& order);

// For TLS servers (extended key usage serverAuth), with the names as subject alternative names. It never outlasts the
// authority. Refuses: bad_input (the authority does not read), conflict (it has ended; it may not vouch for a name).
Result<KeyedCertificate> issue_server_certificate(const KeyedCertificate& authority, const IssueOrder& order);

}  // namespace hw::certificates
