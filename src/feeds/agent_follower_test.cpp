#include "src/feeds/agent_follower.h"

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <thread>

#include <arpa/inet.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

namespace hw::feeds {
namespace {

// One connection of the fake agent; everything that is sent is raw.
struct Line {
  int socket;
  bool send(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t sent = ::send(socket, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
  }
  bool answer(std::string_view body, std::string_view status = "200 OK") const {
    return send(
        fmt::format("HTTP/1.1 {}\r\nContent-Type: text/xml\r\nContent-Length: {}\r\nConnection: close\r\n\r\n{}",
                    status, body.size(), body));
  }
  bool open_stream() const {
    return send("HTTP/1.1 200 OK\r\nContent-Type: multipart/x-mixed-replace;boundary=b\r\nConnection: close\r\n\r\n");
  }
  bool part(std::string_view body) const {
    return send(fmt::format("--b\r\nContent-type: text/xml\r\nContent-length: {}\r\n\r\n{}\r\n", body.size(), body));
  }
  // Until the other side closes.
  void wait_for_end() const {
    char bytes[256];
    while (::recv(socket, bytes, sizeof bytes, 0) > 0) {
    }
  }
};

// Answers each connection's one request by a function of its target.
class FakeAgent {
 public:
  using Answer = std::function<void(const Line&, const std::string& target)>;

  explicit FakeAgent(Answer answer) : answer_(std::move(answer)), listener_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    EXPECT_EQ(::bind(listener_, reinterpret_cast<sockaddr*>(&address), size), 0);
    EXPECT_EQ(::listen(listener_, 16), 0);
    ::getsockname(listener_, reinterpret_cast<sockaddr*>(&address), &size);
    port_ = ntohs(address.sin_port);
    thread_ = std::thread([this] { serve(); });
  }
  ~FakeAgent() {
    ::shutdown(listener_, SHUT_RDWR);
    thread_.join();
    ::close(listener_);
  }
  http::Url url() const { return http::parse_url(fmt::format("http://127.0.0.1:{}", port_)).value(); }

 private:
  void serve() {
    for (;;) {
      const int socket = ::accept(listener_, nullptr, nullptr);
      if (socket < 0) return;
      std::string request;
      char bytes[1024];
      while (request.find("\r\n\r\n") == std::string::npos) {
        const ssize_t got = ::recv(socket, bytes, sizeof bytes, 0);
        if (got <= 0) break;
        request.append(bytes, static_cast<std::size_t>(got));
      }
      const std::size_t from = request.find(' ') + 1;
      if (!request.empty()) answer_({socket}, request.substr(from, request.find(' ', from) - from));
      ::close(socket);
    }
  }

  Answer answer_;
  int listener_;
  std::uint16_t port_ = 0;
  std::thread thread_;
};

std::string header(std::uint64_t next, std::uint64_t last) {
  return fmt::format(
      R"(<Header instanceId="7" firstSequence="1" lastSequence="{}" nextSequence="{}" bufferSize="500"/>)", last, next);
}

const std::string probe = "<MTConnectDevices>" + header(1, 1) +
                          R"(<Devices><Device id="d" name="mill" uuid="u"><DataItems><DataItem id="ex" category="EVENT"
    type="EXECUTION"/></DataItems></Device></Devices></MTConnectDevices>)";

// Observations from..next-1, all ACTIVE; the agent has none beyond.
std::string streams(std::uint64_t from, std::uint64_t next) {
  std::string text = "<MTConnectStreams>" + header(next, next - 1) +
                     R"(<Streams><DeviceStream name="mill" uuid="u"><ComponentStream component="Path"><Events>)";
  for (std::uint64_t n = from; n < next; ++n) {
    text += fmt::format(
        R"(<Execution dataItemId="ex" timestamp="2026-03-02T05:00:{:02}Z" sequence="{}">ACTIVE</Execution>)", n % 60,
        n);
  }
  return text + "</Events></ComponentStream></DeviceStream></Streams></MTConnectStreams>";
}

std::uint64_t from_of(const std::string& target) { return std::stoull(target.substr(target.find("from=") + 5)); }
bool is_stream(const std::string& target) { return target.find("interval=") != std::string::npos; }

class KeepingSink : public Sink {
 public:
  Result<void> take(const Batch& batch) override {
    const std::lock_guard lock(mutex_);
    if (refusals_ > 0) {
      --refusals_;
      return refuse(ErrorCode::disk_full, "no room");
    }
    for (const MachineBatch& machine : batch.machines) observations_ += machine.observations.size();
    position_ = batch.position;
    changed_.notify_all();
    return {};
  }
  void refuse_next(int times) { refusals_ = times; }
  bool wait_for(std::uint64_t next_sequence) {
    std::unique_lock lock(mutex_);
    return changed_.wait_for(lock, std::chrono::seconds(20), [&] { return position_.next_sequence >= next_sequence; });
  }
  std::size_t observations() {
    const std::lock_guard lock(mutex_);
    return observations_;
  }

