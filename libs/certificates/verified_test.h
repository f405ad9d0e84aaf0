#pragma once
// For tests: what a client that trusts an authority says of a certificate, by OpenSSL's own verification.

#include <string>

#include "libs/certificates/openssl_handles.h"
#include "libs/values/instant.h"

namespace hw::certificates {

inline const Instant today = *parse_instant("2026-11-25T06:30:00Z");
inline Instant after(int days) { return today + Duration::hours(24LL * days); }

// "ok", or why not. `host` is the name or address that the client looks for; without one only the chain is looked at.
struct Looked {
  std::string certificate_pem;
  std::string authority_pem;
  std::string host = {};
  Instant at = {};
};
inline std::string verified(const Looked& looked) {
  const X509Certificate certificate = parse_certificate(looked.certificate_pem);
  const X509Certificate authority = parse_certificate(looked.authority_pem);
  const std::unique_ptr<X509_STORE, FreeBy<X509_STORE_free>> store{X509_STORE_new()};
  X509_STORE_add_cert(store.get(), authority.get());
  const std::unique_ptr<X509_STORE_CTX, FreeBy<X509_STORE_CTX_free>> looking{X509_STORE_CTX_new()};
  X509_STORE_CTX_init(looking.get(), store.get(), certificate.get(), nullptr);
  X509_VERIFY_PARAM* const wanted = X509_STORE_CTX_get0_param(looking.get());
  X509_VERIFY_PARAM_set_purpose(wanted, X509_PURPOSE_SSL_SERVER);
  X509_VERIFY_PARAM_set_flags(wanted, X509_V_FLAG_X509_STRICT);
  if (looked.at.ns != 0) X509_VERIFY_PARAM_set_time(wanted, static_cast<time_t>(looked.at.as_millis() / 1000));
  if (!looked.host.empty() && X509_VERIFY_PARAM_set1_ip_asc(wanted, looked.host.c_str()) != 1) {
    X509_VERIFY_PARAM_set1_host(wanted, looked.host.c_str(), looked.host.size());
  }
  if (X509_verify_cert(looking.get()) == 1) return "ok";
  return X509_verify_cert_error_string(X509_STORE_CTX_get_error(looking.get()));
}

}  // namespace hw::certificates
