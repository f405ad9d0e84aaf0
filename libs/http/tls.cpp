#include "libs/http/tls.h"

#include <arpa/inet.h>
#include <openssl/err.h>
#include <openssl/ssl.h>
#include <openssl/x509v3.h>

#include "libs/values/assert.h"

namespace hw::http {
namespace {

constexpr std::size_t record_bytes = 16 * 1024;

// What OpenSSL says of its latest error, without its codes.
std::string latest_error() {
  const unsigned long code = ERR_peek_last_error();
  const char* const reason = code == 0 ? nullptr : ERR_reason_error_string(code);
  return reason == nullptr ? "unknown TLS error" : reason;
}

std::shared_ptr<SSL_CTX> new_context(const SSL_METHOD* method) {
  ERR_clear_error();
  std::shared_ptr<SSL_CTX> context(SSL_CTX_new(method), SSL_CTX_free);
  HW_ASSERT(context != nullptr, "OpenSSL makes a context");
  SSL_CTX_set_min_proto_version(context.get(), TLS1_2_VERSION);
  SSL_CTX_set_options(context.get(), SSL_OP_NO_RENEGOTIATION | SSL_OP_NO_COMPRESSION | SSL_OP_CIPHER_SERVER_PREFERENCE);
  SSL_CTX_set_mode(context.get(), SSL_MODE_RELEASE_BUFFERS);
  return context;
}

bool is_address(const std::string& host) {
  unsigned char bytes[sizeof(in6_addr)];
  return ::inet_pton(AF_INET, host.c_str(), bytes) == 1 || ::inet_pton(AF_INET6, host.c_str(), bytes) == 1;
}

}  // namespace

Result<TlsContext> TlsContext::for_server(const std::string& certificate_file, const std::string& key_file) {
  auto context = new_context(TLS_server_method());
  if (SSL_CTX_use_certificate_chain_file(context.get(), certificate_file.c_str()) != 1) {
    return refuse(ErrorCode::bad_input, "{} is no readable PEM certificate: {}", certificate_file, latest_error());
  }
  if (SSL_CTX_use_PrivateKey_file(context.get(), key_file.c_str(), SSL_FILETYPE_PEM) != 1) {
    return refuse(ErrorCode::bad_input, "{} is no readable PEM key for {}: {}", key_file, certificate_file,
                  latest_error());
  }
  if (SSL_CTX_check_private_key(context.get()) != 1) {
    return refuse(ErrorCode::bad_input, "the key {} does not belong to {}", key_file, certificate_file);
  }
  return TlsContext(std::move(context));
}

Result<TlsContext> TlsContext::for_client(const std::string& ca_file) {
  auto context = new_context(TLS_client_method());
  SSL_CTX_set_verify(context.get(), SSL_VERIFY_PEER, nullptr);
  const int loaded = ca_file.empty() ? SSL_CTX_set_default_verify_paths(context.get())
                                     : SSL_CTX_load_verify_locations(context.get(), ca_file.c_str(), nullptr);
  if (loaded != 1)
    return refuse(ErrorCode::bad_input, "{} is no readable PEM certificate: {}", ca_file, latest_error());
  return TlsContext(std::move(context));
}

TlsSession::TlsSession(const TlsContext& context) : session_(SSL_new(context.context_.get()), SSL_free) {
  HW_ASSERT(session_ != nullptr, "OpenSSL makes a session");
  SSL_set_bio(session_.get(), BIO_new(BIO_s_mem()), BIO_new(BIO_s_mem()));
}

TlsSession TlsSession::accept(const TlsContext& context) {
  TlsSession session(context);
  SSL_set_accept_state(session.session_.get());
  return session;
}

TlsSession TlsSession::connect(const TlsContext& context, const std::string& host) {
  TlsSession session(context);
  SSL* const ssl = session.session_.get();
  SSL_set_connect_state(ssl);
  if (is_address(host)) {
    X509_VERIFY_PARAM_set1_ip_asc(SSL_get0_param(ssl), host.c_str());
  } else {
    SSL_set1_host(ssl, host.c_str());
    SSL_ctrl(ssl, SSL_CTRL_SET_TLSEXT_HOSTNAME, TLSEXT_NAMETYPE_host_name, const_cast<char*>(host.c_str()));
  }
  return session;
}

void TlsSession::give(std::string_view from_line) {
  BIO_write(SSL_get_rbio(session_.get()), from_line.data(), static_cast<int>(from_line.size()));
}

std::string TlsSession::take() {
  BIO* const out = SSL_get_wbio(session_.get());
  std::string bytes(BIO_ctrl_pending(out), '\0');
  if (!bytes.empty()) BIO_read(out, bytes.data(), static_cast<int>(bytes.size()));
  return bytes;
}

TlsSession::Outcome TlsSession::outcome_of(int returned) {
  if (returned > 0) return Outcome::done;
  const int error = SSL_get_error(session_.get(), returned);
  if (error == SSL_ERROR_WANT_READ) return Outcome::hungry;
  if (error == SSL_ERROR_ZERO_RETURN) return Outcome::ended;
  const long verdict = SSL_get_verify_result(session_.get());
  complaint_ = verdict == X509_V_OK ? latest_error() : X509_verify_cert_error_string(verdict);
  return Outcome::failed;
}

TlsSession::Outcome TlsSession::handshake() {
  ERR_clear_error();
  return outcome_of(SSL_do_handshake(session_.get()));
}

TlsSession::Outcome TlsSession::read(std::string& plain) {
  ERR_clear_error();
  const std::size_t before = plain.size();
  plain.resize(before + record_bytes);
  const int count = SSL_read(session_.get(), plain.data() + before, static_cast<int>(record_bytes));
  plain.resize(before + static_cast<std::size_t>(std::max(count, 0)));
  return outcome_of(count);
}

TlsSession::Outcome TlsSession::write(std::string_view plain) {
  if (plain.empty()) return Outcome::done;
  ERR_clear_error();
  return outcome_of(SSL_write(session_.get(), plain.data(), static_cast<int>(plain.size())));
}

void TlsSession::close() {
  ERR_clear_error();
  SSL_shutdown(session_.get());
}

std::string TlsSession::complaint() const { return complaint_; }

}  // namespace hw::http