 private:
  std::mutex mutex_;
  std::condition_variable changed_;
  Position position_;
  std::size_t observations_ = 0;
  std::atomic<int> refusals_ = 0;
};

// A clock on which a second passes in a millisecond, so that what takes a minute is tested in no time.
Instant fast_clock() {
  static const auto began = std::chrono::steady_clock::now();
  const auto since = std::chrono::steady_clock::now() - began;
  return parse_instant("2026-03-02T06:00:00Z").value() +
         Duration{std::chrono::duration_cast<std::chrono::nanoseconds>(since).count() * 1000};
}

class AgentFollowerTest : public testing::Test {
 protected:
  void follow(FakeAgent::Answer answer) {
    agent = std::make_unique<FakeAgent>(std::move(answer));
    follower.emplace(AgentAddress{agent->url(), ""}, settings, std::nullopt, sink, fast_clock);
    thread = std::thread([this] { follower->run(stop); });
  }
  void TearDown() override {
    stop.cancel();
    if (thread.joinable()) thread.join();
  }
  // Waits until the pages would show a trouble of that kind.
  std::string wait_for_error(std::string_view part) const {
    const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(20);
    while (std::chrono::steady_clock::now() < until) {
      const std::string error = follower->view().last_error;
      if (error.find(part) != std::string::npos) return error;
      std::this_thread::yield();
    }
    return follower->view().last_error;
  }

