#include "libs/http/tls.h"

#include <filesystem>
#include <fstream>
#include <memory>

#include <gtest/gtest.h>
#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/ssl.h>
#include <openssl/x509v3.h>

#include "libs/http/client.h"
#include "libs/http/loopback_test.h"
#include "libs/http/server.h"

namespace hw::http {
namespace {

namespace fs = std::filesystem;

// A folder with a certificate for 127.0.0.1 that signs itself, and its key.
struct Certificate {
  fs::path folder;
  std::string certificate_file = (folder / "certificate.pem").string();
  std::string key_file = (folder / "key.pem").string();

  explicit Certificate(const std::string& name)
      : folder(fs::temp_directory_path() / ("hw_tls_" + name + std::to_string(::getpid()))) {
    fs::create_directories(folder);
    const std::unique_ptr<EVP_PKEY, decltype(&EVP_PKEY_free)> key(EVP_EC_gen("P-256"), EVP_PKEY_free);
    const std::unique_ptr<X509, decltype(&X509_free)> x509(X509_new(), X509_free);
    X509_set_version(x509.get(), X509_VERSION_3);
    ASN1_INTEGER_set(X509_get_serialNumber(x509.get()), 1);
    X509_gmtime_adj(X509_getm_notBefore(x509.get()), -60);
    X509_gmtime_adj(X509_getm_notAfter(x509.get()), 3600);
    X509_set_pubkey(x509.get(), key.get());
    X509_NAME* const subject = X509_get_subject_name(x509.get());
    X509_NAME_add_entry_by_txt(subject, "CN", MBSTRING_ASC, reinterpret_cast<const unsigned char*>(name.c_str()), -1,
                               -1, 0);
    X509_set_issuer_name(x509.get(), subject);
    X509_EXTENSION* const names = X509V3_EXT_conf_nid(nullptr, nullptr, NID_subject_alt_name, "IP:127.0.0.1");
    X509_add_ext(x509.get(), names, -1);
    X509_EXTENSION_free(names);
    X509_sign(x509.get(), key.get(), EVP_sha256());
    write(certificate_file, [&](BIO* out) { PEM_write_bio_X509(out, x509.get()); });
    write(key_file, [&](BIO* out) { PEM_write_bio_PrivateKey(out, key.get(), nullptr, nullptr, 0, nullptr, nullptr); });
  }
  ~Certificate() { fs::remove_all(folder); }
  Certificate(const Certificate&) = delete;
  Certificate& operator=(const Certificate&) = delete;

