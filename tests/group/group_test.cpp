// Servers that share a database answer as one.

#include <atomic>

#include <boost/json.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "libs/http/loopback_test.h"
#include "src/web/contract.h"
#include "src/web/held_plants.h"
#include "src/web/shop_site.h"
#include "tests/group/group_scene.h"
#include "tests/places/places.h"
#include "tests/shop/schema_check.h"

namespace hw::group {
namespace {

using http::comes_true;
using testing::HasSubstr;

struct Groups : testing::Test {
  GroupScene scene;
  std::string other(const std::string& name) { return name == "a" ? "b" : "a"; }
  // Both have joined, and each of the three plants is held.
  void join_both() {
    scene.join("a");
    scene.join("b");
    ASSERT_TRUE(comes_true([&] {
      const bool all_held =
          scene.holder_of("north") != "" && scene.holder_of("south") != "" && scene.holder_of("group") != "";
      return all_held && scene.member("b").server->held().counts().held > 0;
    }));
  }
};

TEST_F(Groups, AServerAloneHoldsAllAndAnswersForEachByItsName) {
  scene.join("a");
  for (const std::string plant : {"north", "south", "group"}) {
    const auto answer = scene.ask("a", plant, "GET", "/api/shop");
    EXPECT_EQ(answer.status, 200) << plant;
    EXPECT_THAT(std::string{answer.text()}, HasSubstr("Plant " + plant));
  }
  const http::Headers by_name{{"Host", "north.shops.example"}, {"Authorization", scene.pass_of("north")}};
  EXPECT_EQ(scene.ask("a", "", "GET", "/api/shop", "", by_name).status, 200);
  EXPECT_EQ(scene.ask("a", "", "GET", "/healthz", "", {{"Host", "localhost"}}).status, 200);
  EXPECT_EQ(scene.ask("a", "", "GET", "/readyz", "", {{"Host", "localhost"}}).status, 200);
}

TEST_F(Groups, WhatIsNoPlantsNameIsRefused) {
  scene.join("a");
  EXPECT_EQ(scene.ask("a", "west", "GET", "/api/shop").status, 404);
  EXPECT_EQ(scene.ask("a", "", "GET", "/api/shop", "", {{"Host", "north.elsewhere.example"}}).status, 421);
  EXPECT_EQ(scene.ask("a", "", "GET", "/api/shop", "", {{"Host", "a.north.shops.example"}}).status, 421);
}

TEST_F(Groups, APassOfOnePlantOpensNoOther) {
  scene.join("a");
  EXPECT_EQ(scene.ask("a", "south", "GET", "/api/floor", "", {{"Authorization", scene.pass_of("north")}}).status, 401);
  EXPECT_EQ(scene.ask("a", "south", "GET", "/api/floor", "", {{"Authorization", scene.pass_of("group")}}).status, 401);
}

TEST_F(Groups, ServersSharePlantsAndAnyOfThemAnswersForAll) {
  join_both();
  const std::string holder = scene.holder_of("north");
  const auto done = scene.ask(other(holder), "north", "POST", std::string{done_target}, done_body(1));
  EXPECT_EQ(done.status, 200) << done.text();
  const auto again = scene.ask(holder, "north", "POST", std::string{done_target}, done_body(1));
  EXPECT_EQ(again.status, 200) << "the same again is the same entry";
  for (const std::string server : {"a", "b"}) {
    EXPECT_EQ(entries_of(scene.ask(server, "north", "GET", "/api/logbook")), 1u) << server;
    EXPECT_EQ(entries_of(scene.ask(server, "south", "GET", "/api/logbook")), 0u) << server;
  }
}

TEST_F(Groups, RefusalsComeThroughAsTheyAre) {
  join_both();
  const std::string passing = other(scene.holder_of("north"));
  const auto wrong = scene.ask(passing, "north", "POST", std::string{done_target}, R"({"id":"x","by":"Ada"})");
  EXPECT_EQ(wrong.status, 400);
  EXPECT_EQ(wrong.headers.find("Content-Type"), "application/problem+json");
  EXPECT_THAT(std::string{wrong.text()}, HasSubstr("is no UUID"));
  EXPECT_EQ(scene.ask(passing, "north", "GET", "/api/floor", "", {{"Authorization", "Bearer x"}}).status, 401);
  EXPECT_EQ(wrong.headers.count("Content-Security-Policy"), 1u) << "said once";
}

TEST_F(Groups, EventsComeThroughTheOtherServer) {
  join_both();
  const std::string holder = scene.holder_of("north"), passing = other(holder);
  std::atomic<bool> is_told = false;
  http::CancelToken end;
  std::thread listener([&] {
    http::StreamOptions options;
    const std::uint16_t port = scene.member(passing).server->port();
    options.headers = {{"Host", fmt::format("north.localhost:{}", port)},
                       {"Authorization", scene.pass_of("north")},
                       {"Accept", "text/event-stream"}};
    options.cancel = end;
    const auto url = http::parse_url(fmt::format("http://127.0.0.1:{}/api/events", port));
    (void)http::get_stream(
        *url, options, [](int, const http::Headers&) -> Result<void> { return {}; },
        [&](std::string_view piece) -> Result<void> {
          if (piece.find("event: tasks") != std::string_view::npos) is_told = true;
          return {};
        });
  });
  int id = 0;
  const bool came = comes_true([&] {
    if (!is_told) (void)scene.ask(holder, "north", "POST", std::string{done_target}, done_body(++id % 3 + 1));
    return is_told.load();
  });
  end.cancel();
  listener.join();
  EXPECT_TRUE(came);
}

// Who says that he passes on for somebody at the server's own computer is not believed.
TEST_F(Groups, OnlyAServerOfTheGroupIsBelievedWhomItPassesOn) {
  join_both();
  const std::string holder = scene.holder_of("north");
  const auto ask_as = [&](const std::string& secret) {
    return scene.ask(holder, "north", "GET", "/api/join", "",
                     {{"Host", "north.shops.example"},
                      {"X-Hourwright-Server", secret},
                      {"X-Hourwright-Remote", "192.0.2.7"},
                      {"X-Hourwright-Line", "tls"}});
  };
  EXPECT_EQ(ask_as("").status, ask_as("guessed").status);
  const auto looping = scene.ask(
      other(holder), "north", "GET", "/api/shop", "",
      {{"X-Hourwright-Server", scene.member(other(holder)).database->own().secret}, {"X-Hourwright-Remote", "::1"}});
  EXPECT_EQ(looping.status, 503) << "what was passed on once is not passed on again";
}

TEST_F(Groups, WhenAServerLeavesTheOthersTakeItsPlants) {
  join_both();
  const std::string holder = scene.holder_of("north"), left = other(holder);
  ASSERT_EQ(scene.ask(holder, "north", "POST", std::string{done_target}, done_body(1)).status, 200);
  scene.leave(holder);
  ASSERT_TRUE(comes_true([&] { return scene.holder_of("north") == left; }));
  EXPECT_EQ(entries_of(scene.ask(left, "north", "GET", "/api/logbook")), 1u);
  EXPECT_EQ(scene.ask(left, "north", "POST", std::string{done_target}, done_body(2)).status, 200);
}

TEST_F(Groups, ANewServerGetsItsShare) {
  scene.join("a");
  ASSERT_EQ(scene.member("a").server->held().counts().held, 3u);
  scene.join("b");
  EXPECT_TRUE(comes_true([&] { return scene.member("b").server->held().counts().held == 1; }));
  EXPECT_TRUE(comes_true([&] { return scene.member("a").server->held().counts().held == 2; }));
}

TEST_F(Groups, TheGroupsFloorShowsEveryPlantWhicheverServerHoldsIt) {
  join_both();
  const auto plants = [&](const std::string& server) {
    const auto answer = scene.ask(server, "group", "GET", "/api/group/floor");
    EXPECT_EQ(answer.status, 200) << answer.text();
    return boost::json::parse(answer.text()).at("plants").as_array();
  };
  ASSERT_TRUE(comes_true([&] {
    const auto all = plants("a");
    return all.size() == 2 && !all[0].at("line").is_null() && !all[1].at("line").is_null();
  }));
  const auto contract = boost::json::parse(*web::read_contract(in_source("")));
  const auto& schema = contract.at_pointer("/components/schemas/GroupFloor");
  for (const std::string server : {"a", "b"}) {
    const auto answer = scene.ask(server, "group", "GET", "/api/group/floor");
    EXPECT_THAT(shop::mistakes_in(boost::json::parse(answer.text()), schema, contract), testing::IsEmpty());
    const auto all = plants(server);
    EXPECT_EQ(all[0].at("key"), "north");
    EXPECT_EQ(all[0].at("title"), "Plant north");
    EXPECT_EQ(all[1].at("held"), true);
    const auto& line = all[1].at("line");
    EXPECT_EQ(line.at("machines").at(0).at("key"), "l1");
    EXPECT_EQ(line.at("machines").at(0).at("feed"), "none");
    EXPECT_EQ(line.at("weeks").as_array().size(), 13u);
  }
  EXPECT_EQ(scene.ask("a", "north", "GET", "/api/group/floor").status, 404) << "a plant knows nothing of the others";
  EXPECT_EQ(scene.ask("a", "group", "GET", "/api/group/floor", "", {{"Authorization", "Bearer x"}}).status, 401);
  EXPECT_EQ(boost::json::parse(scene.ask("a", "group", "GET", "/api/shop").text()).at("group"), true);
  EXPECT_EQ(boost::json::parse(scene.ask("a", "north", "GET", "/api/shop").text()).at("group"), false);
}

// North's batteries last for three days, south's for eight.
TEST_F(Groups, LivesOfAllPlantsAreComparedWhicheverServerHoldsThem) {
  join_both();
  int id = 100;
  for (const auto& [plant, days] : std::map<std::string, int>{{"north", 3}, {"south", 8}}) {
    for (int ago = 49; ago >= 0; ago -= days) {
      const std::string at = print(now() - Duration::hours(24 * ago)), sent = print(now());
      const auto done =
          scene.ask("a", plant, "POST", "/api/machines/l1/tasks/battery/done",
                    fmt::format(R"({{"id":"{}","by":"Ada","at":"{}","sent_at":"{}","as_found":"failed"}})", id_of(++id),
                                at, sent));
      ASSERT_EQ(done.status, 200) << done.text();
    }
  }
  const auto contract = boost::json::parse(*web::read_contract(in_source("")));
  const auto expect_schema = [&](const http::Response& answer, const std::string& schema) {
    ASSERT_EQ(answer.status, 200) << answer.text();
    EXPECT_THAT(shop::mistakes_in(boost::json::parse(answer.text()),
                                  contract.at_pointer("/components/schemas/" + schema), contract),
                testing::IsEmpty());
  };
  const auto lives = [&](const std::string& server) {
    const auto answer = scene.ask(server, "group", "GET", "/api/group/lives");
    const auto parts = boost::json::parse(answer.text()).at("parts").as_array();
    return parts.empty() ? 0 : parts[0].at("failures").to_number<int>();
  };
  for (const std::string server : {"a", "b"}) {
    ASSERT_TRUE(comes_true([&] { return lives(server) == 16 + 6; })) << server;
    expect_schema(scene.ask(server, "group", "GET", "/api/group/lives"), "GroupParts");
    const auto study = scene.ask(server, "group", "GET", "/api/group/lives/lathe/battery");
    expect_schema(study, "GroupPartStudy");
    const auto told = boost::json::parse(study.text());
    EXPECT_EQ(told.at("part").at("verdict"), "differ");
    EXPECT_EQ(told.at("part").at("fails_most"), "Plant north");
    EXPECT_EQ(told.at("plants").at(1).at("plant"), "south");
  }
  EXPECT_EQ(scene.ask("a", "group", "GET", "/api/group/lives/lathe/filter").status, 404);
  EXPECT_EQ(scene.ask("a", "north", "GET", "/api/group/lives").status, 404) << "a plant knows nothing of the others";
  EXPECT_EQ(scene.ask("a", "north", "GET", "/api/group/lives/lathe/battery").status, 404);
}

// As after a stop of some seconds: another server holds the plant, and what this one has in memory is old.
TEST_F(Groups, AServerThatTheOthersGaveUpAnswersForNothingBeforeItHasLookedAgain) {
  scene.join("a");
  scene.join("b");
  ASSERT_TRUE(comes_true([&] { return scene.member("b").server->held().counts().held == 1; }));
  const std::string plant = scene.holder_of("north") == "a" ? "north" : "south";
  const auto old = scene.member("a").server->held().find(plant);
  ASSERT_TRUE(old);
  const auto db = std::move(*sql::open_postgres(scene.address(), sql::Access::write, {}));
  ASSERT_TRUE(
      db->execute("update server_sign set until_ms = 0 where server = $1", scene.member("a").database->own().server));
  ASSERT_TRUE(comes_true([&] { return scene.member("b").server->held().find(plant) != nullptr; }));
  const auto writing = old->store->begin();
  ASSERT_FALSE(writing);
  EXPECT_EQ(writing.error().code, ErrorCode::in_use);
  EXPECT_EQ(scene.ask("b", plant, "POST", std::string{done_target}, done_body(1)).status, 200);
  EXPECT_TRUE(comes_true([&] { return entries_of(scene.ask("a", plant, "GET", "/api/logbook")) == 1; }));
}

}  // namespace
}  // namespace hw::group
