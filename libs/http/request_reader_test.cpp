#include "libs/http/request_reader.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace hw::http {
namespace {

constexpr RequestLimits limits{.request_line_bytes_max = 100, .head_bytes_max = 300, .body_bytes_max = 50};

// The status of the refusal, 0 for a whole request, -1 where more is awaited.
int outcome(const std::string& text, std::size_t piece = 1000) {
  RequestReader reader(limits);
  std::string bytes;
  auto state = RequestReader::State::head;
  for (std::size_t at = 0;
       at < text.size() && (state == RequestReader::State::head || state == RequestReader::State::body); at += piece) {
    bytes += text.substr(at, piece);
    state = reader.feed(bytes);
  }
  if (state == RequestReader::State::refused) return reader.refusal().status;
  return state == RequestReader::State::done ? 0 : -1;
}

std::string get_with(const std::string& headers) { return "GET / HTTP/1.1\r\nHost: h\r\n" + headers + "\r\n"; }

Request read(std::string bytes) {
  RequestReader reader(limits);
  EXPECT_EQ(reader.feed(bytes), RequestReader::State::done);
  return reader.take();
}

TEST(RequestReader, FillsTheRequest) {
  const Request request = read("PUT /api/m%201?a=b HTTP/1.1\r\nhost: h\r\nX:  y \r\nContent-Length: 3\r\n\r\nabc");
  EXPECT_EQ(request.method, "PUT");
  EXPECT_EQ(request.target, "/api/m%201?a=b");
  EXPECT_EQ(request.path, "/api/m 1");
  EXPECT_EQ(request.query_value("a"), "b");
  EXPECT_EQ(request.headers.find("x"), "y");
  EXPECT_EQ(request.body, "abc");
}

TEST(RequestReader, ReadsChunksInAnyPiecesAndLeavesTrailersOut) {
  const std::string text =
      "POST / HTTP/1.1\r\nHost: h\r\nTransfer-Encoding: chunked\r\n\r\n"
      "3\r\nabc\r\n2;x=y\r\nde\r\n0\r\nX-Role: lead\r\n\r\n";
  for (std::size_t piece = 1; piece <= text.size(); ++piece) EXPECT_EQ(outcome(text, piece), 0) << piece;
  const Request request = read(text);
  EXPECT_EQ(request.body, "abcde");
  EXPECT_FALSE(request.headers.find("X-Role"));
}

TEST(RequestReader, AnEmptyBodyOfChunksMayComeByteByByte) {
  for (const char* end : {"0\r\n\r\n", "0;x\r\n\r\n", "000\r\n\r\n", "0\r\nX-Role: lead\r\n\r\n"}) {
    EXPECT_EQ(outcome(get_with("Transfer-Encoding: chunked\r\n") + end, 1), 0) << end;
  }
  EXPECT_EQ(outcome(get_with("Transfer-Encoding: chunked\r\n") + "0\r\nno field\r\n\r\n", 1), 400);
}

TEST(RequestReader, ALastChunkWhoseLineEndsWronglyIsRefusedAtOnceHoweverItComes) {
  for (const std::size_t piece : {1U, 2U, 1000U}) {
    EXPECT_EQ(outcome(get_with("Transfer-Encoding: chunked\r\n") + "0\rP", piece), 400) << piece;
  }
}

TEST(RequestReader, LeavesTheNextRequestInTheBuffer) {
  std::string bytes = "\r\n" + get_with("Content-Length: 2\r\n") + "ab" + get_with("");
  RequestReader first(limits);
  ASSERT_EQ(first.feed(bytes), RequestReader::State::done);
  EXPECT_EQ(first.take().body, "ab");
  EXPECT_EQ(bytes, get_with(""));
}

TEST(RequestReader, TakesTheAbsoluteFormAndTheStar) {
  EXPECT_EQ(read("GET http://h:80/a?b=c HTTP/1.1\r\nHost: h\r\n\r\n").path, "/a");
  EXPECT_EQ(read("GET http://h HTTP/1.1\r\nHost: h\r\n\r\n").path, "/");
  EXPECT_EQ(read("OPTIONS * HTTP/1.1\r\nHost: h\r\n\r\n").path, "*");
}

TEST(RequestReader, RefusesEveryFormOfSmuggling) {
  for (const char* headers : {"Content-Length: 3\r\nTransfer-Encoding: chunked\r\n",
                              "Transfer-Encoding: chunked\r\nContent-Length: 3\r\n",
                              "Content-Length: 3\r\nContent-Length: 4\r\n",
                              "Content-Length: 3\r\nContent-Length: 3\r\n",
                              "Content-Length: 3, 3\r\n",
                              "Content-Length: +3\r\n",
                              "Content-Length: 0x3\r\n",
                              "Content-Length:\r\n",
                              "Content-Length: -1\r\n",
                              "Content-Length: 99999999999999999999999\r\n",
                              "Content-Length : 3\r\n",
                              "Transfer-Encoding: chunked\r\nTransfer-Encoding: identity\r\n",
                              " Content-Length: 3\r\n",
                              "X: y\r\n Transfer-Encoding: chunked\r\n",
                              "X: y\r\n\tz\r\n",
                              "X: a\rb\r\n",
                              "X: a\nTransfer-Encoding: chunked\r\n",
                              "no colon\r\n",
                              ": empty\r\n",
                              "X\x01: y\r\n",
                              "X: \x01\r\n",
                              "Host: other\r\n"}) {
    EXPECT_EQ(outcome(get_with(headers) + "abc"), 400) << headers;
  }
  for (const char* coding : {"gzip", "gzip, chunked", "chunked, chunked", "xchunked", "chunked;q=1"}) {
    EXPECT_EQ(outcome(get_with(std::string("Transfer-Encoding: ") + coding + "\r\n")), 501) << coding;
  }
  EXPECT_EQ(outcome(std::string("GET / HTTP/1.1\r\nHost: h\r\nX: a\0b\r\n\r\n", 35)), 400);
  EXPECT_EQ(outcome("GET / HTTP/1.0\r\nTransfer-Encoding: chunked\r\n\r\n"), 400);
}

TEST(RequestReader, RefusesBadChunks) {
  for (const char* body : {"x\r\nabc\r\n0\r\n\r\n", "3\nabc\r\n0\r\n\r\n", "3\r\nabcd\r\n0\r\n\r\n", "-1\r\n", "\r\n",
                           "0x3\r\nabc\r\n0\r\n\r\n", "3 \r\nabcX\r\n", "10000000000000000\r\n", "3\r\nabc0\r\n\r\n"}) {
    for (std::size_t piece : {1U, 1000U}) {
      const int status = outcome(get_with("Transfer-Encoding: chunked\r\n") + body, piece);
      EXPECT_TRUE(status == 400 || status == 413) << body << status;
    }
  }
  EXPECT_EQ(outcome(get_with("Transfer-Encoding: chunked\r\n") + "3;" + std::string(10'000, 'x'), 500), 400);
}

TEST(RequestReader, RefusesWhatIsNotARequest) {
  for (const char* text :
       {"GET /\r\n\r\n", "GET  / HTTP/1.1\r\nHost: h\r\n\r\n", " GET / HTTP/1.1\r\nHost: h\r\n\r\n",
        "G\"T / HTTP/1.1\r\nHost: h\r\n\r\n", "GET / HTTP/1.1 \r\nHost: h\r\n\r\n",
        "GET /a b HTTP/1.1\r\nHost: h\r\n\r\n", "GET /\x80 HTTP/1.1\r\nHost: h\r\n\r\n",
        "GET / http/1.1\r\nHost: h\r\n\r\n", "GET / HTTP/1.1\nHost: h\n\n", "\x16\x03\x01\x02\n", "\r\n\r\n\n",
        "GET / HTTP/1.1\r\n\r\n", "GET /../x HTTP/1.1\r\nHost: h\r\n\r\n", "GET x HTTP/1.1\r\nHost: h\r\n\r\n",
        "CONNECT h:80 HTTP/1.1\r\nHost: h\r\n\r\n", "GET /?a=%zz HTTP/1.1\r\nHost: h\r\n\r\n"}) {
    EXPECT_EQ(outcome(text), 400) << text;
  }
  EXPECT_EQ(outcome("GET / HTTP/2.0\r\nHost: h\r\n\r\n"), 505);
  EXPECT_EQ(outcome(get_with("Expect: tea\r\n")), 417);
}

TEST(RequestReader, KeepsTheRequestLineLimitOnBothSides) {
  const auto with_line = [](std::size_t bytes) {
    return "GET /" + std::string(bytes - 14, 'x') + " HTTP/1.1\r\nHost: h\r\n\r\n";  // 14: all but the x's; CR ends it
  };
  for (std::size_t piece : {1U, 1000U}) {
    EXPECT_EQ(outcome(with_line(99), piece), 0);
    EXPECT_EQ(outcome(with_line(101), piece), 414);
  }
  EXPECT_EQ(outcome("GET /" + std::string(200, 'x')), 414);
}

TEST(RequestReader, KeepsTheHeadLimitOnBothSides) {
  const auto with_head = [](std::size_t bytes) {
    const std::size_t others = get_with("X: \r\n").size();
    return get_with("X: " + std::string(bytes - others, 'x') + "\r\n");
  };
  for (std::size_t piece : {1U, 1000U}) {
    EXPECT_EQ(outcome(with_head(300), piece), 0);
    EXPECT_EQ(outcome(with_head(301), piece), 431);
  }
  EXPECT_EQ(outcome("GET / HTTP/1.1\r\nX: " + std::string(300, 'x')), 431);
}

TEST(RequestReader, KeepsTheBodyLimitOnBothSides) {
  EXPECT_EQ(outcome(get_with("Content-Length: 50\r\n") + std::string(50, 'b')), 0);
  EXPECT_EQ(outcome(get_with("Content-Length: 51\r\n")), 413);
  const auto chunks = [](const std::string& first, const std::string& second) {
    return get_with("Transfer-Encoding: chunked\r\n") + first + "\r\n" +
           std::string(std::stoul(first, nullptr, 16), 'b') + "\r\n" + second + "\r\n" +
           std::string(std::stoul(second, nullptr, 16), 'b') + "\r\n0\r\n\r\n";
  };
  EXPECT_EQ(outcome(chunks("30", "2")), 0);
  EXPECT_EQ(outcome(chunks("30", "3")), 413);
}

TEST(RequestReader, LargerBodiesAreForTheirOwnTargetsOnly) {
  const auto state_of = [](const std::string& target, int bytes) {
    RequestLimits some_larger = limits;
    some_larger.large_bodies = {"/files", 60};
    RequestReader reader(some_larger);
    std::string head = fmt::format("PUT {} HTTP/1.1\r\nHost: h\r\nContent-Length: {}\r\n\r\n", target, bytes);
    return reader.feed(head);
  };
  EXPECT_EQ(state_of("/files/a?b", 60), RequestReader::State::body);
  EXPECT_EQ(state_of("/files/a", 61), RequestReader::State::refused);
  EXPECT_EQ(state_of("/other/files", 51), RequestReader::State::refused);
}

TEST(RequestReader, TellsTheHeadOfWhatMayBeLargeBeforeItsBody) {
  RequestLimits some_larger = limits;
  some_larger.large_bodies = {"/files", 60};
  RequestReader reader(some_larger);
  std::string bytes = "PUT /files/a%20b?c=d HTTP/1.1\r\nHost: h\r\nContent-Length: 9\r\n\r\nhalf";
  EXPECT_EQ(reader.feed(bytes), RequestReader::State::body);
  EXPECT_TRUE(reader.may_be_large());
  const Request head = reader.head();
  EXPECT_EQ(head.path, "/files/a b");
  EXPECT_EQ(head.query_value("c"), "d");
  EXPECT_TRUE(head.body.empty());
  bytes = " more";
  EXPECT_EQ(reader.feed(bytes), RequestReader::State::done);
  EXPECT_EQ(reader.take().body, "half more") << "the head was a copy";
  RequestReader other(some_larger);
  bytes = get_with("Content-Length: 9\r\n");
  EXPECT_EQ(other.feed(bytes), RequestReader::State::body);
  EXPECT_FALSE(other.may_be_large());
}

TEST(RequestReader, SaysWhenTheClientWaitsToBeAskedForTheBody) {
  std::string bytes = get_with("Content-Length: 5\r\nExpect: 100-Continue\r\n");
  RequestReader reader(limits);
  EXPECT_EQ(reader.feed(bytes), RequestReader::State::body);
  EXPECT_TRUE(reader.wants_continue());
}

TEST(RequestReader, KeepsTheLineByVersionAndConnectionHeader) {
  const auto keeps = [](std::string bytes) {
    RequestReader reader(limits);
    EXPECT_EQ(reader.feed(bytes), RequestReader::State::done);
    return reader.keep_alive();
  };
  EXPECT_TRUE(keeps(get_with("")));
  EXPECT_FALSE(keeps(get_with("Connection: foo, Close\r\n")));
  EXPECT_FALSE(keeps("GET / HTTP/1.0\r\n\r\n"));
}

}  // namespace
}  // namespace hw::http
