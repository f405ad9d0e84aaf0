#include "libs/http/event_stream.h"

#include <atomic>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

namespace hw::http {
namespace {

TEST(Event, HasOneDataLineForEachLine) {
  EXPECT_EQ(print({"hours", "{}", "7"}), "event: hours\nid: 7\ndata: {}\n\n");
  EXPECT_EQ(print({"", "a\nb\r\nc\rd", ""}), "data: a\ndata: b\ndata: c\ndata: d\n\n");
  EXPECT_EQ(print({"", "", ""}), "data: \n\n");
}

TEST(Channel, AllSubscribersGetAllEventsInOrder) {
  Channel channel;
  const auto a = channel.subscribe();
  const auto b = channel.subscribe();
  channel.publish({"", "1", ""});
  channel.publish({"", "2", ""});
  EXPECT_EQ(a->take(), "data: 1\n\ndata: 2\n\n");
  EXPECT_EQ(a->take(), "");
  EXPECT_EQ(b->take(), "data: 1\n\ndata: 2\n\n");
}

TEST(Channel, ASlowSubscriberGetsResyncAndWhatComesAfter) {
  Channel channel({.events_max = 3, .bytes_max = 1000});
  const auto slow = channel.subscribe();
  for (const char* data : {"1", "2", "3"}) channel.publish({"", data, ""});
  EXPECT_EQ(slow->take(), "data: 1\n\ndata: 2\n\ndata: 3\n\n");
  for (const char* data : {"4", "5", "6", "7", "8"}) channel.publish({"", data, ""});
  EXPECT_EQ(slow->take(), "event: resync\ndata: {}\n\ndata: 8\n\n");
}

TEST(Channel, BytesAreBoundedAsWell) {
  Channel channel({.events_max = 1000, .bytes_max = 100});
  const auto slow = channel.subscribe();
  channel.publish({"", std::string(100 - 8, 'x'), ""});  // "data: " and two line ends are 8 bytes
  EXPECT_EQ(slow->take().size(), 100U);
  channel.publish({"", std::string(100 - 7, 'x'), ""});
  EXPECT_EQ(slow->take(), "event: resync\ndata: {}\n\n");
}

TEST(Channel, WakesOncePerTake) {
  Channel channel;
  const auto subscription = channel.subscribe();
  int wakes = 0;
  channel.publish({"", "before", ""});
  subscription->on_wake([&] { ++wakes; });
  EXPECT_EQ(wakes, 1);
  channel.publish({"", "more", ""});
  EXPECT_EQ(wakes, 1);
  subscription->take();
  channel.publish({"", "again", ""});
  EXPECT_EQ(wakes, 2);
  subscription->on_wake({});
  channel.publish({"", "unheard", ""});
  EXPECT_EQ(wakes, 2);
}

TEST(Channel, ClosingEndsPresentAndLaterStreams) {
  std::shared_ptr<Subscription> early;
  {
    Channel channel;
    early = channel.subscribe();
    channel.publish({"", "last", ""});
    channel.close();
    EXPECT_TRUE(channel.subscribe()->closed());
  }
  EXPECT_TRUE(early->closed());
  EXPECT_EQ(early->take(), "data: last\n\n");
}

TEST(Channel, PresentStreamsCanBeEndedWhileLaterOnesGoOn) {
  Channel channel;
  const auto early = channel.subscribe();
  channel.end_streams();
  EXPECT_TRUE(early->closed());
  const auto late = channel.subscribe();
  EXPECT_FALSE(late->closed());
  channel.publish({"hours", "{}", ""});
  EXPECT_NE(late->take(), "");
}

TEST(Channel, ForgetsWhoIsGone) {
  Channel channel;
  auto one = channel.subscribe();
  EXPECT_EQ(channel.subscribers(), 1U);
  one.reset();
  EXPECT_EQ(channel.subscribers(), 0U);
}

TEST(Channel, SurvivesManyPublishersAndSubscribersThatComeAndGo) {
  Channel channel({.events_max = 50, .bytes_max = 10'000});
  std::atomic<bool> is_over = false;
  std::vector<std::thread> threads;
  for (int i = 0; i < 3; ++i) {
    threads.emplace_back([&] {
      for (int n = 0; n < 2000; ++n) channel.publish({"", std::to_string(n), ""});
    });
  }
  std::thread listener([&] {
    while (!is_over) {
      const auto subscription = channel.subscribe();
      std::atomic<int> wakes = 0;
      subscription->on_wake([&] { ++wakes; });
      EXPECT_LE(subscription->take().size(), 10'100U);
      subscription->on_wake({});
    }
  });
  for (std::thread& thread : threads) thread.join();
  is_over = true;
  listener.join();
  EXPECT_EQ(channel.subscribers(), 0U);
}

}  // namespace
}  // namespace hw::http
