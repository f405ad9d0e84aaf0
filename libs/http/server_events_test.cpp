#include <mutex>

#include <gtest/gtest.h>

#include "libs/http/event_stream.h"
#include "libs/http/listening_test.h"
#include "libs/http/server.h"

namespace hw::http {
namespace {

TEST(ServerEvents, ArriveAsTheyArePublished) {
  Channel channel;
  const auto server = listening({}, [&](const Request&) { return Response::events(channel.subscribe()); });
  RawClient client(server->port());
  client.send(get_text("/"));
  const std::string head = client.read_through("\r\n\r\n");
  EXPECT_NE(head.find("Content-Type: text/event-stream\r\n"), std::string::npos);
  EXPECT_NE(head.find("Cache-Control: no-store\r\n"), std::string::npos);
  for (const char* data : {"1", "2"}) {
    channel.publish({"hours", data, ""});
    EXPECT_EQ(client.read_through("\n\n"), std::string("event: hours\ndata: ") + data + "\n\n");
  }
}

TEST(ServerEvents, ASilentStreamShowsItsHeartbeat) {
  Channel channel;
  ServerOptions options;
  options.heartbeat = Duration::millis(50);
  const auto server = listening(options, [&](const Request&) { return Response::events(channel.subscribe()); });
  RawClient client(server->port());
  client.send(get_text("/"));
  client.read_through("\r\n\r\n");
  EXPECT_EQ(client.read_through("\n\n"), ":\n\n");
  EXPECT_EQ(client.read_through("\n\n"), ":\n\n");
  channel.publish({"", "x", ""});
  EXPECT_NE(client.read_through("data: x\n\n").find("data: x\n\n"), std::string::npos);
}

TEST(ServerEvents, ASlowSubscriberHoldsNobodyUpAndIsToldToFetchAfresh) {
  Channel channel({.events_max = 20, .bytes_max = 200'000});
  const auto server = listening({}, [&](const Request&) { return Response::events(channel.subscribe()); });
  RawClient slow(server->port(), 4096);
  RawClient quick(server->port());
  slow.send(get_text("/"));
  quick.send(get_text("/"));
  slow.read_through("\r\n\r\n");
  quick.read_through("\r\n\r\n");
  const std::string big(10'000, 'x');
  for (int i = 0; i < 3000; ++i) {
    channel.publish({"", big + std::to_string(i), ""});
    // The quick one reads along; more than the limits would be lost for it as well.
    EXPECT_EQ(quick.read_through("\n\n"), "data: " + big + std::to_string(i) + "\n\n");
  }
  const std::string seen = slow.read_through("event: resync\ndata: {}\n\n");
  EXPECT_TRUE(seen.ends_with("event: resync\ndata: {}\n\n"));
  EXPECT_LT(seen.size(), std::size_t{20'000'000});
  channel.publish({"", "afresh", ""});
  EXPECT_TRUE(slow.read_through("data: afresh\n\n").ends_with("data: afresh\n\n"));
}

TEST(ServerEvents, ASubscriberThatGoesIsForgotten) {
  Channel channel;
  const auto server = listening({}, [&](const Request&) { return Response::events(channel.subscribe()); });
  RawClient client(server->port());
  client.send(get_text("/"));
  client.read_through("\r\n\r\n");
  EXPECT_EQ(channel.subscribers(), 1U);
  client.close();
  EXPECT_TRUE(comes_true([&] { return channel.subscribers() == 0; }));
}

TEST(ServerEvents, ClosingTheChannelEndsTheStream) {
  Channel channel;
  const auto server = listening({}, [&](const Request&) { return Response::events(channel.subscribe()); });
  RawClient client(server->port());
  client.send(get_text("/"));
  client.read_through("\r\n\r\n");
  channel.publish({"", "bye", ""});
  channel.close();
  EXPECT_EQ(client.read_all(), "data: bye\n\n");
}

// Gives what it is filled with, as an agent's stream would.
class Tap : public ByteStream {
 public:
  std::string take() override {
    const std::lock_guard lock(mutex_);
    return std::exchange(waiting_, {});
  }
  bool closed() const override {
    const std::lock_guard lock(mutex_);
    return is_closed_;
  }
  void on_wake(std::function<void()> wake) override {
    const std::lock_guard lock(mutex_);
    wake_ = std::move(wake);
    if (wake_ && (!waiting_.empty() || is_closed_)) wake_();
  }
  void fill(std::string_view bytes, bool is_last = false) {
    const std::lock_guard lock(mutex_);
    waiting_ += bytes;
    is_closed_ = is_last;
    if (wake_) wake_();
  }

 private:
  mutable std::mutex mutex_;
  std::string waiting_;
  bool is_closed_ = false;
  std::function<void()> wake_;
};

TEST(ServerStream, SendsWhatThereIsAsChunks) {
  const auto tap = std::make_shared<Tap>();
  ServerOptions options;
  options.heartbeat = Duration::millis(20);
  const auto server = listening(options, [&](const Request&) { return Response::stream("text/plain", tap); });
  RawClient client(server->port());
  client.send(get_text("/"));
  EXPECT_NE(client.read_through("\r\n\r\n").find("Transfer-Encoding: chunked\r\n"), std::string::npos);
  tap->fill("first");
  EXPECT_EQ(client.read_through("first\r\n"), "5\r\nfirst\r\n");
  tap->fill("the second one", true);
  EXPECT_EQ(client.read_all(), "e\r\nthe second one\r\n0\r\n\r\n");
}

}  // namespace
}  // namespace hw::http
