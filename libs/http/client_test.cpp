#include "libs/http/client.h"

#include <condition_variable>
#include <mutex>

#include <gtest/gtest.h>

#include "libs/http/listening_test.h"
#include "libs/http/loopback_test.h"
#include "libs/http/multipart.h"

namespace hw::http {
namespace {

Url at(std::uint16_t port, const std::string& target = "/probe") { return {"http", "127.0.0.1", port, target}; }

GetOptions quick() {
  GetOptions options;
  options.connect_within = Duration::seconds(5);
  options.answer_within = Duration::seconds(5);
  options.body_bytes_max = 1000;
  return options;
}

// A server that reads the request, says this, and closes.
std::function<void(int)> answering(std::string text) {
  return [text = std::move(text)](int socket) {
    LyingServer::read_head(socket);
    LyingServer::write(socket, text);
  };
}

Error error_of(const std::function<void(int)>& behaviour, const GetOptions& options = quick()) {
  const LyingServer server(behaviour);
  const auto response = get(at(server.port()), options);
  EXPECT_FALSE(response);
  if (response) return {};
  const std::string url = print(at(server.port())) + ": ";
  EXPECT_TRUE(response.error().message.starts_with(url)) << response.error().message;
  EXPECT_EQ(response.error().message.find('\n'), std::string::npos);
  return {response.error().code,
          response.error().message.substr(std::min(url.size(), response.error().message.size()))};
}

TEST(Client, GetsAnAnswerWhateverItsStatus) {
  const LyingServer server(
      answering("HTTP/1.1 404 Not Found\r\nContent-Type: text/xml\r\nContent-Length: 4\r\n\r\n<e/>"));
  const auto response = get(at(server.port()), quick());
  ASSERT_TRUE(response) << response.error().message;
  EXPECT_EQ(response->status, 404);
  EXPECT_EQ(response->headers.find("content-type"), "text/xml");
  EXPECT_EQ(response->text(), "<e/>");
}

TEST(Client, SendsItsHeaders) {
  std::string asked;
  {
    const LyingServer server([&](int socket) {
      char piece[4096];
      const ssize_t count = ::recv(socket, piece, sizeof piece, 0);
      asked.assign(piece, static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
      LyingServer::write(socket, "HTTP/1.1 204 No Content\r\n\r\n");
    });
    GetOptions options = quick();
    options.headers.add("Accept", "text/xml");
    ASSERT_TRUE(get(at(server.port(), "/m1/current?path=//X"), options));
    const std::string host = "Host: 127.0.0.1:" + std::to_string(server.port()) + "\r\n";
    EXPECT_NE(asked.find(host), std::string::npos) << asked;
  }
  EXPECT_TRUE(asked.starts_with("GET /m1/current?path=//X HTTP/1.1\r\n")) << asked;
  EXPECT_NE(asked.find("Accept: text/xml\r\n"), std::string::npos);
  EXPECT_EQ(asked.find("*/*"), std::string::npos);
}

TEST(Client, ReadsChunksInterimAnswersAndBodiesUntilTheClose) {
  for (const char* text :
       {"HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n2\r\nab\r\n1\r\nc\r\n0\r\n\r\n",
        "HTTP/1.1 100 Continue\r\n\r\nHTTP/1.1 200 OK\r\nContent-Length: 3\r\n\r\nabc", "HTTP/1.0 200 OK\r\n\r\nabc"}) {
    const LyingServer server(answering(text));
    const auto response = get(at(server.port()), quick());
    ASSERT_TRUE(response) << text << response.error().message;
    EXPECT_EQ(response->text(), "abc");
  }
}

TEST(Client, NobodyThereIsUnreachable) {
  std::uint16_t port = 0;
  {
    port = LyingServer([](int) {}).port();
  }
  const auto response = get(at(port), quick());
  ASSERT_FALSE(response);
  EXPECT_EQ(response.error().code, ErrorCode::unreachable);
  EXPECT_NE(response.error().message.find("no connection: Connection refused"), std::string::npos);
}

// RFC 6761, section 6.3.
TEST(Client, ANameBelowLocalhostIsThisComputer) {
  const auto server = listening();
  const auto answer = get(*parse_url(fmt::format("http://north.localhost:{}/", server->port())), quick());
  ASSERT_TRUE(answer) << answer.error().message;
  EXPECT_EQ(answer->status, 200);
}

TEST(Client, AnUnknownHostIsUnreachableByItsName) {
  const auto response = get(*parse_url("http://no-such-host.invalid/"), quick());
  ASSERT_FALSE(response);
  EXPECT_NE(response.error().message.find("no-such-host.invalid"), std::string::npos);
  EXPECT_TRUE(response.error().code == ErrorCode::unreachable || response.error().code == ErrorCode::timed_out);
}

TEST(Client, APeerThatNeverAnswersIsTimedOut) {
  GetOptions options = quick();
  options.answer_within = Duration::millis(150);
  const Error error = error_of(LyingServer::wait_for_close, options);
  EXPECT_EQ(error.code, ErrorCode::timed_out);
  EXPECT_NE(error.message.find("0.15 s for the whole answer"), std::string::npos) << error.message;
}

TEST(Client, APeerThatDripsForeverIsTimedOutAsAWhole) {
  GetOptions options = quick();
  options.answer_within = Duration::millis(200);
  options.body_bytes_max = std::size_t{1} << 40U;
  const auto drip = [](int socket) {
    LyingServer::read_head(socket);
    LyingServer::write(socket, "HTTP/1.1 200 OK\r\n\r\n");
    while (LyingServer::write(socket, "drip")) std::this_thread::yield();
  };
  EXPECT_EQ(error_of(drip, options).code, ErrorCode::timed_out);
}

TEST(Client, AnEndlessBodyStopsAtTheLimit) {
  const auto flood = [](int socket) {
    LyingServer::read_head(socket);
    LyingServer::write(socket, "HTTP/1.1 200 OK\r\n\r\n");
    while (LyingServer::write(socket, std::string(100, 'x'))) {
    }
  };
  EXPECT_EQ(error_of(flood).code, ErrorCode::too_large);
}

TEST(Client, KeepsTheBodyLimitOnBothSides) {
  for (const char* framing : {"Content-Length: ", "X: "}) {
    const auto with_body = [&](std::size_t bytes) {
      return answering("HTTP/1.1 200 OK\r\n" + std::string(framing) + std::to_string(bytes) + "\r\n\r\n" +
                       std::string(bytes, 'x'));
    };
    const LyingServer server(with_body(1000));
    EXPECT_TRUE(get(at(server.port()), quick()));
    EXPECT_EQ(error_of(with_body(1001)).code, ErrorCode::too_large);
  }
}

TEST(Client, AnEndlessHeadStopsAtTheLimit) {
  const auto flood = [](int socket) {
    LyingServer::read_head(socket);
    LyingServer::write(socket, "HTTP/1.1 200 OK\r\n");
    while (LyingServer::write(socket, "X: " + std::string(1000, 'x') + "\r\n")) {
    }
  };
  EXPECT_EQ(error_of(flood).code, ErrorCode::too_large);
}

TEST(Client, AnEarlyCloseSaysHowMuchIsMissing) {
  const Error counted = error_of(answering("HTTP/1.1 200 OK\r\nContent-Length: 10\r\n\r\nabc"));
  EXPECT_EQ(counted, (Error{ErrorCode::peer_misbehaved, "the line was closed 7 bytes before the end of the body"}));
  EXPECT_EQ(error_of(answering("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n5\r\nabc")).code,
            ErrorCode::peer_misbehaved);
  EXPECT_EQ(error_of(answering("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n3\r\nabc\r\n")).code,
            ErrorCode::peer_misbehaved);
  EXPECT_EQ(error_of(answering("HTTP/1.1 200")).code, ErrorCode::peer_misbehaved);
  EXPECT_EQ(error_of(answering("")).code, ErrorCode::peer_misbehaved);
}

TEST(Client, WhatIsNotHttpIsSaidSo) {
  for (const char* text :
       {"<html>hello</html>\r\n\r\n", "2016-05-23T05:00:00Z|exec|ACTIVE\n* PONG 10000\n* PONG 10000\n",
        "HTTP/1.1 200 OK\r\nContent-Length: x\r\n\r\n",
        "HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n\r\n"}) {
    EXPECT_EQ(error_of(answering(text)).code, ErrorCode::peer_misbehaved) << text;
  }
}

TEST(Client, ARedirectIsNotFollowedButNamed) {
  const Error error =
      error_of(answering("HTTP/1.1 301 Moved Permanently\r\nLocation: http://other/\r\nContent-Length: 0\r\n\r\n"));
  EXPECT_EQ(error.code, ErrorCode::peer_misbehaved);
  EXPECT_NE(error.message.find("http://other/"), std::string::npos);
}

TEST(Client, AnotherThreadCancelsAWait) {
  GetOptions options = quick();
  options.answer_within = Duration::hours(1);
  std::thread canceller;
  const Error error = error_of(
      [&](int socket) {
        LyingServer::read_head(socket);
        canceller = std::thread([token = options.cancel]() mutable { token.cancel(); });
        LyingServer::wait_for_close(socket);
      },
      options);
  canceller.join();
  EXPECT_EQ(error, (Error{ErrorCode::unreachable, "the request was cancelled"}));
  EXPECT_TRUE(options.cancel.cancelled());
}

TEST(Client, ATokenThatIsCancelledBeforehandEndsAtOnce) {
  GetOptions options = quick();
  options.cancel.cancel();
  EXPECT_EQ(error_of([](int) {}, options).message, "connecting: the request was cancelled");
}

struct LastPart : PartSink {
  std::string text;
  int ended = 0;
  Result<void> begin(const Headers&) override {
    text.clear();
    return {};
  }
  Result<void> data(std::string_view piece) override {
    text += piece;
    return {};
  }
  Result<void> end() override {
    ++ended;
    return {};
  }
};

constexpr const char* stream_head =
    "HTTP/1.1 200 OK\r\nContent-Type: multipart/x-mixed-replace;boundary=XX\r\nTransfer-Encoding: chunked\r\n\r\n";

TEST(ClientStream, CarriesPartsAsTheyCome) {
  std::mutex mutex;
  std::condition_variable condition;
  int parts_seen = 0;
  // The second part is sent only once the first has arrived as a whole: nothing is held back.
  const LyingServer server([&](int socket) {
    LyingServer::read_head(socket);
    LyingServer::write(socket, std::string(stream_head) + "22\r\n--XX\r\nContent-length: 5\r\n\r\nfirst\r\n\r\n");
    std::unique_lock lock(mutex);
    condition.wait_for(lock, patience, [&] { return parts_seen == 1; });
    LyingServer::write(socket, "23\r\n--XX\r\nContent-length: 6\r\n\r\nsecond\r\n\r\n0\r\n\r\n");
  });
  LastPart sink;
  std::optional<MultipartReader> reader;
  const auto done = get_stream(
      at(server.port()), {},
      [&](int status, const Headers& headers) -> Result<void> {
        EXPECT_EQ(status, 200);
        reader.emplace(*parse_boundary(*headers.find("Content-Type")), sink);
        return {};
      },
      [&](std::string_view piece) {
        const auto fed = reader->feed(piece);
        const std::lock_guard lock(mutex);
        parts_seen = sink.ended;
        condition.notify_one();
        return fed;
      });
  EXPECT_TRUE(done) << done.error().message;
  EXPECT_EQ(sink.ended, 2);
  EXPECT_EQ(sink.text, "second");
}

Result<void> takes_all(std::string_view) { return {}; }
Result<void> any_head(int, const Headers&) { return {}; }

TEST(ClientStream, SilenceEndsIt) {
  StreamOptions options;
  options.silence_max = Duration::millis(150);
  for (const char* begin : {"", stream_head}) {
    const LyingServer server([&](int socket) {
      LyingServer::read_head(socket);
      LyingServer::write(socket, begin);
      LyingServer::wait_for_close(socket);
    });
    const auto done = get_stream(at(server.port()), options, any_head, takes_all);
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, ErrorCode::timed_out);
    EXPECT_NE(done.error().message.find("0.15 s of silence"), std::string::npos) << done.error().message;
  }
}

TEST(ClientStream, ACallbacksErrorEndsItAsItIs) {
  const LyingServer server(answering(std::string(stream_head) + "3\r\nabc\r\n"));
  const Error mine{ErrorCode::conflict, "mine"};
  const auto refused_head = get_stream(
      at(server.port()), {}, [&](int, const Headers&) -> Result<void> { return refuse(mine); }, takes_all);
  const auto refused_data =
      get_stream(at(server.port()), {}, any_head, [&](std::string_view) -> Result<void> { return refuse(mine); });
  ASSERT_FALSE(refused_head);
  ASSERT_FALSE(refused_data);
  EXPECT_EQ(refused_head.error(), mine);
  EXPECT_EQ(refused_data.error(), mine);
}

TEST(ClientStream, CancellingEndsAStreamThatFlows) {
  StreamOptions options;
  const LyingServer server([](int socket) {
    LyingServer::read_head(socket);
    LyingServer::write(socket, "HTTP/1.1 200 OK\r\n\r\n");
    while (LyingServer::write(socket, std::string(1000, 'x'))) {
    }
  });
  std::size_t pieces = 0;
  const auto done = get_stream(at(server.port()), options, any_head, [&](std::string_view piece) -> Result<void> {
    EXPECT_LE(piece.size(), 65536U);
    if (++pieces == 3) options.cancel.cancel();
    return {};
  });
  ASSERT_FALSE(done);
  EXPECT_NE(done.error().message.find("was cancelled"), std::string::npos);
  EXPECT_EQ(pieces, 3U);
}

TEST(ClientStream, ABrokenStreamSaysSo) {
  const LyingServer server(answering(std::string(stream_head) + "5\r\nabc"));
  const auto done = get_stream(at(server.port()), {}, any_head, takes_all);
  ASSERT_FALSE(done);
  EXPECT_EQ(done.error().code, ErrorCode::peer_misbehaved);
}

}  // namespace
}  // namespace hw::http
