// The yearly services of the scene's two mills, proposed over the year, agreed as stops and taken back.

#include "src/service/kind_services.h"
#include "src/service/proposals.h"
#include "tests/shop/served.h"

namespace hw::shop {
namespace {

using service::ProposalView;

constexpr std::string_view yearly_tasks = R"([[task]]
key = "oil"
title = "Change the oil"
assembly = "spindle"
work = "replace"
skill = "technician"
energy = "isolated"
minutes = 60
trigger = [ { calendar = "12 months", heads_up_days = 30, tolerance_days = 30 } ]
steps = []
reason = "It ages."
caution = "It is hot."
parts = []

[[task]]
key = "battery"
title = "Change the battery"
assembly = "spindle"
work = "replace"
skill = "technician"
energy = "powered at rest"
minutes = 30
trigger = [ { calendar = "12 months", heads_up_days = 30, tolerance_days = 30 } ]
steps = []
reason = "It runs down."
caution = "Power stays on."
parts = []

[[service]]
key = "yearly"
title = "Yearly service"
title_de = "Jahreswartung"
months = 12
people = 2
task = ["oil", "battery"]
)";

class ProposedServices : public testing::Test {
 protected:
  Result<ProposalView> ask(int id, std::optional<int> weeks = {}, std::string what = "services") {
    service::ProposalEdit edit;
    edit.id = id_of(id);
    edit.by = "Ada";
    edit.what = std::move(what);
    edit.weeks = weeks;
    edit.seconds = 1;
    return proposals.begin(edit, scene.now);
  }
  ProposalView propose(int id) {
    must(ask(id));
    proposals.wait();
    return must(proposals.latest());
  }
  std::vector<service::StopView> stops() const { return must(show_stops(scene.shop(), {})).stops; }
  LocalDate today() const { return scene.shop().calendar().zone.date_of(scene.now); }

  Scene scene{"2026-03-02T06:00:00Z", "Europe/Berlin", MoreTasks{yearly_tasks}};
  service::UseForecasts forecasts{scene.shop()};
  service::Proposals proposals{scene.shop(), forecasts};
};

TEST_F(ProposedServices, EveryMachinesServiceIsProposedOnceWithItsTasks) {
  const auto proposal = propose(2);
  ASSERT_EQ(proposal.state, "ready") << proposal.says.value_or("");
  EXPECT_EQ(proposal.what, "services");
  EXPECT_EQ(proposal.weeks, 52);
  ASSERT_EQ(proposal.differences->size(), 2u);
  EXPECT_TRUE(proposal.without_place->empty());
  EXPECT_TRUE(proposal.later->empty());
  std::set<std::string> machines;
  for (const auto& one : *proposal.differences) {
    machines.insert(one.machine);
    EXPECT_EQ(one.kind, "new");
    EXPECT_EQ(one.service, "yearly");
    EXPECT_EQ(one.tasks, (std::vector<std::string>{"battery", "oil"})) << "the scene's other tasks are not in it";
    EXPECT_EQ(one.energy, "isolated");
    EXPECT_EQ(one.minutes, 45 + 60 + 30);
    EXPECT_LE(*one.on, today() + 363);
  }
  EXPECT_EQ(machines.size(), 2u);
}

TEST_F(ProposedServices, AcceptedItIsAnAgreedStopWithTheseTasksAndCanBeTakenBack) {
  const auto proposal = propose(2);
  service::AcceptEdit edit;
  edit.id = id_of(3);
  edit.by = "Ada";
  edit.differences = {proposal.differences->at(0).key};
  must(proposals.accept(id_of(2), edit, scene.now));
  ASSERT_EQ(stops().size(), 1u);
  EXPECT_EQ(stops()[0].tasks.size(), 2u);
  EXPECT_EQ(stops()[0].on, *proposal.differences->at(0).on);
  const auto card = must(show_stop(scene.shop(), stops()[0].id, scene.now));
  ASSERT_TRUE(card.service) << "its job card says so";
  EXPECT_EQ(card.service->title_de, "Jahreswartung");
  const auto second = propose(4);
  EXPECT_EQ(second.differences->size(), 1u) << "what is agreed is no difference any more";
  EXPECT_NE(second.differences->at(0).machine, stops()[0].machine);
}

TEST_F(ProposedServices, AnAcceptanceIsTakenBack) {
  const auto proposal = propose(2);
  service::AcceptEdit edit;
  edit.id = id_of(3);
  edit.by = "Ada";
  for (const auto& one : *proposal.differences) edit.differences.push_back(one.key);
  must(proposals.accept(id_of(2), edit, scene.now));
  EXPECT_EQ(stops().size(), 2u);
  must(proposals.undo(id_of(2), {id_of(4), "Ada", {}, {}}, scene.now));
  EXPECT_TRUE(stops().empty());
}

TEST_F(ProposedServices, OtherWeeksAndUnknownWordsAreRefusedWithTheirField) {
  EXPECT_EQ(ask(2, 12).error().message, "weeks: services are spread over 52, not 12; leave it out");
  EXPECT_EQ(ask(2, {}, "yearly").error().message, "what: \"yearly\" is neither all nor services");
  EXPECT_EQ(ask(2, 52, "all").error().message, "weeks: 52 must be 4 to 26");
  EXPECT_EQ(must(ask(3, 52)).weeks, 52);
  proposals.wait();
}

TEST_F(ProposedServices, TheShopTellsTheServicesOfItsKinds) {
  const auto shop = show_shop(scene.shop(), scene.now);
  ASSERT_EQ(shop.kinds.at(0).services.size(), 1u);
  EXPECT_EQ(shop.kinds[0].services[0].title_de, "Jahreswartung");
  EXPECT_EQ(shop.kinds[0].services[0].tasks, (std::vector<std::string>{"oil", "battery"}));
}

TEST_F(ProposedServices, AStopIsAServiceIfItHoldsHalfOfWhatTheMachineHasOfIt) {
  const auto* machine = must(scene.shop().find("mill1"));
  const auto service_of = [&](std::vector<std::string> keys) {
    std::vector<service::PlannedTask> tasks(keys.size());
    for (std::size_t i = 0; i < keys.size(); ++i) tasks[i].task = keys[i];
    const auto* service = service::service_in(scene.shop(), machine->record, tasks);
    return service ? service->key : "none";
  };
  EXPECT_EQ(service_of({"oil", "battery"}), "yearly");
  EXPECT_EQ(service_of({"filter", "oil"}), "yearly");
  EXPECT_EQ(service_of({"filter", "grease"}), "none");
  EXPECT_EQ(service_of({}), "none");
  EXPECT_TRUE(service::services_of(scene.shop(), "lathe").empty());
}

TEST_F(Served, ServicesAreProposedOverTheWireAlsoWhereNoKindHasOne) {
  const std::string edit =
      fmt::format(R"({{"id":"{}","by":"Ada","what":"services","seconds":1,"moving":"priced"}})", id_of(1));
  auto proposal = answer_of("POST", "/api/proposals", "/api/proposals", edit);
  while (proposal.at("state") == "running") {
    proposal = answer_of("GET", "/api/proposals/latest", "/api/proposals/latest");
  }
  EXPECT_EQ(proposal.at("state"), "ready");
  EXPECT_EQ(proposal.at("what"), "services");
  EXPECT_TRUE(proposal.at("differences").as_array().empty());
  const auto wrong =
      ask("POST", "/api/proposals", fmt::format(R"({{"id":"{}","by":"Ada","what":"services","weeks":12}})", id_of(2)));
  expect_problem(wrong, 400, "weeks: services are spread over 52");
}

}  // namespace
}  // namespace hw::shop
