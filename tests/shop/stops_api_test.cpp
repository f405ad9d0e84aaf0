// Stops over the wire, held against api/openapi.yaml.

#include <boost/json/value.hpp>
#include <gmock/gmock.h>

#include "tests/shop/served.h"

namespace hw::shop {
namespace {

const std::string of_stops_machine = "/api/machines/{machine}", stops_mill1 = "/api/machines/mill1";
const std::string of_stop = "/api/stops/{stop}", first = "/api/stops/" + id_of(1);

std::string stop_body(int id, std::string_view tasks = R"(["filter","grease"])") {
  return fmt::format(R"({{"id":"{}","by":"Ada","on":"2026-03-04","shift":"early","tasks":{},"note":"n"}})", id_of(id),
                     tasks);
}

TEST_F(Served, StopsAreToldInTheContractsWords) {
  const auto stop = answer_of("POST", of_stops_machine + "/stops", stops_mill1 + "/stops", stop_body(1));
  EXPECT_EQ(stop.at("energy"), "isolated");
  EXPECT_EQ(stop.at("begins_at"), "2026-03-04T05:00:00Z");
  EXPECT_EQ(answer_of("GET", "/api/floor", "/api/floor").at("machines").at(0).at("next_stop").at("id"),
            id_of(1).c_str());
  answer_of("POST", of_stop + "/change", first + "/change", done_body(2, R"(,"version":1,"on":"2026-03-07")"));
  EXPECT_EQ(answer_of("GET", "/api/stops", "/api/stops?machine=mill1&state=agreed").at("stops").as_array().size(), 1u);
  const auto card = answer_of("GET", of_stop, first);
  EXPECT_EQ(card.at("tasks").as_array().size(), 2u);
  EXPECT_EQ(card.at("order").at("state_changes"), 4);
  const auto closed = answer_of(
      "POST", of_stop + "/close", first + "/close",
      done_body(3, fmt::format(R"(,"version":2,"began_at":"2026-03-02T07:00:00Z","ended_at":"2026-03-02T09:00:00Z",)"
                               R"("note":"n","done":[{{"id":"{}","task":"filter","by":"Bo","as_found":"failed",)"
                               R"("at":"2026-03-02T08:00:00Z","note":"torn","minutes":30,"readings":[]}}])",
                               id_of(4))));
  EXPECT_EQ(closed.at("state"), "closed");
  EXPECT_EQ(closed.at("tasks").at(0).at("as_found"), "failed");
  EXPECT_EQ(answer_of("GET", "/api/stops", "/api/stops?state=all").at("stops").as_array().size(), 1u);
  answer_of("GET", "/api/logbook", "/api/logbook");
  answer_of("GET", of_stops_machine, stops_mill1);
  answer_of("GET", of_stop, first);
}

TEST_F(Served, AStopIsWithdrawnInTheContractsWords) {
  ask("POST", stops_mill1 + "/stops", stop_body(1));
  const auto stop =
      answer_of("POST", of_stop + "/withdraw", first + "/withdraw", done_body(2, R"(,"why":"hot order")"));
  EXPECT_EQ(stop.at("withdrawn").at("why"), "hot order");
  answer_of("GET", "/api/stops", "/api/stops?state=withdrawn");
}

TEST_F(Served, TheHorizonTellsShiftsAndAgreedStops) {
  ask("POST", stops_mill1 + "/stops", stop_body(1));
  const auto horizon = answer_of("GET", "/api/horizon", "/api/horizon");
  EXPECT_EQ(horizon.at("shifts").at(0).at("begins"), "06:00");
  EXPECT_EQ(horizon.at("shifts").at(0).at("weekdays").as_array().size(), 5u);
  EXPECT_EQ(horizon.at("stops").as_array().size(), 1u);
  EXPECT_TRUE(answer_of("GET", "/api/horizon", "/api/horizon?machine=mill2").at("stops").as_array().empty());
}

// Of today and tomorrow, and what is over until somebody says how it went.
TEST_F(Served, TodayNamesTheStopsThatAreNearOrOverAndNotClosed) {
  const auto stops_named = [&] {
    int count = 0;
    const auto view = answer_of("GET", "/api/today", "/api/today");
    for (const auto& item : view.at("items").as_array()) count += item.at("kind") == "stop";
    return count;
  };
  ask("POST", stops_mill1 + "/stops", stop_body(1));
  EXPECT_EQ(stops_named(), 0) << "Wednesday, seen on Monday";
  ask("POST", first + "/change", done_body(2, R"(,"version":1,"on":"2026-03-03")"));
  EXPECT_EQ(stops_named(), 1) << "tomorrow";
  scene.now = scene.now + Duration::hours(48);
  EXPECT_EQ(stops_named(), 1) << "over and not closed";
  ask("POST", first + "/close",
      done_body(3, R"(,"version":2,"began_at":"2026-03-03T06:00:00Z","ended_at":"2026-03-03T07:00:00Z","done":[])"));
  EXPECT_EQ(stops_named(), 0);
}

TEST_F(Served, WhatIsNoStopIsAProblem) {
  expect_problem(ask("GET", "/api/stops?state=shut"), 400, "state: \"shut\"");
  expect_problem(ask("GET", "/api/stops?machine=mill9"), 404, "mill9");
  expect_problem(ask("GET", "/api/stops/" + id_of(9)), 404, id_of(9));
  expect_problem(ask("POST", stops_mill1 + "/stops", stop_body(1, "[]")), 400, "tasks");
  expect_problem(ask("POST", stops_mill1 + "/stops", stop_body(1, R"("filter")")), 400, "tasks");
  expect_problem(ask("POST", stops_mill1 + "/stops", done_body(1, R"(,"shift":"early","tasks":["filter"])")), 400,
                 "on");
  expect_problem(ask("POST", first + "/withdraw", done_body(2, R"(,"why":"x")")), 404, id_of(1));
  ask("POST", stops_mill1 + "/stops", stop_body(1));
  expect_problem(ask("POST", first + "/close",
                     done_body(2, fmt::format(R"(,"version":1,"began_at":"2026-03-02T07:00:00Z",)"
                                              R"("ended_at":"2026-03-02T07:00:00Z","done":[{{"id":"{}",)"
                                              R"("task":"filter","as_found":"broken"}}])",
                                              id_of(3)))),
                 400, "as_found");
  expect_problem(ask("POST", first + "/change", done_body(2, R"(,"version":7,"note":"x")")), 409, "version 1, not 7");
  EXPECT_EQ(scene.machine().entries.size(), 1u);
}

}  // namespace
}  // namespace hw::shop
