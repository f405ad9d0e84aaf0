// The stores over the wire, held against api/openapi.yaml.

#include <gmock/gmock.h>

#include "tests/shop/served.h"

namespace hw::shop {
namespace {

const std::string of_stored = "/api/stores/parts/{part}", f1 = "/api/stores/parts/F-1";
const std::string of_order = "/api/stores/orders", of_move = "/api/stores/movements";

std::string part_body(int id, std::string_view more = "") {
  return fmt::format(
      R"({{"id":"{}","by":"Ada","title":"Filter bag","unit":"pc","supplier":"Kranz","price":20,"lead_days":4,)"
      R"("names":["Bag"],"references":[{{"supplier":"Kranz","reference":"K 7"}}],"failures_per_year":30{}}})",
      id_of(id), more);
}

std::string lines_body(int id, std::string_view more) {
  return fmt::format(R"({{"id":"{}","by":"Bo","lines":[{{"part":"F-1","quantity":2}}]{}}})", id_of(id), more);
}

TEST_F(Served, TheStoresAreToldInTheContractsWords) {
  const auto part = answer_of("PUT", of_stored, f1, part_body(1));
  EXPECT_EQ(part.at("version"), 1);
  EXPECT_EQ(part.at("weeks").as_array().size(), 26u);
  answer_of("POST", "/api/machines/{machine}/stops", "/api/machines/mill1/stops",
            fmt::format(R"({{"id":"{}","by":"Ada","on":"2026-03-04","shift":"early","tasks":["filter"]}})", id_of(2)));
  answer_of("PUT", "/api/stores/kits", "/api/stores/kits", lines_body(3, R"(,"kind":"mill","task":"filter")"));
  EXPECT_EQ(answer_of("GET", "/api/stores/readiness", "/api/stores/readiness").at("stops").at(0).at("state"), "short");
  EXPECT_EQ(answer_of("GET", of_order, of_order).at("proposals").at(0).at("lines").at(0).at("reference"), "K 7");
  answer_of("GET", "/api/today", "/api/today");
  const auto order = answer_of("POST", of_order, of_order, lines_body(4, R"(,"supplier":"Kranz","reference":"26-1")"));
  EXPECT_EQ(order.at("state"), "open");
  answer_of("POST", of_order + "/{order}/change", of_order + "/" + id_of(4) + "/change",
            done_body(5, R"(,"confirmed_on":"2026-03-03")"));
  answer_of("POST", of_move, of_move, lines_body(6, fmt::format(R"(,"kind":"received","order":"{}")", id_of(4))));
  EXPECT_EQ(answer_of("GET", of_order, of_order).at("past").at(0).at("state"), "delivered");
  answer_of("POST", of_move, of_move, lines_body(7, fmt::format(R"(,"kind":"taken","stop":"{}")", id_of(2))));
  EXPECT_EQ(answer_of("GET", "/api/stops/{stop}", "/api/stops/" + id_of(2)).at("readiness").at("state"), "ready");
  EXPECT_EQ(answer_of("GET", of_stored, f1).at("moves").as_array().size(), 2u);
  answer_of("GET", "/api/stores", "/api/stores");
  answer_of("GET", "/api/stores/kits", "/api/stores/kits");
  answer_of("GET", "/api/floor", "/api/floor");
  answer_of("GET", "/api/logbook", "/api/logbook");
}

TEST_F(Served, WhatNobodyCanKeepInStoresIsAProblem) {
  expect_problem(ask("PUT", f1, part_body(1, R"(,"pack":-1)")), 400, "pack");
  expect_problem(ask("PUT", f1, part_body(1, R"(,"substitutes":["F-2"])")), 400, "F-2");
  expect_problem(ask("GET", f1), 404, "F-1");
  expect_problem(ask("POST", of_move, lines_body(2, R"(,"kind":"taken")")), 400, "F-1");
  expect_problem(ask("POST", of_move, lines_body(2, R"(,"kind":"borrowed")")), 400, "borrowed");
  expect_problem(ask("POST", of_order, lines_body(3, R"(,"supplier":"")")), 400, "supplier");
  expect_problem(ask("PUT", "/api/stores/kits", lines_body(4, R"(,"kind":"mill","task":"filter")")), 400, "F-1");
  expect_problem(ask("POST", f1 + "/end", done_body(5)), 404, "F-1");
  answer_of("POST", "/api/stores/tasks-parts", "/api/stores/tasks-parts", done_body(6));
  EXPECT_EQ(ask("POST", "/api/stores/tasks-parts", done_body(7)).status, 409) << "each name has its part by now";
}

}  // namespace
}  // namespace hw::shop
