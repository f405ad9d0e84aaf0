#pragma once
// For tests: a client that trusts one authority and asks a server of this computer over TLS for a host by name, as a
// phone does whose name server knows that name.

#include <cstdint>
#include <memory>
#include <string>

#include <openssl/ssl.h>
#include <openssl/x509v3.h>

#include "libs/http/loopback_test.h"

namespace hw::http {

struct TlsQuestion {
  std::uint16_t port = 0;
  std::string authority_der;  // what the client trusts
  std::string host;           // that it looks for in the certificate
  std::string request;        // with Connection: close
};

using Context = std::unique_ptr<SSL_CTX, decltype(&SSL_CTX_free)>;
using Session = std::unique_ptr<SSL, decltype(&SSL_free)>;

inline Context trusting(const std::string& authority_der) {
  Context context(SSL_CTX_new(TLS_client_method()), SSL_CTX_free);
  const auto* bytes = reinterpret_cast<const unsigned char*>(authority_der.data());
  const std::unique_ptr<X509, decltype(&X509_free)> authority(
      d2i_X509(nullptr, &bytes, static_cast<long>(authority_der.size())), X509_free);
  if (authority) X509_STORE_add_cert(SSL_CTX_get_cert_store(context.get()), authority.get());
  SSL_CTX_set_verify(context.get(), SSL_VERIFY_PEER, nullptr);
  return context;
}

inline void look_for(SSL* session, const std::string& host) {
  if (X509_VERIFY_PARAM_set1_ip_asc(SSL_get0_param(session), host.c_str()) == 1) return;
  SSL_set1_host(session, host.c_str());
}

// The whole answer as it came; where the server is not trusted, "not trusted: " and why.
inline std::string asked_over_tls(const TlsQuestion& question) {
  const Context context = trusting(question.authority_der);
  const RawClient line(question.port);
  const Session session(SSL_new(context.get()), SSL_free);
  SSL_set_fd(session.get(), line.descriptor());
  look_for(session.get(), question.host);
  if (SSL_connect(session.get()) != 1) {
    return std::string{"not trusted: "} + X509_verify_cert_error_string(SSL_get_verify_result(session.get()));
  }
  SSL_write(session.get(), question.request.data(), static_cast<int>(question.request.size()));
  std::string answer;
  char piece[4096];
  for (int count = 0; (count = SSL_read(session.get(), piece, sizeof piece)) > 0;) {
    answer.append(piece, static_cast<std::size_t>(count));
  }
  return answer;
}

}  // namespace hw::http
