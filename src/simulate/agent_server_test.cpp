#include "src/simulate/agent_server.h"

#include <atomic>
#include <optional>
#include <utility>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "libs/formats/xml_reader.h"
#include "libs/http/client.h"
#include "libs/http/multipart.h"
#include "src/feeds/device_model.h"
#include "src/simulate/april_test.h"

namespace hw::simulate {
namespace {

using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::StartsWith;

// A clock that a test sets.
class SetClock {
 public:
  void set(Instant at) { ns_ = at.ns; }
  std::function<Instant()> reader() {
    return [this] { return Instant{ns_.load()}; };
  }

 private:
  std::atomic<std::int64_t> ns_ = april_morning.ns;
};

// Only well-formed documents pass.
class AnyDocument : public formats::XmlHandler {
 public:
  void start(formats::XmlReader&, const formats::XmlName& name, const formats::XmlAttributes&) override {
    if (root.empty()) root = name.local;
    ++elements;
  }
  void text(formats::XmlReader&, std::string_view) override {}
  void end(formats::XmlReader&, const formats::XmlName&) override {}

  std::string root;
  std::size_t elements = 0;
};

Result<AnyDocument> read_document(std::string_view xml) {
  AnyDocument document;
  formats::XmlReader reader(document, "the answer");
  if (auto fed = reader.feed(xml); !fed) return refuse(fed.error());
  if (auto done = reader.finish(); !done) return refuse(done.error());
  return document;
}

// The number behind name=" in the header.
std::uint64_t header_number(std::string_view xml, std::string_view name) {
  const std::string key = fmt::format(" {}=\"", name);
  const std::size_t at = xml.find(key);
  if (at == std::string_view::npos) return 0;
  return std::stoull(std::string(xml.substr(at + key.size(), 24)));
}

// The parts of a stream as they come; refuses when enough have come.
class PartList : public http::PartSink {
 public:
  explicit PartList(std::function<bool(const std::string&)> goes_on) : goes_on_(std::move(goes_on)) {}
  Result<void> begin(const http::Headers& headers) override {
    EXPECT_TRUE(headers.find("Content-length"));
    present_.clear();
    return {};
  }
  Result<void> data(std::string_view piece) override {
    present_ += piece;
    bytes += piece.size();
    if (bytes > 32 * 1024 * 1024) return refuse(ErrorCode::too_large, "enough");
    return {};
  }
  Result<void> end() override {
    parts.push_back(present_);
    if (!goes_on_(present_)) return refuse(ErrorCode::conflict, "enough");
    return {};
  }

  std::vector<std::string> parts;
  std::size_t bytes = 0;

 private:
  std::function<bool(const std::string&)> goes_on_;
  std::string present_;
};

class ServedAgent : public ::testing::Test {
 protected:
  void SetUp() override { open({}); }

  void open(AgentOptions agent) {
    AgentServerOptions options;
    options.agent = std::move(agent);
    options.clock = clock.reader();
    options.tick = Duration::millis(5);
    auto opened = AgentServer::open(play(floor, {april_morning, april_morning, 1, {}}), std::move(options));
    ASSERT_TRUE(opened) << opened.error().message;
    server = std::move(*opened);
  }

  http::Response get(std::string_view target, std::size_t bytes_max = 64 << 20) {
    http::GetOptions options;
    options.body_bytes_max = bytes_max;
    auto answer = http::get(*http::parse_url(server->url() + std::string(target)), options);
    if (answer) return *answer;
    failure = answer.error();
    return http::Response::of(0, "", "");
  }

  // Reads a stream until `goes_on` says no or it ends.
  Result<void> follow(std::string_view target, PartList& parts) {
    const http::Url url = *http::parse_url(server->url() + std::string(target));
    std::optional<http::MultipartReader> reader;
    const auto on_head = [&](int status, const http::Headers& headers) -> Result<void> {
      if (status != 200) return refuse(ErrorCode::peer_misbehaved, "status {}", status);
      const auto boundary = http::parse_boundary(*headers.find("Content-Type"));
      if (!boundary) return refuse(boundary.error());
      http::MultipartLimits limits;
      limits.part_bytes_max = std::uint64_t{1} << 50;
      reader.emplace(*boundary, parts, limits);
      return {};
    };
    auto read = http::get_stream(url, {}, on_head, [&](std::string_view piece) { return reader->feed(piece); });
    if (!read) return read;
    return reader->finish();
  }

