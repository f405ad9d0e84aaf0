#pragma once
// A connection to the server that sends exactly the bytes it is told, and the one place where requests are made.

#include <cstdint>
#include <string>
#include <string_view>

namespace hw::abuse {

// The header of a token that lets in; the shop that is ill-treated sets it.
inline std::string lets_in;

// A request as it is sent: with Host and what lets in, and Content-Length where there is a body. `more` are header
// lines, each with its CRLF.
std::string request(std::string_view method, std::string_view target, std::string_view body = "",
                    std::string_view more = "");

class RawLine {
 public:
  explicit RawLine(std::uint16_t port);
  ~RawLine() { close(); }
  RawLine(RawLine&& other) noexcept;
  RawLine(const RawLine&) = delete;
  RawLine& operator=(const RawLine&) = delete;

  // False where the server does not take it any more.
  bool send(std::string_view bytes) const;
  // One whole answer with its body, by its Content-Length; empty where the server closed before.
  std::string answer();
  // All up to the end of a head; empty where the server closed before.
  std::string head();
  // All that comes until the server closes.
  std::string until_closed();
  void close();

 private:
  bool receive();
  std::string take(std::size_t bytes);

  int socket_ = -1;
  std::string received_;
};

// Of an answer; 0 where there is none.
int status_of(std::string_view answer);

// Asks once over a line of its own; the status.
int ask(std::uint16_t port, std::string_view bytes);

}  // namespace hw::abuse