  template <class Fill>
  static void write(const std::string& file, const Fill& fill) {
    const std::unique_ptr<BIO, decltype(&BIO_free_all)> out(BIO_new_file(file.c_str(), "w"), BIO_free_all);
    fill(out.get());
  }
};

std::unique_ptr<Server> listening(const Certificate& certificate, ServerOptions options = {}) {
  options.tls = TlsFiles{certificate.certificate_file, certificate.key_file};
  auto server = Server::listen(options, [](const Request& request) {
    return Response::of(200, "text/plain", request.path + std::string(200'000, 'x'));
  });
  EXPECT_TRUE(server) << server.error().message;
  return std::move(*server);
}

Result<Response> get_over_tls(const Server& server, const Certificate& trusted, const std::string& host = "127.0.0.1") {
  GetOptions options;
  options.ca_file = trusted.certificate_file;
  return get({"https", host, server.port(), "/secret"}, options);
}

TEST(Tls, CarriesRequestsAndAnswers) {
  const Certificate certificate("a");
  const auto server = listening(certificate);
  const auto response = get_over_tls(*server, certificate);
  ASSERT_TRUE(response) << response.error().message;
  EXPECT_EQ(response->text().size(), 200'007U);
}

TEST(Tls, ACertificateThatIsNotTrustedIsRefused) {
  const Certificate ours("ours");
  const Certificate other("other");
  const auto server = listening(ours);
  const auto response = get_over_tls(*server, other);
  ASSERT_FALSE(response);
  EXPECT_EQ(response.error().code, ErrorCode::peer_misbehaved);
  EXPECT_NE(response.error().message.find("self-signed certificate"), std::string::npos) << response.error().message;
}

TEST(Tls, ACertificateForAnotherHostIsRefused) {
  const Certificate certificate("host");
  const auto server = listening(certificate);
  const auto response = get_over_tls(*server, certificate, "127.0.0.2");
  ASSERT_FALSE(response);
}

TEST(Tls, TheCertificateIsChangedWithoutARestart) {
  const Certificate certificate("old");
  const Certificate fresh("fresh");
  const auto server = listening(certificate);
  const Certificate old_copy("copy");
  fs::copy_file(certificate.certificate_file, old_copy.certificate_file, fs::copy_options::overwrite_existing);
  fs::copy_file(fresh.certificate_file, certificate.certificate_file, fs::copy_options::overwrite_existing);
  const auto half = server->reload_tls();  // the key does not belong to it yet
  ASSERT_FALSE(half);
  EXPECT_EQ(half.error().code, ErrorCode::bad_input);
  EXPECT_TRUE(get_over_tls(*server, old_copy));
  fs::copy_file(fresh.key_file, certificate.key_file, fs::copy_options::overwrite_existing);
  ASSERT_TRUE(server->reload_tls());
  EXPECT_TRUE(get_over_tls(*server, fresh));
  EXPECT_FALSE(get_over_tls(*server, old_copy));
}

TEST(Tls, WrongFilesAreRefusedByName) {
  const Certificate certificate("files");
  const Certificate other("other");
  const std::string nowhere = "/nowhere/x.pem";
  for (const auto& [files, named] :
       {std::pair{TlsFiles{nowhere, certificate.key_file}, nowhere},
        std::pair{TlsFiles{certificate.certificate_file, nowhere}, nowhere},
        std::pair{TlsFiles{certificate.key_file, certificate.key_file}, certificate.key_file},
        std::pair{TlsFiles{certificate.certificate_file, other.key_file}, other.key_file}}) {
    ServerOptions options;
    options.tls = files;
    const auto server = Server::listen(options, [](const Request&) { return Response::empty(204); });
    ASSERT_FALSE(server);
    EXPECT_EQ(server.error().code, ErrorCode::bad_input);
    EXPECT_NE(server.error().message.find(named), std::string::npos) << server.error().message;
  }
}

// Whether a client that speaks at most this version gets through its handshake.
bool shakes_hands(std::uint16_t port, int version_max) {
  const std::unique_ptr<SSL_CTX, decltype(&SSL_CTX_free)> context(SSL_CTX_new(TLS_client_method()), SSL_CTX_free);
  SSL_CTX_set_security_level(context.get(), 0);
  SSL_CTX_set_min_proto_version(context.get(), TLS1_VERSION);
  SSL_CTX_set_max_proto_version(context.get(), version_max);
  SSL_CTX_set_verify(context.get(), SSL_VERIFY_NONE, nullptr);
  const std::unique_ptr<SSL, decltype(&SSL_free)> session(SSL_new(context.get()), SSL_free);
  const RawClient line(port);
  SSL_set_fd(session.get(), line.descriptor());
  return SSL_connect(session.get()) == 1;
}

TEST(Tls, SpeaksVersion12AndLaterOnly) {
  const Certificate certificate("version");
  const auto server = listening(certificate);
  EXPECT_TRUE(shakes_hands(server->port(), TLS1_3_VERSION));
  EXPECT_TRUE(shakes_hands(server->port(), TLS1_2_VERSION));
  EXPECT_FALSE(shakes_hands(server->port(), TLS1_1_VERSION));
}

TEST(Tls, SurvivesClientsThatSpeakSomethingElse) {
  const Certificate certificate("plain");
  ServerOptions options;
  options.head_within = Duration::millis(200);
  const auto server = listening(certificate, options);
  RawClient plain(server->port());
  plain.send("GET / HTTP/1.1\r\nHost: h\r\n\r\n");
  EXPECT_EQ(plain.read_all().find("HTTP/1.1 200"), std::string::npos);
  RawClient silent(server->port());
  EXPECT_EQ(silent.read_all(), "");
  EXPECT_TRUE(get_over_tls(*server, certificate));
}

TEST(Tls, AServerThatSpeaksPlainHttpIsNamed) {
  const LyingServer server([](int socket) {
    char piece[4096];
    if (::recv(socket, piece, sizeof piece, 0) > 0) LyingServer::write(socket, "HTTP/1.1 400 Bad Request\r\n\r\n");
  });
  const auto response = get({"https", "127.0.0.1", server.port(), "/"}, {});
  ASSERT_FALSE(response);
  EXPECT_EQ(response.error().code, ErrorCode::peer_misbehaved);
}

}  // namespace
}  // namespace hw::http
