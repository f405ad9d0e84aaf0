#include "src/simulate/agent_requests.h"

#include <gtest/gtest.h>

#include "src/simulate/agent_stream.h"
#include "src/simulate/april_test.h"

namespace hw::simulate {
namespace {

// Without a network: what the server would be given.
class Asked : public ::testing::Test {
 protected:
  http::Response ask(std::string path, std::vector<http::NamedValue> query = {}, std::string method = "GET") {
    http::Request request;
    request.method = std::move(method);
    request.path = std::move(path);
    request.query = std::move(query);
    return answer(agent, request, [&](const std::shared_ptr<AgentStream>& opened) { stream = opened; });
  }

  const std::vector<Machine> machines = make_machines(sample_entries());
  std::shared_ptr<SharedAgent> agent =
      std::make_shared<SharedAgent>(replay(machines, {}, 1), AgentOptions{}, [] { return april_morning; });
  std::shared_ptr<AgentStream> stream;
};

TEST_F(Asked, OnlyGetIsUnderstood) { EXPECT_EQ(ask("/probe", {}, "POST").status, 405); }

TEST_F(Asked, FrequencyIsIntervalsNameOfOld) {
  EXPECT_EQ(ask("/sample", {{"frequency", "60000"}}).status, 200);
  ASSERT_TRUE(stream);
  EXPECT_NE(stream->take().find("MTConnectStreams"), std::string::npos);
}

TEST_F(Asked, AStreamOfAnEarlierProcessIsClosed) {
  (void)ask("/m01/sample", {{"interval", "0"}});
  ASSERT_TRUE(stream);
  EXPECT_FALSE(stream->closed());
  agent->restart(2);
  EXPECT_EQ(stream->take(), "");
  EXPECT_TRUE(stream->closed());
}

TEST_F(Asked, AStreamWakesWhoeverWaits) {
  (void)ask("/sample", {{"interval", "0"}});
  int calls = 0;
  stream->on_wake([&] { ++calls; });
  stream->wake();
  EXPECT_EQ(calls, 2);
  stream->on_wake({});
  stream->wake();
  EXPECT_EQ(calls, 2);
}

TEST_F(Asked, ANumberMustBeWhole) {
  for (const char* const value : {"", "1.5", "-1", "1e3", " 1", "99999999999999999999"}) {
    EXPECT_EQ(ask("/sample", {{"from", value}}).status, 400) << value;
  }
}

}  // namespace
}  // namespace hw::simulate
