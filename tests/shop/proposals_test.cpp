// Stops tried and proposed, from counted hours to agreed stops and the API.

#include "src/service/proposals.h"

#include <boost/json/serialize.hpp>

#include "libs/formats/json.h"
#include "src/proposal/stop_instance.h"
#include "src/service/look_ahead.h"
#include "tests/shop/served.h"

namespace hw::shop {
namespace {

using service::ProposalView;

service::Signature signature_of(int id) { return {id_of(id), "Ada", {}, {}}; }

class ProposedStops : public testing::Test {
 protected:
  ProposedStops() {
    for (int week = 0; week < 5; ++week) {
      for (int day = 0; day < 7; ++day) {
        scene.play(day < 5 ? "mill1 |########................|" : "mill1 |........................|");
      }
    }
    must(scene.done("grease", 1));
    must(scene.keep());
  }

  ProposalView propose(int id, std::string moving = "fixed") {
    service::ProposalEdit edit;
    edit.id = id_of(id);
    edit.by = "Ada";
    edit.weeks = 6;
    edit.seconds = 1;
    edit.moving = std::move(moving);
    must(proposals.begin(edit, scene.now));
    proposals.wait();
    return must(proposals.latest());
  }

  service::AcceptEdit acceptance(int id, const ProposalView& proposal) const {
    service::AcceptEdit edit;
    edit.id = id_of(id);
    edit.by = "Ada";
    for (const auto& one : *proposal.differences) edit.differences.push_back(one.key);
    return edit;
  }

  std::vector<service::StopView> stops() const { return must(show_stops(scene.shop(), {})).stops; }
  std::int64_t entries() const { return static_cast<std::int64_t>(must(scene.store().entries({}, 1000)).size()); }
  LocalDate today() const { return scene.shop().calendar().zone.date_of(scene.now); }

