#include "libs/mqtt/client.h"

#include <condition_variable>
#include <cstdlib>
#include <fstream>
#include <mutex>
#include <vector>

#include <gtest/gtest.h>

#include "tests/mqtt/private_broker.h"

namespace hw::mqtt {
namespace {

using mqtt_tests::PrivateBroker;

// What was heard, and waiting for it.
class Ear {
 public:
  Hearing hearing() {
    return {[this](const Message& message) {
              const std::lock_guard lock(mutex_);
              heard_.push_back(
                  fmt::format("{} {}{}", message.topic, message.payload, message.is_retained ? " retained" : ""));
              wake_.notify_all();
            },
            [this](const std::string& why) {
              const std::lock_guard lock(mutex_);
              lost_ = why;
              wake_.notify_all();
            }};
  }
  std::vector<std::string> wait_for(std::size_t count) {
    std::unique_lock lock(mutex_);
    wake_.wait_for(lock, patience, [&] { return heard_.size() >= count; });
    return heard_;
  }
  std::string wait_for_loss() {
    std::unique_lock lock(mutex_);
    wake_.wait_for(lock, patience, [&] { return !lost_.empty(); });
    return lost_;
  }

 private:
  static constexpr std::chrono::seconds patience{60};
  std::mutex mutex_;
  std::condition_variable wake_;
  std::vector<std::string> heard_;
  std::string lost_;
};

BrokerUrl url_of(const std::string& text) {
  const auto url = parse_broker_url(text);
  EXPECT_TRUE(url) << url.error().message;
  return url.value_or(BrokerUrl{});
}

const std::vector<std::string> everything{"hw/#"};

class OverVersion : public ::testing::TestWithParam<std::string> {};
INSTANTIATE_TEST_SUITE_P(Client, OverVersion, ::testing::Values("5", "3.1.1"));

TEST_P(OverVersion, MessagesArriveInOrderAndRetainedOnesLater) {
  const PrivateBroker broker;
  const BrokerUrl url = url_of(broker.url("?version=" + GetParam()));
  Ear first, second;
  Client one(url, {}, first.hearing());
  ASSERT_TRUE(one.connect());
  EXPECT_TRUE(one.is_connected());
  ASSERT_TRUE(one.subscribe(everything));
  ASSERT_TRUE(one.publish("hw/a", "1", Retained::no));
  ASSERT_TRUE(one.publish("hw/b", "2", Retained::yes));
  ASSERT_TRUE(one.publish("hw/a", std::string_view("\0x", 2), Retained::no));
  EXPECT_EQ(first.wait_for(3), (std::vector<std::string>{"hw/a 1", "hw/b 2", std::string("hw/a \0x", 7)}));
  Client two(url, {}, second.hearing());
  ASSERT_TRUE(two.connect());
  ASSERT_TRUE(two.subscribe(everything));
  EXPECT_EQ(second.wait_for(1), (std::vector<std::string>{"hw/b 2 retained"}));
}

TEST(Client, WithoutABrokerIsRefusedWithItsName) {
  PrivateBroker broker;
  const std::string url = broker.url();
  broker.kill();
  Client client(url_of(url), {}, Ear().hearing());
  const auto connected = client.connect();
  ASSERT_FALSE(connected);
  EXPECT_EQ(connected.error().code, ErrorCode::unreachable);
  EXPECT_NE(connected.error().message.find(url), std::string::npos) << connected.error().message;
  EXPECT_FALSE(client.is_connected());
  EXPECT_EQ(client.publish("hw/a", "1", Retained::no).error().code, ErrorCode::unreachable);
}

TEST(Client, ABrokerThatDiesIsTold) {
  PrivateBroker broker;
  Ear ear;
  Client client(url_of(broker.url()), {}, ear.hearing());
  ASSERT_TRUE(client.connect());
  broker.kill();
  EXPECT_NE(ear.wait_for_loss().find(broker.url()), std::string::npos);
  broker.start();
  ASSERT_TRUE(client.connect());
  ASSERT_TRUE(client.subscribe(everything));
  ASSERT_TRUE(client.publish("hw/a", "again", Retained::no));
  EXPECT_EQ(ear.wait_for(1), (std::vector<std::string>{"hw/a again"}));
}

TEST(Client, OnlyTheRightPasswordIsLetIn) {
  const PrivateBroker broker;  // its folder is there before the other one starts
  const auto passwords = broker.folder() / "passwords";
  const std::string make = fmt::format("mosquitto_passwd -b -c {} floor right 2>/dev/null", passwords.string());
  ASSERT_EQ(std::system(make.c_str()), 0);  // NOLINT(cert-env33-c): a test's own words
  const PrivateBroker guarded(fmt::format("allow_anonymous false\npassword_file {}\n", passwords.string()));
  const auto secret = broker.folder() / "secret";
  const std::string url = fmt::format("mqtt://floor@127.0.0.1:{}?password_file={}", guarded.port(), secret.string());
  const auto connected = [&] { return Client(url_of(url), {}, Ear().hearing()).connect(); };
  EXPECT_EQ(connected().error().code, ErrorCode::bad_input);
  std::ofstream(secret) << "wrong\n";
  EXPECT_EQ(connected().error().code, ErrorCode::not_allowed);
  std::ofstream(secret) << "right\n";
  EXPECT_TRUE(connected());
}

}  // namespace
}  // namespace hw::mqtt
