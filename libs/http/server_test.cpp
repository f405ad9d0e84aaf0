#include "libs/http/server.h"

#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>

#include "libs/http/listening_test.h"

namespace hw::http {
namespace {

TEST(Server, AnswersOneRequestAfterAnotherOnOneLine) {
  const auto server = listening();
  RawClient client(server->port());
  for (const char* path : {"/a", "/b"}) {
    client.send(get_text(path));
    std::string body;
    const std::string head = client.read_response(&body);
    EXPECT_EQ(status_line_of(head), "HTTP/1.1 200 OK");
    EXPECT_NE(head.find("Connection: keep-alive\r\n"), std::string::npos);
    EXPECT_NE(head.find("X-Content-Type-Options: nosniff\r\n"), std::string::npos);
    EXPECT_EQ(body, std::string("GET ") + path + " ");
  }
  EXPECT_EQ(server->connections(), 1U);
}

TEST(Server, AnswersPipelinedRequestsInOrder) {
  const auto server = listening();
  RawClient client(server->port());
  std::string all;
  for (int i = 0; i < 50; ++i) all += get_text("/" + std::to_string(i));
  client.send(all);
  for (int i = 0; i < 50; ++i) {
    std::string body;
    client.read_response(&body);
    EXPECT_EQ(body, "GET /" + std::to_string(i) + " ");
  }
}

TEST(Server, ClosesWhereTheClientWantsIt) {
  const auto server = listening();
  for (const std::string& text : {get_text("/x", "Connection: close\r\n"), std::string("GET /x HTTP/1.0\r\n\r\n")}) {
    RawClient client(server->port());
    client.send(text);
    const std::string all = client.read_all();
    EXPECT_NE(all.find("Connection: close\r\n"), std::string::npos);
    EXPECT_TRUE(all.ends_with("\r\n\r\nGET /x "));
  }
}

TEST(Server, HeadHasTheLengthButNotTheBody) {
  const auto server = listening();
  RawClient client(server->port());
  client.send("HEAD /x HTTP/1.1\r\nHost: h\r\n\r\n" + get_text("/y"));
  EXPECT_NE(client.read_response(nullptr, false).find("Content-Length: 8\r\n"), std::string::npos);
  std::string body;
  client.read_response(&body);
  EXPECT_EQ(body, "GET /y ");
}

TEST(Server, NoContentAndNotModifiedHaveNoBody) {
  const auto server = listening({}, [](const Request& request) {
    Response response = Response::of(request.path == "/204" ? 204 : 304, "text/plain", "must not be sent");
    return response;
  });
  RawClient client(server->port());
  for (const char* path : {"/204", "/304"}) {
    client.send(get_text(path));
    const std::string head = client.read_response();
    EXPECT_EQ(head.find("Content-Length"), std::string::npos);
    EXPECT_EQ(head.substr(9, 3), std::string(path).substr(1));
  }
}

TEST(Server, TellsTheHandlerWhoAsks) {
  const auto server = listening({}, [](const Request& request) { return Response::json(request.remote_address); });
  RawClient client(server->port());
  client.send(get_text("/"));
  std::string body;
  client.read_response(&body);
  EXPECT_EQ(body, "127.0.0.1");
}

TEST(Server, TakesABodyUpToTheLimit) {
  ServerOptions options;
  options.body_bytes_max = 100'000;
  const auto server = listening(options);
  const auto status_for = [&](std::size_t bytes) {
    RawClient client(server->port());
    client.send("PUT /x HTTP/1.1\r\nHost: h\r\nContent-Length: " + std::to_string(bytes) + "\r\n\r\n" +
                std::string(bytes, 'b'));
    std::string body;
    const std::string head = client.read_response(&body);
    return status_line_of(head);
  };
  EXPECT_EQ(status_for(100'000), "HTTP/1.1 200 OK");
  EXPECT_EQ(status_for(100'001), "HTTP/1.1 413 Content Too Large");
  // A client that goes on sending still gets to read why.
  EXPECT_EQ(status_for(800'000), "HTTP/1.1 413 Content Too Large");
}

TEST(Server, AsksForTheBodyOfAClientThatWaitsToBeAsked) {
  const auto server = listening();
  RawClient client(server->port());
  client.send("PUT /x HTTP/1.1\r\nHost: h\r\nContent-Length: 3\r\nExpect: 100-continue\r\n\r\n");
  EXPECT_EQ(client.read_through("\r\n\r\n"), "HTTP/1.1 100 Continue\r\n\r\n");
  client.send("abc");
  std::string body;
  client.read_response(&body);
  EXPECT_EQ(body, "PUT /x abc");
}

TEST(Server, RefusesAbuseWithAProblemAndCloses) {
  ServerOptions options;
  options.body_bytes_max = 10;
  const auto server = listening(options);
  const std::string long_text(20'000, 'x');
  const std::vector<std::pair<std::string, std::string>> cases = {
      {"nonsense\r\n\r\n", "400"},
      {get_text("/", "Content-Length: 1\r\nTransfer-Encoding: chunked\r\n"), "400"},
      {get_text("/", "X: y\r\n z\r\n"), "400"},
      {get_text("/../etc"), "400"},
      {get_text("/", "Content-Length: 11\r\n"), "413"},
      {get_text("/" + long_text), "414"},
      {get_text("/", "Expect: more\r\n"), "417"},
      {get_text("/", "X: " + long_text + "\r\n"), "431"},
      {get_text("/", "Transfer-Encoding: gzip\r\n"), "501"},
      {"GET / HTTP/3.0\r\n\r\n", "505"},
  };
  for (const auto& [text, status] : cases) {
    RawClient client(server->port());
    client.send(text);
    const std::string all = client.read_all();
    EXPECT_TRUE(all.starts_with("HTTP/1.1 " + status + " ")) << status << " " << all.substr(0, 60);
    EXPECT_NE(all.find("\r\nConnection: close\r\n"), std::string::npos);
    EXPECT_NE(all.find("\"status\":" + status), std::string::npos);
  }
}

TEST(Server, AnswersWhatCameBeforeASmuggledRequestAndNothingAfter) {
  std::atomic<int> handled = 0;
  const auto server = listening({}, [&](const Request& request) {
    ++handled;
    return echo(request);
  });
  RawClient client(server->port());
  client.send(get_text("/ok") +
              "POST / HTTP/1.1\r\nHost: h\r\nContent-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n" +
              get_text("/smuggled"));
  const std::string all = client.read_all();
  EXPECT_NE(all.find("GET /ok"), std::string::npos);
  EXPECT_NE(all.find("HTTP/1.1 400 "), std::string::npos);
  EXPECT_EQ(handled, 1);
}

TEST(Server, GivesUpOnHeadsAndBodiesThatDoNotCome) {
  ServerOptions options;
  options.head_within = Duration::millis(100);
  options.body_within = Duration::millis(100);
  const auto server = listening(options);
  for (const std::string& text : {std::string("GET / HT"), get_text("/", "Content-Length: 5\r\n") + "abc"}) {
    RawClient client(server->port());
    client.send(text);
    EXPECT_TRUE(client.read_all().starts_with("HTTP/1.1 408 Request Timeout\r\n"));
  }
}

TEST(Server, ClosesIdleLinesWithoutAWord) {
  ServerOptions options;
  options.idle_max = Duration::millis(100);
  const auto server = listening(options);
  RawClient silent(server->port());
  RawClient once(server->port());
  once.send(get_text("/"));
  once.read_response();
  EXPECT_EQ(once.read_all(), "");
  EXPECT_EQ(silent.read_all(), "");
  EXPECT_TRUE(comes_true([&] { return server->connections() == 0; }));
}

TEST(Server, AClientThatDoesNotReadIsCutOff) {
  ServerOptions options;
  options.write_within = Duration::millis(150);
  const auto big = std::make_shared<const std::string>(64 * 1024 * 1024, 'x');
  const auto server = listening(options, [&](const Request&) {
    Response response = Response::of(200, "text/plain", "");
    response.body = big;
    return response;
  });
  RawClient client(server->port(), 4096);
  client.send(get_text("/"));
  EXPECT_TRUE(comes_true([&] { return server->connections() == 1; }));
  EXPECT_TRUE(comes_true([&] { return server->connections() == 0; }));
  EXPECT_LT(client.read_all().size(), big->size());
}

TEST(Server, SlowClientsAndSlowHandlersDoNotHoldUpOthers) {
  Gate gate;
  ServerOptions options;
  options.workers = 2;
  const auto server = listening(options, [&](const Request& request) {
    if (request.path == "/slow") gate.wait();
    return echo(request);
  });
  RawClient half(server->port());
  half.send("GET /half HTTP/1.1\r\nHo");
  RawClient slow(server->port());
  slow.send(get_text("/slow"));
  ASSERT_TRUE(comes_true([&] { return gate.waiting() == 1; }));
  RawClient other(server->port());
  std::string body;
  other.send(get_text("/fast"));
  other.read_response(&body);
  EXPECT_EQ(body, "GET /fast ");
  gate.open();
  slow.read_response(&body);
  EXPECT_EQ(body, "GET /slow ");
  half.send("st: h\r\n\r\n");
  half.read_response(&body);
  EXPECT_EQ(body, "GET /half ");
}

TEST(Server, AHandlerThatThrowsIsAnswered500AndReported) {
  std::mutex mutex;
  std::string reported;
  ServerOptions options;
  options.report = [&](std::string_view sentence) {
    const std::lock_guard lock(mutex);
    reported = sentence;
  };
  const auto server =
      listening(options, [](const Request&) -> Response { throw std::runtime_error("the disk is full"); });
  RawClient client(server->port());
  client.send(get_text("/x"));
  std::string body;
  EXPECT_EQ(status_line_of(client.read_response(&body)), "HTTP/1.1 500 Internal Server Error");
  EXPECT_EQ(body.find("disk"), std::string::npos);
  const std::lock_guard lock(mutex);
  EXPECT_EQ(reported, "GET /x failed: the disk is full");
}

TEST(Server, TwoHundredConnectionsAtOnce) {
  const auto server = listening();
  std::vector<std::unique_ptr<RawClient>> clients;
  for (int i = 0; i < 200; ++i) clients.push_back(std::make_unique<RawClient>(server->port()));
  EXPECT_TRUE(comes_true([&] { return server->connections() == 200; }));
  for (int round = 0; round < 3; ++round) {
    for (std::size_t i = 0; i < clients.size(); ++i) clients[i]->send(get_text("/" + std::to_string(i)));
    for (std::size_t i = 0; i < clients.size(); ++i) {
      std::string body;
      clients[i]->read_response(&body);
      EXPECT_EQ(body, "GET /" + std::to_string(i) + " ");
    }
  }
}

TEST(Server, TurnsAwayWhoIsTooMany) {
  ServerOptions options;
  options.connections_max = 2;
  const auto server = listening(options);
  RawClient first(server->port());
  RawClient second(server->port());
  ASSERT_TRUE(comes_true([&] { return server->connections() == 2; }));
  RawClient third(server->port());
  third.send(get_text("/"));
  EXPECT_TRUE(third.read_all().starts_with("HTTP/1.1 503 Service Unavailable\r\n"));
  first.close();
  third.close();
  ASSERT_TRUE(comes_true([&] { return server->connections() == 1; }));
  RawClient fourth(server->port());
  fourth.send(get_text("/"));
  EXPECT_EQ(status_line_of(fourth.read_response()), "HTTP/1.1 200 OK");
}

TEST(Server, APortInUseIsOneClearSentence) {
  const auto server = listening();
  ServerOptions options;
  options.port = server->port();
  const auto second = Server::listen(options, echo);
  ASSERT_FALSE(second);
  EXPECT_EQ(second.error(), (Error{ErrorCode::in_use, "port " + std::to_string(server->port()) +
                                                          " of 127.0.0.1 is in use by another program; end that one "
                                                          "or choose another port"}));
}

TEST(Server, WrongAddressesAreRefusedByName) {
  for (const char* address : {"localhost:80", "", "203.0.113.7"}) {
    ServerOptions options;
    options.address = address;
    const auto server = Server::listen(options, echo);
    ASSERT_FALSE(server) << address;
    EXPECT_EQ(server.error().code, ErrorCode::bad_input);
    EXPECT_NE(server.error().message.find(address), std::string::npos);
  }
}

TEST(Server, SendsFilesAndSaysWhenTheyAreGone) {
  const auto path = std::filesystem::temp_directory_path() / ("hw_file_" + std::to_string(::getpid()));
  std::string bytes(300'000, '\0');
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<char>(i * 7);
  std::ofstream(path, std::ios::binary) << bytes;
  const auto server = listening({}, [&](const Request&) { return Response::file("image/jpeg", path); });
  RawClient client(server->port());
  client.send("HEAD / HTTP/1.1\r\nHost: h\r\n\r\n" + get_text("/"));
  EXPECT_NE(client.read_response(nullptr, false).find("Content-Length: 300000\r\n"), std::string::npos);
  std::string body;
  client.read_response(&body);
  EXPECT_EQ(body, bytes);
  std::filesystem::remove(path);
  client.send(get_text("/"));
  EXPECT_EQ(status_line_of(client.read_response()), "HTTP/1.1 404 Not Found");
}

}  // namespace
}  // namespace hw::http
