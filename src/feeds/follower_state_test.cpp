#include "src/feeds/follower_state.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

using counters::is_unknown;

// An agent as the follower sees it: what it has buffered, said as documents. Observation n is stamped at second n of
// the story and says n % 2 == 0 ? ACTIVE : READY.
struct ToyAgent {
  std::uint64_t instance = 7;
  std::uint64_t first = 1;
  std::uint64_t next = 11;  // the sequence of the next observation
  std::uint64_t buffer = 1000;
  std::string changed;  // deviceModelChangeTime
  std::vector<std::string> items = {"ex"};
  Instant story = parse_instant("2026-03-02T05:00:00Z").value();
  std::optional<Instant> created;

  Instant at(std::uint64_t n) const { return story + Duration::seconds(static_cast<std::int64_t>(n)); }

  std::string header(std::uint64_t next_sequence) const {
    return fmt::format(R"(<Header instanceId="{}" firstSequence="{}" lastSequence="{}" nextSequence="{}" bufferSize="{}"
        creationTime="{}" {}/>)",
                       instance, first, next - 1, next_sequence, buffer, print(created.value_or(at(next))),
                       changed.empty() ? "" : fmt::format("deviceModelChangeTime=\"{}\"", changed));
  }
  std::string probe() const {
    std::string text =
        fmt::format("<MTConnectDevices>{}<Devices><Device id=\"d\" name=\"mill\" uuid=\"u\"><DataItems>", header(next));
    for (const auto& id : items) text += fmt::format(R"(<DataItem id="{}" category="EVENT" type="EXECUTION"/>)", id);
    return text + "</DataItems></Device></Devices></MTConnectDevices>";
  }
  std::string streams(std::uint64_t next_sequence, const std::string& observations) const {
    return "<MTConnectStreams>" + header(next_sequence) +
           R"(<Streams><DeviceStream name="mill" uuid="u"><ComponentStream component="Path"><Events>)" + observations +
           "</Events></ComponentStream></DeviceStream></Streams></MTConnectStreams>";
  }
  std::string observation(std::uint64_t n, std::string_view id = "ex") const {
    return fmt::format(R"(<Execution dataItemId="{}" timestamp="{}" sequence="{}">{}</Execution>)", id, print(at(n)), n,
                       n % 2 == 0 ? "ACTIVE" : "READY");
  }
  std::string sample(std::uint64_t from, std::uint64_t count) const {
    std::string observations;
    const std::uint64_t end = std::min(next, from + count);
    for (std::uint64_t n = from; n < end; ++n) observations += observation(n);
    return streams(end, observations);
  }
  std::string current() const { return streams(next, observation(next - 1)); }
  std::string current_at(std::uint64_t n) const { return streams(next, observation(n)); }
  std::string error(std::string_view code) const {
    return fmt::format(R"(<MTConnectError><Header instanceId="{}"/><Errors><Error errorCode="{}">so</Error></Errors>
        </MTConnectError>)",
                       instance, code);
  }
  // What it answers to a question, as the standard says.
  std::pair<int, std::string> answer(const std::string& target) const {
    const auto value = [&](const std::string& name) {
      const auto place = target.find(name + "=");
      return place == std::string::npos ? 0 : std::stoull(target.substr(place + name.size() + 1));
    };
    if (target == "/probe") return {200, probe()};
    if (target == "/current") return {200, current()};
    const std::uint64_t from = target.find("/current") == 0 ? value("at") : value("from");
    if (from < first || from > next) return {404, error("OUT_OF_RANGE")};
    if (target.find("/current") == 0) return {200, current_at(from)};
    return {200, sample(from, value("count"))};
  }
};

class FollowerStateTest : public testing::Test {
 protected:
  ToyAgent agent;
  FollowerSettings settings{.feed = "cell 1", .aliases = {}};
  FollowerState state{settings, std::nullopt};
  std::vector<Batch> batches;
  std::string story;  // what was asked, one after the other
  Instant now = agent.at(100);

