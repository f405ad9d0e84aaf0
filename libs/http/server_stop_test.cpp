#include <thread>

#include <gtest/gtest.h>

#include "libs/http/event_stream.h"
#include "libs/http/listening_test.h"
#include "libs/http/server.h"

namespace hw::http {
namespace {

TEST(ServerStop, EndsEventStreamsAndIdleLines) {
  Channel channel;
  const auto server = listening({}, [&](const Request&) { return Response::events(channel.subscribe()); });
  RawClient idle(server->port());
  RawClient listener(server->port());
  listener.send(get_text("/"));
  listener.read_through("\r\n\r\n");
  std::thread stopper([&] { server->stop(); });
  EXPECT_EQ(listener.read_all(), "");
  EXPECT_EQ(idle.read_all(), "");
  listener.close();
  stopper.join();
  EXPECT_EQ(server->connections(), 0U);
  EXPECT_EQ(channel.subscribers(), 0U);
}

TEST(ServerStop, AnswersWhatIsInWork) {
  Gate gate;
  const auto server = listening({}, [&](const Request& request) {
    gate.wait();
    return echo(request);
  });
  RawClient client(server->port());
  client.send(get_text("/work"));
  ASSERT_TRUE(comes_true([&] { return gate.waiting() == 1; }));
  RawClient idle(server->port());
  std::thread stopper([&] { server->stop(); });
  EXPECT_EQ(idle.read_all(), "");  // the stop has begun
  gate.open();
  std::string body;
  const std::string head = client.read_response(&body);
  EXPECT_EQ(body, "GET /work ");
  EXPECT_NE(head.find("Connection: close\r\n"), std::string::npos);
  client.close();
  stopper.join();
}

TEST(ServerStop, DoesNotWaitForThoseWhoNeverFinish) {
  ServerOptions options;
  options.stop_within = Duration::millis(100);
  const auto server = listening(options);
  RawClient client(server->port());
  client.send("GET / HT");
  RawClient witness(server->port());
  witness.send(get_text("/"));
  witness.read_response();
  server->stop();
  EXPECT_EQ(client.read_all(), "");
}

TEST(ServerStop, UnderLoadLosesNoAnswer) {
  std::atomic<int> handled = 0;
  std::atomic<int> answered = 0;
  std::atomic<int> broken = 0;
  const auto server = listening({}, [&](const Request& request) {
    ++handled;
    return echo(request);
  });
  std::vector<std::thread> threads;
  for (int i = 0; i < 8; ++i) {
    threads.emplace_back([&] {
      RawClient client(server->port());
      for (;;) {
        std::string body;
        if (!client.send(get_text("/load"))) return;
        const std::string head = client.read_response(&body);
        if (head.empty()) return;
        ++(body == "GET /load " ? answered : broken);
        if (head.find("Connection: close") != std::string::npos) return;
      }
    });
  }
  EXPECT_TRUE(comes_true([&] { return answered > 500; }));
  server->stop();
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(broken, 0);
  EXPECT_EQ(handled, answered);
}

TEST(ServerStop, TwiceAndFromTheDestructorIsHarmless) {
  const auto server = listening();
  server->stop();
  server->stop();
}

}  // namespace
}  // namespace hw::http
