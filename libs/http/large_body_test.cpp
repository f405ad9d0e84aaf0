// Who may send a large body is asked before it is read.

#include <gtest/gtest.h>

#include "libs/http/listening_test.h"
#include "libs/http/problem.h"
#include "libs/http/server.h"

namespace hw::http {
namespace {

constexpr std::size_t large = 300'000, larger = 800'000;

std::string put_head(const std::string& target, std::size_t bytes, const std::string& more = "") {
  return "PUT " + target + " HTTP/1.1\r\nHost: h\r\n" + more + "Content-Length: " + std::to_string(bytes) + "\r\n\r\n";
}

// Large bodies are for /files/, and there for who says "Who: friend".
class LargeBody : public testing::Test {
 protected:
  static ServerOptions options() {
    ServerOptions options;
    options.body_bytes_max = 1000;
    options.large_bodies = {"/files/", larger};
    options.before_large_body = [](const Request& head) -> std::optional<Response> {
      if (head.path == "/files/broken") throw std::runtime_error("who is that?");
      if (!head.body.empty() || head.remote_address.empty()) return problem(500, "a body, or no address");
      if (head.headers.find("Who") == "friend") return std::nullopt;
      return problem(401, "nobody is known");
    };
    return options;
  }
  std::string answer_to(const std::string& bytes) {
    RawClient client(server->port());
    client.send(bytes);
    return client.read_all();
  }

  const std::unique_ptr<Server> server = listening(options(), [](const Request& request) {
    return Response::of(200, "text/plain", std::to_string(request.body.size()));
  });
};

TEST_F(LargeBody, IsNotWaitedForWhereItIsNotTaken) {
  for (const std::string more : {"", "Expect: 100-continue\r\n"}) {
    const std::string answer = answer_to(put_head("/files/a", large, more));
    EXPECT_EQ(status_line_of(answer), "HTTP/1.1 401 Unauthorized") << more;
    EXPECT_NE(answer.find("Connection: close\r\n"), std::string::npos);
    EXPECT_NE(answer.find("nobody is known"), std::string::npos);
  }
}

TEST_F(LargeBody, ThatComesAllTheSameIsNotHeardAndTheAnswerIsRead) {
  const std::string answer = answer_to(put_head("/files/a", large) + std::string(large, 'b') + get_text("/x"));
  EXPECT_EQ(status_line_of(answer), "HTTP/1.1 401 Unauthorized");
  EXPECT_EQ(answer.find("HTTP/1.1", 1), std::string::npos) << "nothing behind it is answered";
}

TEST_F(LargeBody, OfAFriendIsReadAndTheLineGoesOn) {
  RawClient client(server->port());
  client.send(put_head("/files/a", large, "Who: friend\r\n") + std::string(large, 'b') + get_text("/x"));
  std::string body;
  EXPECT_EQ(status_line_of(client.read_response(&body)), "HTTP/1.1 200 OK");
  EXPECT_EQ(body, std::to_string(large));
  EXPECT_EQ(status_line_of(client.read_response(&body)), "HTTP/1.1 200 OK");
}

TEST_F(LargeBody, InChunksIsAskedAboutToo) {
  const std::string head = "PUT /files/a HTTP/1.1\r\nHost: h\r\nTransfer-Encoding: chunked\r\n\r\n";
  EXPECT_EQ(status_line_of(answer_to(head)), "HTTP/1.1 401 Unauthorized");
}

TEST_F(LargeBody, OfOtherTargetsAsksNobody) {
  RawClient client(server->port());
  client.send(put_head("/other", 1000) + std::string(1000, 'b'));
  EXPECT_EQ(status_line_of(client.read_response()), "HTTP/1.1 200 OK");
}

TEST_F(LargeBody, IsNotReadWhereAskingFails) {
  EXPECT_EQ(status_line_of(answer_to(put_head("/files/broken", large))), "HTTP/1.1 500 Internal Server Error");
}

}  // namespace
}  // namespace hw::http