  void start_from(std::optional<Stored> stored) { state = FollowerState(settings, std::move(stored)); }
  Outcome tell(int status, const std::string& body) {
    Outcome outcome = state.answer(status, body, now);
    if (outcome.batch) batches.push_back(*outcome.batch);
    return outcome;
  }
  // Asks and answers until the follower would wait, or opens a stream.
  void run() {
    for (int n = 0; n < 30; ++n) {
      const Ask ask = state.next();
      if (ask.kind == Ask::Kind::stream || ask.not_before > now) return;
      story += ask.path_and_query + " ";
      const auto [status, body] = agent.answer(ask.path_and_query);
      tell(status, body);
    }
    FAIL() << "asks in a circle: " << story;
  }
  std::string take_story() { return std::exchange(story, {}); }
  Stored stored() const { return {state.position(), batches.back().alive_at, state.machines()}; }
  // "4=1 5=0 6=?": second of the story and value, in order of arrival, of all batches since the last call.
  std::string take_observations() {
    std::string text;
    for (const Batch& batch : std::exchange(batches, {})) {
      for (const MachineBatch& machine : batch.machines) {
        for (const auto& o : machine.observations) {
          text += fmt::format("{}={} ", (o.at - agent.story).ns / 1'000'000'000,
                              is_unknown(o.value) ? "?"
                              : o.value > 0       ? "1"
                                                  : "0");
        }
      }
      for (const auto& i : batch.interruptions) {
        text += fmt::format("[{}-{} {}] ", (i.from - agent.story).ns / 1'000'000'000,
                            (i.to - agent.story).ns / 1'000'000'000, i.why);
      }
    }
    return text;
  }
  std::string notes() const {
    std::string text;
    for (const Batch& batch : batches) {
      for (const Note& note : batch.notes) text += note.text + "; ";
    }
    return text;
  }
  // In steady state at the agent's end, with a stream next.
  void settle() {
    run();
    ASSERT_EQ(state.next().kind, Ask::Kind::stream);
    take_story();
    take_observations();
  }
};

TEST_F(FollowerStateTest, FirstContactTakesTheStateAndThenStreams) {
  now = agent.at(12);
  run();
  EXPECT_EQ(take_story(), "/probe /current /sample?from=11&count=1000 ");
  EXPECT_EQ(state.next().path_and_query, "/sample?from=11&count=1000&interval=1000&heartbeat=10000");
  ASSERT_FALSE(batches.empty());
  ASSERT_TRUE(batches[0].models.has_value());
  EXPECT_EQ(batches[0].models->at(0).name, "mill");
  EXPECT_FALSE(batches[1].models.has_value());
  EXPECT_EQ(batches[1].position, (Position{7, 11}));
  // Trap 10: observation 10 is old; it holds from the moment at which it was told.
  EXPECT_EQ(take_observations(), "11=1 ");
}

TEST_F(FollowerStateTest, StreamPartsBecomeBatchesAndHeartbeatsSignsOfLife) {
  now = agent.at(12);
  settle();
  agent.next = 14;
  now = agent.at(14);
  EXPECT_FALSE(tell(200, agent.sample(11, 1000)).leaves_stream);
  EXPECT_EQ(batches.back().position, (Position{7, 14}));
  EXPECT_EQ(take_observations(), "11=0 12=1 13=0 ");
  now = agent.at(24);
  agent.created = now;
  EXPECT_FALSE(tell(200, agent.sample(14, 1000)).leaves_stream);
  EXPECT_EQ(batches.back().alive_at, now);
  EXPECT_TRUE(batches.back().machines.empty());
  EXPECT_EQ(state.view().last_sign_at, now);
}

// Trap 12: behind, it asks on at once until nextSequence > lastSequence.
TEST_F(FollowerStateTest, CatchesUpByPollsBeforeItStreams) {
  settings.count_max = 100;
  start_from(std::nullopt);
  settle();
  agent.next = 261;
  now = agent.at(300);
  state.failed({ErrorCode::unreachable, "gone"}, now);
  now = now + Duration::seconds(120);
  run();
  EXPECT_EQ(take_story(), "/sample?from=11&count=100 /sample?from=111&count=100 /sample?from=211&count=100 ");
  ASSERT_EQ(batches.size(), 3U);
  EXPECT_EQ(batches[0].alive_at, agent.at(110)) << "values hold no further than what has been told";
  EXPECT_EQ(batches[2].machines[0].observations.size(), 50U);
  EXPECT_EQ(state.view().behind, 0U);
}

TEST_F(FollowerStateTest, GoesOnFromTheStoredPositionAndLosesNothing) {
  settle();
  tell(200, agent.sample(11, 1000));
  const Stored kept = stored();
  agent.next = 15;
  start_from(kept);
  batches.clear();
  run();
  EXPECT_EQ(take_story(), "/probe /sample?from=11&count=100 ");
  EXPECT_FALSE(batches[0].models.has_value()) << "the models are what they were";
  EXPECT_EQ(take_observations(), "11=0 12=1 13=0 14=1 ");
}

TEST_F(FollowerStateTest, ABatchIsTheSameWhereverTheProgramWasKilled) {
  settle();
  agent.next = 40;
  std::string whole;
  for (std::uint64_t n = 11; n < 40; ++n) {
    whole += fmt::format("{}={} ", n, n % 2 == 0 ? 1 : 0);
  }
  for (std::uint64_t killed_at = 11; killed_at < 40; ++killed_at) {
    start_from(Stored{{7, 11}, agent.at(10), {}});
    settings.count_max = 3;
    run();
    std::string got;
    Stored kept{{7, 11}, agent.at(10), state.machines()};
    for (const Batch& batch : std::exchange(batches, {})) {
      if (batch.position.next_sequence > killed_at) break;
      kept.position = batch.position;
      for (const auto& o : batch.machines.at(0).observations) {
        got += fmt::format("{}={} ", (o.at - agent.story).ns / 1'000'000'000, o.value > 0 ? 1 : 0);
      }
    }
    start_from(kept);
    run();
    EXPECT_EQ(got + take_observations(), whole) << killed_at;
  }
}

TEST_F(FollowerStateTest, RestartIsReplayedFromItsFirstObservation) {
  settle();
  const Instant last = now;
  agent.instance = 8;
  agent.next = 5;
  agent.story = agent.story + Duration::seconds(1000);
  now = agent.at(5);
  EXPECT_TRUE(tell(200, agent.sample(1, 0)).leaves_stream);
  run();
  EXPECT_EQ(take_story(), "/probe /current /sample?from=1&count=1000 ");
  ASSERT_EQ(batches.size(), 1U);
  EXPECT_EQ(batches[0].position, (Position{8, 5}));
  ASSERT_EQ(batches[0].interruptions.size(), 1U);
  EXPECT_EQ(batches[0].interruptions[0], (Interruption{"mill", std::max(last, agent.at(0) - Duration::seconds(1000)),
                                                       agent.at(1), "the agent was restarted"}));
  const auto& observations = batches[0].machines.at(0).observations;
  ASSERT_EQ(observations.size(), 5U);
  EXPECT_TRUE(is_unknown(observations[0].value));
  EXPECT_EQ(observations[0].at, batches[0].interruptions[0].from);
  EXPECT_EQ(observations[1].at, agent.at(1));
}

TEST_F(FollowerStateTest, RestartWhoseBeginningIsLostStartsWithTheStateOfNow) {
  settle();
  now = agent.at(200);
  agent.instance = 8;
  agent.first = 50;
  agent.next = 151;
  tell(200, agent.sample(150, 1));
  run();
  EXPECT_EQ(take_story(), "/probe /current ");
  EXPECT_EQ(take_observations(), "100=? 151=1 [100-151 the agent was restarted] ");
  EXPECT_EQ(state.position(), (Position{8, 151}));
}

TEST_F(FollowerStateTest, RestartWhileTheProgramWasDownIsSeen) {
  settle();
  const Stored kept{{7, 11}, agent.at(11), state.machines()};
  now = agent.at(40);
  agent.instance = 9;
  agent.next = 31;
  agent.first = 5;
  start_from(kept);
  run();
  EXPECT_EQ(take_story(), "/probe /current ");
  EXPECT_EQ(take_observations(), "11=? 31=1 [11-31 the agent was restarted] ");
}

TEST_F(FollowerStateTest, OverrunIsListedAndGoesOnFromTheBeginningOfTheBuffer) {
  settle();
  const Instant last = agent.at(100);
  agent.first = 501;
  agent.next = 601;
  now = agent.at(700);
  state.failed({ErrorCode::timed_out, "silence"}, now);
  now = now + Duration::seconds(100);
  run();
  EXPECT_EQ(take_story(), "/sample?from=11&count=1000 /current /current?at=501 ");
  ASSERT_EQ(batches.size(), 1U);
  EXPECT_EQ(batches[0].position, (Position{7, 502}));
  ASSERT_EQ(batches[0].interruptions.size(), 1U);
  EXPECT_EQ(batches[0].interruptions[0],
            (Interruption{"mill", last, agent.at(501), "the agent's buffer overran: observations were lost"}));
  EXPECT_EQ(take_observations(), "100=? 501=0 [100-501 the agent's buffer overran: observations were lost] ");
  now = now + Duration::seconds(1);
  run();
  EXPECT_EQ(take_story(), "/sample?from=502&count=1000 ");
  EXPECT_EQ(batches[0].machines.at(0).observations.size(), 99U);
}

TEST_F(FollowerStateTest, AfterAnOverrunAnAgentThatDoesNotKnowAtIsTakenAsOfNow) {
  settle();
  agent.first = 51;
  agent.next = 61;
  now = agent.at(161);
  EXPECT_TRUE(tell(200, agent.sample(51, 10)).leaves_stream);
  EXPECT_TRUE(tell(200, agent.current()).leaves_stream);
  EXPECT_EQ(state.next().path_and_query, "/current?at=51");
  EXPECT_FALSE(tell(404, agent.error("UNSUPPORTED")).batch);
  EXPECT_EQ(state.next().path_and_query, "/current");
  const Outcome outcome = tell(200, agent.current());
  ASSERT_TRUE(outcome.batch);
  ASSERT_EQ(outcome.batch->interruptions.size(), 1U);
  EXPECT_EQ(outcome.batch->position, (Position{7, 61}));
}

TEST_F(FollowerStateTest, OverrunSeenInAPartIsNotTakenForAWholeStream) {
  settle();
  agent.first = 51;
  agent.next = 61;
  now = agent.at(161);
  EXPECT_TRUE(tell(200, agent.sample(51, 10)).leaves_stream);
  EXPECT_TRUE(batches.empty());
  run();
  EXPECT_EQ(take_story(), "/current /current?at=51 ");
}

TEST_F(FollowerStateTest, BufferThatRunsAwayIsNotChasedForEver) {
  settle();
  now = agent.at(2000);
  state.failed({ErrorCode::timed_out, "silence"}, now);
  now = now + Duration::seconds(100);
  agent.first = 501;
  agent.next = 601;
  for (int n = 0; n < 5; ++n) {
    const Ask ask = state.next();
    story += ask.path_and_query + " ";
    const auto [status, body] = agent.answer(ask.path_and_query);
    tell(status, body);
    if (!batches.empty()) break;
    agent.first += 200;
    agent.next += 200;
  }
  EXPECT_EQ(take_story(), "/sample?from=11&count=1000 /current /current?at=701 /current /current?at=1111 ");
  run();
  EXPECT_EQ(take_story(), "/current ");
  EXPECT_EQ(batches.size(), 1U);
  EXPECT_EQ(batches[0].position.next_sequence, agent.next);
}

TEST_F(FollowerStateTest, AgentThatRefusesItsNextSequenceIsAskedForTheOneBefore) {
  settle();
  agent.next = 12;
  EXPECT_TRUE(tell(200, agent.sample(11, 10)).batch.has_value());
  batches.clear();
  EXPECT_TRUE(tell(404, agent.error("OUT_OF_RANGE")).leaves_stream);
  run();
  EXPECT_EQ(take_story(), "/current /sample?from=11&count=1000 ");
  EXPECT_EQ(take_observations(), "") << "observation 11 is not counted again";
  EXPECT_EQ(state.position(), (Position{7, 12}));
}

// A lower sequence with the same instanceId is a broken agent.
TEST_F(FollowerStateTest, SequenceGoingBackIsNotedAndDoublesNothing) {
  settle();
  agent.next = 5;
  now = agent.at(200);
  agent.created = now;
  EXPECT_TRUE(tell(200, agent.sample(1, 10)).leaves_stream);
  run();
  EXPECT_EQ(take_story(), "/current ");
  EXPECT_NE(notes().find("went back under the same instanceId 7"), std::string::npos);
  EXPECT_EQ(take_observations(), "100=? 200=1 [100-200 the agent's sequence numbers went back] ");
  EXPECT_EQ(state.position(), (Position{7, 5}));
  EXPECT_GT(state.next().not_before, now) << "an agent that does so all the time is not asked all the time";
}

TEST_F(FollowerStateTest, ObservationsThatCameBeforeAreDropped) {
  settle();
  agent.next = 13;
  tell(200,
       agent.streams(13, agent.observation(9) + agent.observation(12) + agent.observation(11) + agent.observation(99)));
  EXPECT_EQ(take_observations(), "11=0 12=1 ");
}

TEST_F(FollowerStateTest, AbsurdNextSequenceIsRefused) {
  settle();
  EXPECT_TRUE(tell(200, agent.streams(18'446'744'073'709'551'615U, "")).leaves_stream);
  EXPECT_NE(state.view().last_error.find("nextSequence 18446744073709551615"), std::string::npos);
  EXPECT_EQ(state.position(), (Position{7, 11}));
  EXPECT_GT(state.next().not_before, now);
}

TEST_F(FollowerStateTest, ModelChangeIsProbedBeforeTheDocumentCounts) {
  settle();
  agent.changed = "2026-03-02T05:01:40Z";
  agent.items = {"new", "ex"};
  agent.next = 13;
  EXPECT_TRUE(tell(200, agent.sample(11, 10)).leaves_stream);
  EXPECT_TRUE(batches.empty());
  run();
  EXPECT_EQ(take_story(), "/probe /sample?from=11&count=1000 ");
  ASSERT_EQ(batches.size(), 1U);
  ASSERT_TRUE(batches[0].models.has_value());
  EXPECT_EQ(batches[0].machines.at(0).observations.at(0).item, 1U);
  EXPECT_EQ(take_observations(), "11=0 12=1 ");
}

TEST_F(FollowerStateTest, ChangeTimeThatNeverAgreesIsProbedOnce) {
  settle();
  agent.next = 12;
  std::string part = agent.sample(11, 10);
  part.replace(part.find("<Header"), 7, "<Header deviceModelChangeTime=\"always another\"");
  EXPECT_FALSE(tell(200, part).batch.has_value());
  run();
  EXPECT_EQ(take_story(), "/probe /sample?from=11&count=1000 ");
  agent.next = 13;
  part = agent.sample(12, 10);
  part.replace(part.find("<Header"), 7, "<Header deviceModelChangeTime=\"always another\"");
  EXPECT_TRUE(tell(200, part).batch.has_value());
}

TEST_F(FollowerStateTest, UnknownItemIsProbedOnceAndThenNoted) {
  settle();
  agent.next = 13;
  const std::string part = agent.streams(13, agent.observation(11) + agent.observation(12, "zz"));
  EXPECT_TRUE(tell(200, part).leaves_stream);
  EXPECT_EQ(state.next().path_and_query, "/probe");
  tell(200, agent.probe());
  EXPECT_EQ(state.next().path_and_query, "/sample?from=11&count=1000");
  tell(200, part);
  EXPECT_NE(notes().find("dataItemId \"zz\""), std::string::npos);
  EXPECT_EQ(take_observations(), "11=0 ");
}

TEST_F(FollowerStateTest, UnknownItemThatTheNewModelKnowsIsCounted) {
  settle();
  agent.next = 13;
  const std::string part = agent.streams(13, agent.observation(11) + agent.observation(12, "zz"));
  tell(200, part);
  agent.items = {"ex", "zz"};
  tell(200, agent.probe());
  tell(200, part);
  EXPECT_EQ(take_observations(), "11=0 12=1 ");
}

TEST_F(FollowerStateTest, TimesInTheFutureAreNeverCountedPastNow) {
  settle();
  agent.next = 5001;
  tell(200, agent.streams(5001, agent.observation(12) + agent.observation(5000)));
  EXPECT_NE(notes().find("ahead of the clock here"), std::string::npos);
  EXPECT_LE(batches.back().alive_at, now);
  EXPECT_EQ(take_observations(), fmt::format("12=1 {}=1 ", (now - agent.story).ns / 1'000'000'000));
}

// Trap 1: a machine's clock may well be some minutes ahead; that is for the counters to judge.
TEST_F(FollowerStateTest, TimesALittleAheadStayAsTheyAre) {
  settle();
  agent.next = 601;
  tell(200, agent.streams(601, agent.observation(600)));
  EXPECT_EQ(take_observations(), "600=1 ");
}

TEST_F(FollowerStateTest, ErrorInAStreamEndsItAndIsAskedAgainLater) {
  settle();
  EXPECT_FALSE(tell(200, agent.sample(11, 10)).leaves_stream);
  EXPECT_TRUE(tell(200, agent.error("INTERNAL_ERROR")).leaves_stream);
  EXPECT_EQ(state.view().last_error, "the agent answers INTERNAL_ERROR: so");
  EXPECT_GT(state.next().not_before, now);
  now = now + Duration::seconds(2);
  EXPECT_EQ(state.next().path_and_query, "/sample?from=11&count=1000");
}

TEST_F(FollowerStateTest, AgentThatDoesNotStreamIsPolled) {
  settle();
  EXPECT_TRUE(tell(400, agent.error("INVALID_REQUEST")).leaves_stream);
  run();
  EXPECT_EQ(take_story(), "/sample?from=11&count=1000 ");
  EXPECT_EQ(state.next().kind, Ask::Kind::document);
  EXPECT_EQ(state.next().not_before, now + Duration::seconds(1));
  state.cannot_stream();
  now = now + Duration::seconds(1);
  run();
  EXPECT_EQ(state.next().kind, Ask::Kind::document);
}

TEST_F(FollowerStateTest, StreamThatStaysSilentTwiceIsPolled) {
  settle();
  for (int n = 0; n < 2; ++n) {
    ASSERT_EQ(state.next().kind, Ask::Kind::stream);
    state.failed({ErrorCode::timed_out, "silence"}, now);
    now = now + Duration::seconds(60);
    run();
  }
  EXPECT_EQ(state.next().kind, Ask::Kind::document);
}

TEST_F(FollowerStateTest, PagesAndOtherDocumentsAreAnErrorAndALaterTry) {
  for (const std::string& body :
       {std::string("<html><body>Sign in</body></html>"), std::string("not XML"), std::string(),
        std::string("<!DOCTYPE a [<!ENTITY b \"c\">]><a>&b;</a>"), agent.probe()}) {
    start_from(std::nullopt);
    settle();
    EXPECT_TRUE(tell(200, body).leaves_stream);
    EXPECT_FALSE(state.view().last_error.empty());
    EXPECT_FALSE(state.view().connected_since.has_value());
    EXPECT_EQ(state.view().next_try_at, state.next().not_before);
    EXPECT_GT(state.next().not_before, now);
    EXPECT_EQ(state.position(), (Position{7, 11}));
  }
  tell(200, "<!DOCTYPE html>\n<html><body>Sign in</body></html>");
  EXPECT_EQ(state.view().last_error, "a web page answers where the agent should: is the address right?");
  tell(503, "busy");
  EXPECT_EQ(state.view().last_error, "the agent answers with HTTP status 503");
}

TEST_F(FollowerStateTest, WaitsGrowToAMinuteAndDifferFromFeedToFeed) {
  FollowerSettings other = settings;
  other.seed = 2;
  FollowerState twin(other, std::nullopt);
  double before = 0;
  for (int n = 0; n < 12; ++n) {
    state.failed({ErrorCode::unreachable, "gone"}, now);
    twin.failed({ErrorCode::unreachable, "gone"}, now);
    const double wait = (state.next().not_before - now).as_seconds();
    const double usual = std::min(60.0, static_cast<double>(1 << n));
    EXPECT_GE(wait, 0.75 * usual);
    EXPECT_LE(wait, 1.25 * usual);
    EXPECT_NE(state.next().not_before, twin.next().not_before);
    before = wait;
  }
  EXPECT_GT(before, 45);
  now = state.next().not_before;
  run();
  EXPECT_TRUE(state.view().last_error.empty());
  EXPECT_EQ(state.view().connected_since, now);
}

TEST_F(FollowerStateTest, InstanceThatChangesWithEveryAnswerIsNotChased) {
  settle();
  int asked = 0;
  for (; asked < 100 && state.next().not_before <= now; ++asked) {
    ++agent.instance;
    agent.first = 2;
    const auto [status, body] = agent.answer(state.next().path_and_query);
    tell(status, body);
  }
  EXPECT_LT(asked, 20);
}

TEST_F(FollowerStateTest, AgentBehindItsOwnEndIsNotAskedWithoutAPause) {
  settle();
  std::string stuck = agent.sample(11, 10);
  stuck.replace(stuck.find("lastSequence=\"10\""), 17, "lastSequence=\"9999999\"");
  for (int n = 0; n < 3; ++n) {
    tell(200, stuck);
    now = state.next().not_before;
  }
  EXPECT_EQ(state.next().kind, Ask::Kind::document);
  tell(200, stuck);
  EXPECT_GT(state.next().not_before, now);
}

}  // namespace
}  // namespace hw::feeds
