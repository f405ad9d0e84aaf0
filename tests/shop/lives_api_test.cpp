// Lives of parts over the wire, held against api/openapi.yaml.

#include <gmock/gmock.h>

#include "tests/shop/served.h"

namespace hw::shop {
namespace {

const std::string of_part = "/api/lives/{kind}/{task}", filter = "/api/lives/mill/filter";

TEST_F(Served, LivesOfPartsAreToldInTheContractsWords) {
  int id = 100;
  for (const std::string_view found : {"", "failed", "worn", "failed", "failed"}) {
    scene.play("mill1 |###|");
    const std::string more = found.empty() ? "" : fmt::format(R"(,"as_found":"{}")", found);
    answer_of("POST", "/api/machines/{machine}/tasks/{task}/done", "/api/machines/mill1/tasks/filter/done",
              done_body(++id, more));
  }
  EXPECT_EQ(answer_of("GET", "/api/lives", "/api/lives").at("parts").at(0).at("failures"), 3);
  const auto study = answer_of("GET", of_part, filter + "?planned=10&failed=900&interval=2");
  EXPECT_EQ(study.at("lives").as_array().size(), 4u);
  const auto moved = answer_of(
      "POST", of_part + "/interval", filter + "/interval",
      done_body(++id, R"(,"interval":2,"places":[{"machine":"mill1","version":1}],"why":"they fail","planned":10)"));
  EXPECT_EQ(moved.at("entries").at(0).at("kind"), "interval moved");
  answer_of("GET", "/api/logbook", "/api/logbook?kind=interval%20moved");
  answer_of("GET", "/api/today", "/api/today");
}

TEST_F(Served, WhatIsNoQuestionAboutLivesIsAProblem) {
  expect_problem(ask("GET", filter + "?planned=-1"), 400, "planned");
  expect_problem(ask("GET", filter + "?interval=much"), 400, "interval");
  expect_problem(ask("GET", filter + "?interval=1e-300"), 400, "interval");
  expect_problem(ask("GET", "/api/lives/mill/nothing"), 404, "nothing");
  expect_problem(ask("POST", filter + "/interval", done_body(7, R"(,"interval":2,"places":[],"why":"w")")), 400,
                 "places");
}

}  // namespace
}  // namespace hw::shop