  SetClock clock;
  Floor floor{april_plan(), sample_entries()};
  std::unique_ptr<AgentServer> server;
  Error failure;
};

TEST_F(ServedAgent, AnswersProbeCurrentAndSampleForAllAndForOne) {
  for (const char* const target : {"/probe", "/current", "/sample", "/", "/m04/probe", "/m04/current", "/m04/sample",
                                   "/m04", "/m04/sample?count=5"}) {
    const http::Response answer = get(target);
    EXPECT_EQ(answer.status, 200) << target;
    const auto document = read_document(answer.text());
    ASSERT_TRUE(document) << target << ": " << document.error().message;
    EXPECT_GT(document->elements, 4U) << target;
  }
  EXPECT_EQ(get("/" + floor.machines()[3].uuid + "/current").status, 200);
  EXPECT_NE(get("/current").text().find(">ACTIVE</Execution>"), std::string_view::npos);
}

TEST_F(ServedAgent, RefusesAsMTConnectErrorDocuments) {
  const auto expect = [&](std::string_view target, int status, std::string_view code) {
    const http::Response answer = get(target);
    EXPECT_EQ(answer.status, status) << target;
    const auto document = read_document(answer.text());
    ASSERT_TRUE(document) << document.error().message;
    EXPECT_EQ(document->root, "MTConnectError");
    EXPECT_THAT(std::string(answer.text()), HasSubstr(fmt::format("errorCode=\"{}\"", code))) << target;
  };
  expect("/m99/current", 404, "NO_DEVICE");
  expect("/m01/asset", 404, "INVALID_URI");
  expect("/sample?from=999999999", 404, "OUT_OF_RANGE");
  expect("/sample?from=0", 404, "OUT_OF_RANGE");
  expect("/sample?count=0", 404, "OUT_OF_RANGE");
  expect("/sample?count=131073", 404, "OUT_OF_RANGE");
  expect("/sample?from=999999999&interval=10", 404, "OUT_OF_RANGE");
  expect("/sample?from=seven", 400, "INVALID_REQUEST");
  expect("/sample?heartbeat=0&interval=0", 400, "INVALID_REQUEST");
  expect("/sample?path=//Axes", 404, "UNSUPPORTED");
}

TEST_F(ServedAgent, PollingFromNextSequenceGetsEachObservationOnce) {
  std::uint64_t next = header_number(get("/current").text(), "nextSequence");
  ASSERT_EQ(next, server->next_sequence());
  clock.set(april_morning + Duration::seconds(120));
  server->advance();
  std::uint64_t observations = 0;
  const std::uint64_t first = next;
  while (next < server->next_sequence()) {
    const http::Response answer = get(fmt::format("/sample?from={}&count=50", next));
    const std::uint64_t following = header_number(answer.text(), "nextSequence");
    ASSERT_GT(following, next);
    ASSERT_LE(following, next + 50);
    observations += following - next;
    next = following;
  }
  EXPECT_EQ(observations, server->next_sequence() - first);
  EXPECT_GT(observations, 200U);  // two minutes of 24 machines
}

TEST_F(ServedAgent, AStreamBringsPartsWithoutHolesAndEmptyOnesAsHeartbeats) {
  const std::uint64_t begin = server->next_sequence();
  std::uint64_t next = begin;
  int empty = 0;
  int full = 0;
  int steps = 0;
  PartList parts([&](const std::string& xml) {
    const auto document = read_document(xml);
    EXPECT_TRUE(document) << document.error().message;
    const std::uint64_t following = header_number(xml, "nextSequence");
    EXPECT_GE(following, next);
    ++(following == next ? empty : full);
    const std::uint64_t next_before = std::exchange(next, following);
    if (following == next_before && full < 5) clock.set(april_morning + Duration::seconds(20 * ++steps));
    return empty < 2 || full < 5;
  });
  const auto read = follow(fmt::format("/sample?from={}&interval=0&heartbeat=30&count=40", begin), parts);
  ASSERT_FALSE(read);
  EXPECT_THAT(read.error().message, EndsWith("enough"));
  EXPECT_GE(empty, 2);
  EXPECT_GE(full, 5);
}

TEST_F(ServedAgent, ItsProbeIsReadByTheReaderOfTheFeeds) {
  const auto devices = feeds::read_devices(get("/m04/probe").text());
  ASSERT_TRUE(devices) << devices.error().message;
  ASSERT_EQ(devices->machines.size(), 1U);
  EXPECT_EQ(devices->version, "1.3");
  EXPECT_EQ(devices->instance_id, server->instance_id());
}

TEST_F(ServedAgent, ARestartEndsStreamsAndBeginsANewInstance) {
  const std::uint64_t instance = server->instance_id();
  bool is_first = true;
  PartList parts([&](const std::string&) {
    if (std::exchange(is_first, false)) server->restart();
    return true;
  });
  EXPECT_TRUE(follow("/sample?interval=0", parts));
  EXPECT_GE(parts.parts.size(), 1U);
  EXPECT_NE(server->instance_id(), instance);
  EXPECT_EQ(header_number(get("/current").text(), "firstSequence"), 1U);
  server->restart(AgentServer::Identity::kept);
  EXPECT_EQ(header_number(get("/current").text(), "instanceId"), instance + 1);
}

TEST_F(ServedAgent, AStreamThatIsOverrunEndsWithAnErrorAsItsLastPart) {
  server->close();
  open({.buffer_size = 50});
  PartList parts([&](const std::string& xml) {
    // Its place is lost while the client thinks about the first part.
    if (xml.find("MTConnectStreams") != std::string::npos) {
      clock.set(april_morning + Duration::hours(1));
      server->advance();
    }
    return true;
  });
  EXPECT_TRUE(
      follow(fmt::format("/sample?from={}&interval=60&count=1&heartbeat=5000", server->next_sequence() - 1), parts));
  ASSERT_EQ(parts.parts.size(), 2U);
  EXPECT_THAT(parts.parts.back(), HasSubstr("OUT_OF_RANGE"));
}

TEST_F(ServedAgent, AStalledStreamSaysNothing) {
  server->set_faults({.stalls = true});
  http::StreamOptions options;
  options.silence_max = Duration::millis(300);
  std::size_t bytes = 0;
  const auto read = http::get_stream(
      *http::parse_url(server->url() + "/sample?interval=0&heartbeat=20"), options,
      [](int, const http::Headers&) { return Result<void>{}; },
      [&](std::string_view piece) {
        bytes += piece.size();
        return Result<void>{};
      });
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().code, ErrorCode::timed_out);
  EXPECT_EQ(bytes, 0U);
}

TEST_F(ServedAgent, LiesInAnswersAsItIsTold) {
  server->set_faults({.says_html = true});
  http::Response answer = get("/current");
  EXPECT_EQ(answer.status, 200);
  EXPECT_THAT(std::string(*answer.headers.find("Content-Type")), StartsWith("text/html"));
  server->set_faults({.says_doctype = true});
  EXPECT_THAT(std::string(get("/current").text()), HasSubstr("<!DOCTYPE"));
  EXPECT_FALSE(read_document(get("/current").text()));
  server->set_faults({.breaks_off = true});
  EXPECT_FALSE(read_document(get("/current").text()));
  server->set_faults({.never_ends = true});
  EXPECT_EQ(get("/current", 1 << 20).status, 0);
  EXPECT_EQ(failure.code, ErrorCode::too_large);
  server->set_faults({.says_gigabyte = true});
  EXPECT_EQ(get("/current", 1 << 20).status, 0);
  EXPECT_EQ(failure.code, ErrorCode::too_large);
  server->set_faults({});
  EXPECT_TRUE(read_document(get("/current").text()));
}

TEST_F(ServedAgent, LiesInStreamsAsItIsTold) {
  const auto until_enough = [](const std::string&) { return true; };
  server->set_faults({.breaks_off = true});
  PartList broken(until_enough);
  EXPECT_FALSE(follow("/sample?interval=0", broken));
  EXPECT_TRUE(broken.parts.empty());
  server->set_faults({.never_ends = true});
  PartList endless(until_enough);
  EXPECT_THAT(follow("/sample?interval=0", endless).error().message, EndsWith("enough"));
  EXPECT_TRUE(endless.parts.empty());
  server->set_faults({.says_gigabyte = true});
  PartList huge(until_enough);
  EXPECT_THAT(follow("/sample?interval=0", huge).error().message, EndsWith("enough"));
}

TEST_F(ServedAgent, AClockJumpMovesTheStampsOfWhatComes) {
  server->set_faults({.clock_jump = Duration::hours(24 * 400)});
  clock.set(april_morning + Duration::seconds(60));
  server->advance();
  EXPECT_THAT(std::string(get("/current").text()), HasSubstr("timestamp=\"2027-05-13T08:4"));
}

TEST(AgentServer, RefusesAPortInUse) {
  const Floor floor(april_plan(), sample_entries());
  AgentServerOptions any;
  any.clock = [] { return april_morning; };
  auto first = AgentServer::open(play(floor, {april_morning, april_morning, 1, {}}), any);
  ASSERT_TRUE(first) << first.error().message;
  AgentServerOptions same = any;
  same.port = (*first)->port();
  const auto second = AgentServer::open(play(floor, {april_morning, april_morning, 1, {}}), same);
  ASSERT_FALSE(second);
  EXPECT_EQ(second.error().code, ErrorCode::in_use);
}

}  // namespace
}  // namespace hw::simulate