  FollowerSettings settings{
      .feed = "cell 1", .interval = Duration::millis(1000), .heartbeat = Duration::millis(500), .aliases = {}};
  KeepingSink sink;
  http::CancelToken stop;
  // For what a test's agent counts: it answers until it is gone, which is after the test's own variables are.
  std::atomic<std::uint64_t> told = 0;
  std::unique_ptr<FakeAgent> agent;
  std::optional<AgentFollower> follower;
  std::thread thread;
};

TEST_F(AgentFollowerTest, ReadsTheStreamPartByPart) {
  follow([](const Line& line, const std::string& target) {
    if (target == "/probe") return (void)line.answer(probe);
    if (target == "/current") return (void)line.answer(streams(1, 2));
    if (!is_stream(target)) return (void)line.answer(streams(from_of(target), 10));
    line.open_stream();
    line.part(streams(10, 12));
    line.part(streams(12, 12));
    line.part(streams(12, 40));
    line.wait_for_end();
  });
  EXPECT_TRUE(sink.wait_for(40));
  EXPECT_EQ(sink.observations(), 39U);
  EXPECT_TRUE(follower->view().connected_since.has_value());
}

TEST_F(AgentFollowerTest, DeadLinkIsNoticedAndNothingIsLost) {
  follow([&](const Line& line, const std::string& target) {
    if (target == "/probe") return (void)line.answer(probe);
    if (target == "/current") return (void)line.answer(streams(1, 2));
    if (!is_stream(target))
      return (void)line.answer(streams(from_of(target), std::max<std::uint64_t>(from_of(target), 10)));
    line.open_stream();
    line.part(streams(from_of(target), from_of(target) + 5));
    if (++told < 3) return line.wait_for_end();  // says nothing more
    line.part(streams(from_of(target) + 5, 100));
    line.wait_for_end();
  });
  EXPECT_TRUE(sink.wait_for(100));
  EXPECT_EQ(sink.observations(), 99U);
}

TEST_F(AgentFollowerTest, BytesWithoutAWholePartAreNoSignOfLife) {
  follow([&](const Line& line, const std::string& target) {
    if (target == "/probe") return (void)line.answer(probe);
    if (target == "/current") return (void)line.answer(streams(1, 2));
    if (!is_stream(target)) return (void)line.answer(streams(from_of(target), 2));
    line.open_stream();
    line.send("--b\r\nContent-type: text/xml\r\nContent-length: 60000000\r\n\r\n");
    Instant next_at = fast_clock();
    while (line.send("<a/> ")) {
      next_at = next_at + Duration::seconds(5);
      while (fast_clock() < next_at) std::this_thread::yield();
    }
  });
  EXPECT_NE(wait_for_error("no whole document").find("no whole document"), std::string::npos);
}

TEST_F(AgentFollowerTest, AgentThatAnswersAStreamWithOneDocumentIsPolled) {
  told = 2;  // the next sequence number
  follow([&](const Line& line, const std::string& target) {
    if (target == "/probe") return (void)line.answer(probe);
    if (target == "/current") return (void)line.answer(streams(1, 2));
    told = std::max<std::uint64_t>(told, from_of(target)) + 1;
    line.answer(streams(from_of(target), told));
  });
  EXPECT_TRUE(sink.wait_for(20));
  EXPECT_GE(sink.observations(), 19U);
}

TEST_F(AgentFollowerTest, BatchThatIsNotTakenComesAgain) {
  sink.refuse_next(3);
  follow([&](const Line& line, const std::string& target) {
    if (target == "/probe") return (void)line.answer(probe);
    if (target == "/current") return (void)line.answer(streams(1, 2));
    if (!is_stream(target)) return (void)line.answer(streams(from_of(target), 10));
    line.open_stream();
    line.part(streams(10, 12));
    line.wait_for_end();
  });
  EXPECT_TRUE(sink.wait_for(12));
  EXPECT_EQ(sink.observations(), 11U);
}

TEST_F(AgentFollowerTest, SurvivesAGigabyteOfText) {
  follow([&](const Line& line, const std::string&) {
    line.send("HTTP/1.1 200 OK\r\nContent-Type: text/xml\r\nConnection: close\r\n\r\n<MTConnectDevices>");
    const std::string text(1 << 20, 'a');
    for (int n = 0; n < 1024 && line.send(text); ++n) {
    }
  });
  EXPECT_NE(wait_for_error("67108864").find("67108864"), std::string::npos) << follower->view().last_error;
  EXPECT_FALSE(follower->view().connected_since.has_value());
}

TEST_F(AgentFollowerTest, SurvivesPagesAndDoctypesAndNonsense) {
  follow([&](const Line& line, const std::string&) {
    switch (told++) {
      case 0:
        return (void)line.answer("<html><p>Welcome</html>");
      case 1:
        return (void)line.answer("<!DOCTYPE a [<!ENTITY b \"cc\"><!ENTITY d \"&b;&b;\">]><MTConnectDevices>&d;");
      case 2:
        return (void)line.send("nonsense\r\n\r\n");
      case 3:
        return (void)line.answer("", "500 Broken");
      default:
        return (void)line.answer(probe.substr(0, 40));
    }
  });
  EXPECT_NE(wait_for_error("line 1").find("line 1"), std::string::npos);
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(20);
  while (told < 6 && std::chrono::steady_clock::now() < until) std::this_thread::yield();
  EXPECT_GE(told, 6U);
}

TEST_F(AgentFollowerTest, StopsAtOnceWhileItWaits) {
  follow([](const Line& line, const std::string&) { line.wait_for_end(); });
  const auto began = std::chrono::steady_clock::now();
  stop.cancel();
  thread.join();
  EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(15));
}

}  // namespace
}  // namespace hw::feeds
