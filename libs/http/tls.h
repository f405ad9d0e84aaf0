#pragma once
// TLS 1.2 and 1.3 as a filter between two byte streams: the session knows no socket, whoever owns one carries the
// bytes. Server and client use the same session.

#include <memory>
#include <string>
#include <string_view>

#include "libs/values/result.h"

struct ssl_ctx_st;
struct ssl_st;

namespace hw::http {

// Certificates and rules, shared by all sessions that are opened with them.
class TlsContext {
 public:
  // Refuses (bad_input) files that cannot be read, are not PEM, or do not belong together; the sentence names the file.
  static Result<TlsContext> for_server(const std::string& certificate_file, const std::string& key_file);
  // Trusts the certificates of the file, or the system's where it is empty.
  static Result<TlsContext> for_client(const std::string& ca_file);

 private:
  friend class TlsSession;
  explicit TlsContext(std::shared_ptr<ssl_ctx_st> context) : context_(std::move(context)) {}
  std::shared_ptr<ssl_ctx_st> context_;
};

class TlsSession {
 public:
  enum class Outcome {
    done,
    hungry,  // give() more bytes of the line first
    ended,   // the peer closed the session in order
    failed,  // complaint() says why
  };

  static TlsSession accept(const TlsContext& context);
  // The certificate must be for this host (a name or an address).
  static TlsSession connect(const TlsContext& context, const std::string& host);

  // From the line, and what is to be sent on it: after every call below there may be something.
  void give(std::string_view from_line);
  std::string take();

  Outcome handshake();
  // Appends up to 16 KiB of plain text.
  Outcome read(std::string& plain);
  Outcome write(std::string_view plain);
  void close();
  std::string complaint() const;

 private:
  explicit TlsSession(const TlsContext& context);
  Outcome outcome_of(int returned);

  std::shared_ptr<ssl_st> session_;
  std::string complaint_;
};

}  // namespace hw::http
