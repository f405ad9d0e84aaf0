// Findings, photos' names, logbook and plan over the wire, held against api/openapi.yaml.

#include <boost/json/value.hpp>
#include <gmock/gmock.h>

#include "libs/formats/csv.h"
#include "libs/values/sha256.h"
#include "src/web/routes.h"
#include "tests/shop/served.h"

namespace hw::shop {
namespace {

using testing::HasSubstr;

const std::string of_machine = "/api/machines/{machine}", mill1 = "/api/machines/mill1";

std::string finding_body(int id, std::string_view more = "") {
  return fmt::format(R"({{"id":"{}","by":"Ada","what":"Oil below the tank","severity":"stop the machine"{}}})",
                     id_of(id), more);
}

TEST_F(Served, FindingsAreToldInTheContractsWords) {
  const std::string finding = "/api/findings/{finding}", first = "/api/findings/" + id_of(1);
  const auto made = answer_of("POST", of_machine + "/findings", mill1 + "/findings",
                              finding_body(1, R"(,"owner":"Bo","due_on":"2026-03-04","task":"grease","point":1,)"
                                              R"("at":"2026-03-02T09:00:00Z","sent_at":"2026-03-02T10:00:00Z")"));
  EXPECT_EQ(made.at("state"), "open");
  EXPECT_EQ(made.at("owner"), "Bo");
  answer_of("POST", finding + "/change", first + "/change",
            done_body(2, R"(,"severity":"watch","owner":"","note":"n")"));
  EXPECT_EQ(answer_of("POST", finding + "/settle", first + "/settle", done_body(3, R"(,"done":"Sealed")")).at("done"),
            "Sealed");
  EXPECT_EQ(answer_of("GET", "/api/findings", "/api/findings").at("findings").as_array().size(), 0u);
  EXPECT_EQ(
      answer_of("GET", "/api/findings", "/api/findings?state=settled&machine=mill1").at("findings").as_array().size(),
      1u);
  answer_of("POST", finding + "/reopen", first + "/reopen", done_body(4, R"(,"why":"It drips")"));
  EXPECT_EQ(answer_of("GET", finding, first).at("entries").as_array().size(), 4u);
  EXPECT_EQ(answer_of("GET", of_machine, mill1).at("findings").as_array().size(), 1u);
  EXPECT_EQ(answer_of("GET", "/api/floor", "/api/floor").at("machines").at(0).at("findings").at(0), "watch");
}

TEST_F(Served, WhatIsNoFindingIsAProblem) {
  expect_problem(ask("POST", mill1 + "/findings", R"({"id":"x","by":"Ada","what":"x","severity":"bad"})"), 400,
                 "severity");
  expect_problem(ask("POST", mill1 + "/findings", done_body(1, R"(,"severity":"watch")")), 400, "what");
  expect_problem(ask("GET", "/api/findings?state=shut"), 400, "state: \"shut\"");
  expect_problem(ask("GET", "/api/findings?machine=mill9"), 404, "mill9");
  expect_problem(ask("GET", "/api/findings/" + id_of(9)), 404, id_of(9));
  expect_problem(ask("POST", "/api/findings/" + id_of(9) + "/settle", done_body(1, R"(,"done":"x")")), 404, id_of(9));
  EXPECT_TRUE(scene.machine().entries.empty());
}

TEST_F(Served, TheLogbookIsToldInTheContractsWords) {
  ask("POST", mill1 + "/tasks/filter/done", done_body(1, R"(,"note":"=1+1")"));
  ask("POST", mill1 + "/findings", finding_body(2));
  ask("POST", "/api/machines/mill9/findings", finding_body(3));
  answer_of("POST", "/api/entries/{entry}/correct", "/api/entries/" + id_of(1) + "/correct",
            done_body(4, R"(,"says":"It was the other filter")"));
  const auto page = answer_of("GET", "/api/logbook", "/api/logbook?count=2");
  EXPECT_EQ(page.at("entries").as_array().size(), 2u);
  EXPECT_EQ(page.at("more"), true);
  EXPECT_EQ(page.at("strays"), 1);
  EXPECT_EQ(answer_of("GET", "/api/logbook", "/api/logbook?stray=yes").at("entries").as_array().size(), 1u);
  EXPECT_EQ(answer_of("GET", "/api/logbook",
                      "/api/logbook?machine=mill1&kind=task%20done&by=Ada&from=2026-03-02&to=2026-03-02&text=FILTER"
                      "&before=9")
                .at("entries")
                .as_array()
                .size(),
            1u);
  const auto proof = answer_of("GET", "/api/logbook/proof", "/api/logbook/proof");
  EXPECT_EQ(proof.at("entries"), 4);
  EXPECT_TRUE(proof.at("breaks").as_array().empty());
}

TEST_F(Served, TheLogbookIsATableForSpreadsheets) {
  ask("POST", mill1 + "/tasks/filter/done", done_body(1, R"(,"note":"=1+1")"));
  ask("POST", mill1 + "/findings", finding_body(2));
  const Answer all = ask("GET", "/api/logbook.csv");
  EXPECT_EQ(all.status, 200);
  EXPECT_THAT(all.head, HasSubstr("Content-Type: text/csv; charset=utf-8\r\n"));
  const auto table = formats::parse_csv(all.body, "logbook.csv");
  ASSERT_TRUE(table) << table.error().message;
  EXPECT_EQ(table->row_count(), 2u);
  EXPECT_EQ(table->text(1, *table->column("note")), "'=1+1");
  EXPECT_EQ(formats::parse_csv(ask("GET", "/api/logbook.csv?kind=finding%20made").body, "logbook.csv")->row_count(),
            1u);
}

TEST_F(Served, AQueryThatTheLogbookDoesNotKnowIsRefused) {
  expect_problem(ask("GET", "/api/logbook?machin=mill1"), 400, "machin: there is no such filter");
  expect_problem(ask("GET", "/api/logbook?kind=stolen"), 400, "kind: \"stolen\"");
  expect_problem(ask("GET", "/api/logbook?from=monday"), 400, "from");
  expect_problem(ask("GET", "/api/logbook?from=2026-03-03&to=2026-03-02"), 400, "from: 2026-03-03 is after");
  expect_problem(ask("GET", "/api/logbook?count=501"), 400, "count: 501");
  expect_problem(ask("GET", "/api/logbook?before=x"), 400, "before: \"x\"");
  expect_problem(ask("GET", "/api/logbook?stray=no"), 400, "stray: ");
  expect_problem(ask("GET", "/api/logbook.csv?kind=stolen"), 400, "kind: \"stolen\"");
}

// The photo may come before its entry or after; the proof tells which are not here.
TEST_F(Served, TheProofSaysWhichPhotosAreNotHereYet) {
  const std::string photo = "\xFF\xD8\xFF\xE0 a picture";
  ask("POST", mill1 + "/findings",
      finding_body(1, fmt::format(R"(,"photos":[{{"id":"{}","sha256":"{}"}}])", id_of(50), print_hex(sha256(photo)))));
  const auto proof = [&] { return answer_of("GET", "/api/logbook/proof", "/api/logbook/proof"); };
  const auto awaited = proof().at("photos_awaited").as_array();
  ASSERT_EQ(awaited.size(), 1u);
  EXPECT_EQ(awaited[0].at("photo"), id_of(50).c_str());
  EXPECT_EQ(awaited[0].at("entry"), 1);
  EXPECT_TRUE(proof().at("breaks").as_array().empty());
  ASSERT_EQ(ask("PUT", "/api/photos/" + id_of(50), photo, "Content-Type: image/jpeg\r\n").status, 200);
  EXPECT_TRUE(proof().at("photos_awaited").as_array().empty());
  ask("POST", mill1 + "/findings",
      finding_body(2, fmt::format(R"(,"photos":[{{"id":"{}","sha256":"{}"}}])", id_of(50), std::string(64, 'a'))));
  const auto breaks = proof().at("breaks").as_array();
  ASSERT_EQ(breaks.size(), 1u);
  EXPECT_EQ(breaks[0].at("kind"), "photo");
  EXPECT_EQ(breaks[0].at("entry"), 2);
}

TEST_F(Served, ThePlanIsChangedInTheContractsWords) {
  answer_of("POST", of_machine + "/points", mill1 + "/points",
            done_body(1, R"(,"points":[{"number":1,"x":0.1,"y":0.9}])"));
  answer_of("POST", of_machine + "/walk", mill1 + "/walk", done_body(2, R"(,"points":[1])"));
  const auto machine = answer_of("GET", of_machine, mill1);
  EXPECT_EQ(machine.at("walk_by_hand"), true);
  EXPECT_EQ(machine.at("points").at(0).at("x"), 0.1);
  expect_problem(ask("POST", mill1 + "/points", done_body(3, R"(,"points":[{"number":1,"x":1e309,"y":0}])")), 400,
                 "1e309");
  expect_problem(ask("POST", mill1 + "/walk", done_body(3, R"(,"points":[4])")), 400, "has no point 4");
}

}  // namespace
}  // namespace hw::shop