  Scene scene;
  service::UseForecasts forecasts{scene.shop()};
  service::Proposals proposals{scene.shop(), forecasts};
};

TEST_F(ProposedStops, AProposalIsReadyWithCostsBoundAndDifferences) {
  const auto proposal = propose(2);
  ASSERT_EQ(proposal.state, "ready") << proposal.says.value_or("");
  EXPECT_EQ(proposal.currency, "EUR");
  EXPECT_LE(*proposal.bound, proposal.cost->total);
  EXPECT_LE(proposal.cost->total, proposal.now->cost.total + 1e-6);
  EXPECT_NEAR(*proposal.saving, proposal.now->cost.total - proposal.then->cost.total, 1e-9);
  EXPECT_EQ(proposal.rules->size(), 3u);
  ASSERT_FALSE(proposal.differences->empty());
  EXPECT_TRUE(proposal.without_place->empty());
  for (const auto& one : *proposal.differences) {
    EXPECT_EQ(one.kind, "new");
    EXPECT_GT(*one.on, today()) << "nothing is proposed for today";
    EXPECT_FALSE(one.accepted);
  }
}

TEST_F(ProposedStops, NothingChangesUntilSomebodyAccepts) {
  const auto before = entries();
  const auto proposal = propose(2);
  EXPECT_TRUE(stops().empty());
  EXPECT_EQ(entries(), before);
  const auto accepted = must(proposals.accept(id_of(2), acceptance(3, proposal), scene.now));
  EXPECT_EQ(stops().size(), proposal.differences->size());
  EXPECT_EQ(accepted.stops.size(), proposal.differences->size());
  EXPECT_EQ(entries(), before + static_cast<std::int64_t>(accepted.entries.size()));
  const auto latest = must(proposals.latest());
  for (const auto& one : *latest.differences) EXPECT_TRUE(one.accepted);
}

TEST_F(ProposedStops, WhatWasAcceptedIsWhatWasProposedAndIsThereAfterARestart) {
  const auto proposal = propose(2);
  must(proposals.accept(id_of(2), acceptance(3, proposal), scene.now));
  const auto& first = proposal.differences->at(0);
  const auto is_it = [&](const service::StopView& stop) {
    return stop.machine == first.machine && stop.on == *first.on && stop.shift == *first.shift &&
           stop.tasks.size() == first.tasks.size();
  };
  const auto agreed = stops();
  EXPECT_TRUE(std::any_of(agreed.begin(), agreed.end(), is_it));
  EXPECT_EQ(must(show_stops(scene.shop(), {})).stops.size(), must(scene.store().agreed_stops({})).size());
}

TEST_F(ProposedStops, AcceptedTwiceGivesTheSameAnswerAlsoWhenTheProposalIsForgotten) {
  const auto proposal = propose(2);
  const auto edit = acceptance(3, proposal);
  const auto once = must(proposals.accept(id_of(2), edit, scene.now));
  const auto twice = must(proposals.accept(id_of(2), edit, scene.now));
  EXPECT_EQ(formats::print_json(once.stops), formats::print_json(twice.stops));
  service::Proposals forgetful(scene.shop(), forecasts);
  const auto thrice = must(forgetful.accept(id_of(2), edit, scene.now));
  EXPECT_EQ(once.stops.size(), thrice.stops.size());
  EXPECT_EQ(stops().size(), proposal.differences->size());
  const auto other_id = proposals.accept(id_of(2), acceptance(4, proposal), scene.now);
  ASSERT_FALSE(other_id);
  EXPECT_EQ(other_id.error().saying->code, "difference-accepted");
}

TEST_F(ProposedStops, AnAcceptanceIsTakenBackUnlessSomebodyChangedAStop) {
  const auto proposal = propose(2);
  must(proposals.accept(id_of(2), acceptance(3, proposal), scene.now));
  const auto undone = must(proposals.undo(id_of(2), signature_of(4), scene.now));
  EXPECT_TRUE(stops().empty());
  EXPECT_EQ(must(proposals.undo(id_of(2), signature_of(4), scene.now)).stops.size(), undone.stops.size());
  const auto again = proposals.undo(id_of(2), signature_of(5), scene.now);
  ASSERT_FALSE(again);
  EXPECT_EQ(again.error().saying->code, "nothing-accepted");

  must(proposals.accept(id_of(2), acceptance(6, proposal), scene.now));
  const auto agreed = stops();
  service::StopChange change;
  change.id = id_of(7);
  change.by = "Bo";
  change.version = agreed.at(0).version;
  change.note = "with the new hoist";
  must(change_stop(scene.shop(), agreed.at(0).id, change, scene.now));
  const auto late = proposals.undo(id_of(2), signature_of(8), scene.now);
  ASSERT_FALSE(late);
  EXPECT_EQ(late.error().saying->code, "stop-changed");
  EXPECT_EQ(stops().size(), agreed.size()) << "all of it or nothing";
}

TEST_F(ProposedStops, ASecondProposalLeavesWhatIsAgreed) {
  const auto proposal = propose(2);
  must(proposals.accept(id_of(2), acceptance(3, proposal), scene.now));
  const auto agreed = stops();
  const auto second = propose(4);
  ASSERT_EQ(second.state, "ready") << second.says.value_or("");
  for (const auto& one : *second.differences) {
    EXPECT_NE(one.kind, "moved");
    EXPECT_NE(one.kind, "dropped");
  }
  EXPECT_EQ(stops().size(), agreed.size());
}

TEST_F(ProposedStops, OfTwoAcceptancesThatTakeTheSameTaskTheSecondIsRefusedWhole) {
  const auto proposal = propose(2);
  const auto& first = proposal.differences->at(0);
  service::StopEdit by_hand;
  by_hand.id = id_of(3);
  by_hand.by = "Bo";
  by_hand.on = today() + 1;
  by_hand.shift = "early";
  by_hand.tasks = {first.tasks.at(0)};
  must(agree_stop(scene.shop(), first.machine, by_hand, scene.now));
  const auto refused = proposals.accept(id_of(2), acceptance(4, proposal), scene.now);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().saying->code, "task-in-stop");
  EXPECT_EQ(stops().size(), 1u);
}

TEST_F(ProposedStops, ACancelledProposalLeavesNothing) {
  service::ProposalEdit edit;
  edit.id = id_of(2);
  edit.by = "Ada";
  edit.seconds = 300;
  must(proposals.begin(edit, scene.now));
  auto other = edit;
  other.id = id_of(3);
  const auto busy = proposals.begin(other, scene.now);
  ASSERT_FALSE(busy);
  EXPECT_EQ(busy.error().saying->code, "proposal-running");
  EXPECT_EQ(must(proposals.cancel(id_of(2), signature_of(4))).state, "cancelled");
  proposals.wait();
  const auto left = must(proposals.latest());
  EXPECT_EQ(left.state, "cancelled");
  EXPECT_FALSE(left.differences);
  service::AcceptEdit accept;
  accept.id = id_of(5);
  accept.by = "Ada";
  accept.differences = {"x"};
  EXPECT_EQ(proposals.accept(id_of(2), accept, scene.now).error().saying->code, "proposal-not-ready");
  EXPECT_TRUE(stops().empty());
  EXPECT_EQ(propose(6).state, "ready");
}

TEST_F(ProposedStops, AServerThatEndsMeanwhileLeavesNothing) {
  const auto before = entries();
  {
    service::Proposals ending(scene.shop(), forecasts);
    service::ProposalEdit edit;
    edit.id = id_of(2);
    edit.by = "Ada";
    edit.seconds = 300;
    must(ending.begin(edit, scene.now));
  }
  EXPECT_EQ(entries(), before);
  EXPECT_EQ(proposals.latest().error().saying->code, "no-proposal");
}

TEST_F(ProposedStops, WhatCannotBeIsRefusedWithItsField) {
  const auto refusal = [&](auto change) {
    service::ProposalEdit edit;
    edit.id = id_of(2);
    edit.by = "Ada";
    change(edit);
    const auto begun = proposals.begin(edit, scene.now);
    return begun ? std::string{"nothing"} : begun.error().message.substr(0, 8);
  };
  EXPECT_EQ(refusal([](auto& edit) { edit.weeks = 3; }), "weeks: 3");
  EXPECT_EQ(refusal([](auto& edit) { edit.weeks = 27; }), "weeks: 2");
  EXPECT_EQ(refusal([](auto& edit) { edit.seconds = 0.5; }), "seconds:");
  EXPECT_EQ(refusal([](auto& edit) { edit.moving = "never"; }), "moving: ");
  EXPECT_EQ(refusal([](auto& edit) { edit.id = "x"; }), "id: \"x\" ");
  const auto proposal = propose(3);
  auto edit = acceptance(4, proposal);
  edit.differences = {"nothing"};
  EXPECT_EQ(proposals.accept(id_of(3), edit, scene.now).error().code, ErrorCode::bad_input);
  edit.differences = {};
  EXPECT_EQ(proposals.accept(id_of(3), edit, scene.now).error().code, ErrorCode::bad_input);
  EXPECT_EQ(proposals.cancel(id_of(9), signature_of(5)).error().code, ErrorCode::not_found);
}

TEST_F(ProposedStops, TheShopsInstanceIsSoundAndKnowsTheAgreedStops) {
  service::StopEdit edit;
  edit.id = id_of(2);
  edit.by = "Ada";
  edit.on = today() + 2;
  edit.shift = "early";
  edit.tasks = {"grease"};
  must(agree_stop(scene.shop(), "mill1", edit, scene.now));
  const auto ahead = must(service::look_ahead(scene.shop(), forecasts, std::nullopt, scene.now));
  ASSERT_EQ(ahead.agreed.size(), 1u);
  EXPECT_EQ(ahead.agreed[0].cell, "c");
  const auto made = make_instance(ahead, 42, proposal::Moving::fixed);
  const auto checked = plan::check_instance(made.instance);
  EXPECT_TRUE(checked) << checked.error().message;
  for (const auto& task : made.instance.machines.at(0).tasks) EXPECT_EQ(task.agreed.has_value(), task.id == "grease");
}

// Berlin changes its clocks on 29 March 2026: the shift begins at the same time by the clock on the wall.
TEST_F(ProposedStops, AStopAfterTheClocksAreChangedIsTriedAndAgreedByTheClockOnTheWall) {
  service::StopTryView wanted{"mill1", LocalDate::of(2026, 4, 8), "early", {"grease"}, {}};
  const auto estimate = must(try_stop(scene.shop(), forecasts, wanted, scene.now));
  EXPECT_TRUE(estimate.troubles.empty());
  service::StopEdit edit;
  edit.id = id_of(2);
  edit.by = "Ada";
  edit.on = wanted.on;
  edit.shift = "early";
  edit.tasks = {"grease"};
  const auto stop = must(agree_stop(scene.shop(), "mill1", edit, scene.now));
  EXPECT_EQ(print(stop.begins_at), "2026-04-08T04:00:00Z");
}

TEST_F(ProposedStops, ACheckOfTheRoundMayBeTakenAlongAndCostsNothingByItsTime) {
  service::StopTryView wanted{"mill1", today() + 3, "early", {"grease", "look"}, {}};
  const auto estimate = must(try_stop(scene.shop(), forecasts, wanted, scene.now));
  ASSERT_EQ(estimate.tasks.size(), 2u);
  EXPECT_EQ(estimate.tasks[1].loss, 0);
}

TEST_F(Served, StopsAreTriedProposedAndAcceptedOverTheWire) {
  const std::string on = print(scene.shop().calendar().zone.date_of(scene.now) + 1);
  const auto estimate =
      answer_of("POST", "/api/stops/estimate", "/api/stops/estimate",
                fmt::format(R"({{"machine":"mill1","on":"{}","shift":"early","tasks":["grease"]}})", on));
  EXPECT_EQ(estimate.at("currency"), "EUR");
  EXPECT_EQ(ask("GET", "/api/proposals/latest").status, 404);
  const std::string edit =
      fmt::format(R"({{"id":"{}","by":"Ada","weeks":12,"seconds":1,"moving":"priced"}})", id_of(1));
  auto proposal = answer_of("POST", "/api/proposals", "/api/proposals", edit);
  while (proposal.at("state") == "running") {
    proposal = answer_of("GET", "/api/proposals/latest", "/api/proposals/latest");
  }
  ASSERT_EQ(proposal.at("state"), "ready") << boost::json::serialize(proposal);
  ASSERT_FALSE(proposal.at("differences").as_array().empty());
  const std::string key{proposal.at("differences").at(0).at("key").as_string()};
  const std::string path = "/api/proposals/" + id_of(1);
  const auto accepted = answer_of("POST", "/api/proposals/{proposal}/accept", path + "/accept",
                                  fmt::format(R"({{"id":"{}","by":"Ada","differences":["{}"]}})", id_of(2), key));
  EXPECT_EQ(accepted.at("stops").as_array().size(), 1u);
  const std::string signature = fmt::format(R"({{"id":"{}","by":"Ada"}})", id_of(3));
  const auto undone = answer_of("POST", "/api/proposals/{proposal}/undo", path + "/undo", signature);
  EXPECT_EQ(undone.at("stops").at(0).at("state"), "withdrawn");
  EXPECT_EQ(answer_of("POST", "/api/proposals/{proposal}/cancel", path + "/cancel", signature).at("state"), "ready");
}

}  // namespace
}  // namespace hw::shop
