#include "src/web/forwarding.h"

#include <atomic>
#include <condition_variable>
#include <mutex>
#include <thread>

#include <gtest/gtest.h>

#include "libs/http/server.h"

namespace hw::web {
namespace {

http::Request request_with(std::string secret) {
  http::Request request;
  request.method = "GET";
  request.target = request.path = "/api/shop";
  request.headers = {{"Host", "north.shops.example"},
                     {"X-Hourwright-Server", std::move(secret)},
                     {"X-Hourwright-Remote", "192.0.2.7"},
                     {"X-Hourwright-Line", "tls"}};
  request.remote_address = "127.0.0.1";
  return request;
}

TEST(Forwarding, WhatAServerOfTheGroupSaysOfTheClientIsBelieved) {
  http::Request request = request_with("secret");
  EXPECT_TRUE(take_forwarded(request, "secret"));
  EXPECT_EQ(request.remote_address, "192.0.2.7");
  EXPECT_TRUE(request.is_tls);
  EXPECT_EQ(request.headers.find("X-Hourwright-Server"), std::nullopt) << "nobody behind sees the secret";
}

TEST(Forwarding, NobodyElseIs) {
  for (const char* secret : {"", "secre", "secret2", "Secret"}) {
    http::Request request = request_with(secret);
    EXPECT_FALSE(take_forwarded(request, "secret")) << secret;
    EXPECT_EQ(request.remote_address, "127.0.0.1");
    EXPECT_FALSE(request.is_tls);
    EXPECT_EQ(request.headers.find("X-Hourwright-Remote"), std::nullopt);
  }
  http::Request request = request_with("");
  EXPECT_FALSE(take_forwarded(request, "")) << "no secret is none";
}

TEST(Forwarding, TheHolderGetsWhatTheClientSentAndTheClientWhatItAnswers) {
  http::Request seen;
  const auto holder = http::Server::listen({}, [&](http::Request request) {
    seen = std::move(request);
    http::Response answer = http::Response::of(409, "text/plain", "so it is");
    answer.headers.add("ETag", "\"7\"");
    return answer;
  });
  ASSERT_TRUE(holder);
  http::Request request = request_with("client's");
  request.method = "POST";
  request.target = "/api/machines/m%201?x=%C3%BC";
  request.body = "{\"id\":1}";
  request.remote_address = "192.0.2.7";
  request.headers.set("X-Hourwright-Server", "guessed");
  request.headers.set("Cookie", "hourwright_session=s");
  Forwarding forwarding;
  const auto answer =
      forwarding.forward(request, {"a", fmt::format("http://127.0.0.1:{}", (*holder)->port()), "the holder's secret"});
  EXPECT_EQ(answer.status, 409);
  EXPECT_EQ(answer.text(), "so it is");
  EXPECT_EQ(answer.headers.find("ETag"), "\"7\"");
  EXPECT_EQ(answer.headers.find("Content-Length"), std::nullopt) << "the server's own affair";
  EXPECT_EQ(seen.method, "POST");
  EXPECT_EQ(seen.target, request.target);
  EXPECT_EQ(seen.body, request.body);
  EXPECT_EQ(seen.headers.find("Host"), "north.shops.example");
  EXPECT_EQ(seen.headers.find("Cookie"), "hourwright_session=s");
  ASSERT_TRUE(take_forwarded(seen, "the holder's secret"));
  EXPECT_EQ(seen.remote_address, "192.0.2.7");
  EXPECT_FALSE(seen.is_tls);
}

TEST(Forwarding, AHolderThatDoesNotAnswerMeansTryAgainSoon) {
  for (const char* address : {"", "http://127.0.0.1:1"}) {
    for (const char* accept : {"application/json", "text/event-stream"}) {
      http::Request request = request_with("");
      request.headers.set("Accept", accept);
      Forwarding forwarding;
      const auto answer = forwarding.forward(request, {"a", address, "s"});
      EXPECT_EQ(answer.status, 503);
      EXPECT_EQ(answer.headers.find("Retry-After"), "2");
    }
  }
}

// A server that has stopped takes the connection and says nothing.
TEST(Forwarding, OnlySoManyWaitForAServerThatDoesNotAnswer) {
  std::mutex mutex;
  std::condition_variable wake;
  bool is_going_on = false;
  int waiting = 0;
  http::ServerOptions options;
  options.workers = 8;
  const auto holder = http::Server::listen(options, [&](const http::Request&) {
    std::unique_lock lock(mutex);
    ++waiting;
    wake.notify_all();
    wake.wait(lock, [&] { return is_going_on; });
    return http::Response::of(200, "text/plain", "at last");
  });
  ASSERT_TRUE(holder);
  const service::PlantHolder stopped{"a", fmt::format("http://127.0.0.1:{}", (*holder)->port()), "s"};
  Forwarding forwarding;
  std::vector<std::thread> clients;
  std::atomic<int> answered = 0;
  constexpr int places = 6;
  for (int n = 0; n < places; ++n) {
    clients.emplace_back([&] { answered += forwarding.forward(request_with(""), stopped).status == 200 ? 1 : 0; });
  }
  {
    std::unique_lock lock(mutex);
    wake.wait(lock, [&] { return waiting == places; });
  }
  EXPECT_EQ(forwarding.forward(request_with(""), stopped).status, 503) << "at once";
  EXPECT_EQ(forwarding.forward(request_with(""), {"b", "http://127.0.0.1:1", "s"}).status, 503);
  {
    const std::lock_guard lock(mutex);
    is_going_on = true;
  }
  wake.notify_all();
  for (auto& client : clients) client.join();
  EXPECT_EQ(answered, places);
  EXPECT_EQ(forwarding.forward(request_with(""), stopped).status, 200) << "there is room again";
}

}  // namespace
}  // namespace hw::web
