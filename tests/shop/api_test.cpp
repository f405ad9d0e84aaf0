// The API over the wire, held against api/openapi.yaml.

#include <boost/json/parse.hpp>
#include <boost/json/serialize.hpp>
#include <gmock/gmock.h>

#include "libs/formats/pdf_reading_test.h"
#include "libs/http/loopback_test.h"
#include "tests/shop/schema_check.h"
#include "tests/shop/served.h"

namespace hw::shop {
namespace {

namespace json = boost::json;

std::string task_body(int id, std::string_view more = "") {
  return fmt::format(R"({{"id":"{}","by":"Ada","title":"Empty the bin","assembly":"coolant","work":"clean",)"
                     R"("skill":"operator","energy":"isolated","minutes":5,)"
                     R"("triggers":[{{"counter":"operating","interval":40,"heads_up":8}},{{"calendar":"1 week"}}]{}}})",
                     id_of(id), more);
}

// What other tests ask of the served shop.
std::set<http::Route> asked_elsewhere(const std::map<http::Route, json::object>& all_operations) {
  std::set<http::Route> there;
  there.insert({"GET", "/api/stops/{stop}/card.pdf"});                                      // job_card_api_test.cpp
  there.insert({"GET", "/api/labels.pdf"});                                                 // by the test of its own
  for (const char* method : {"PUT", "GET"}) there.insert({method, "/api/photos/{photo}"});  // photos_test.cpp
  for (const char* of_finding : {"change", "settle", "reopen"}) {  // these by findings_api_test.cpp
    there.insert({"POST", std::string("/api/findings/{finding}/") + of_finding});
  }
  for (const char* path :
       {"/api/findings", "/api/findings/{finding}", "/api/logbook", "/api/logbook.csv", "/api/logbook/proof"}) {
    there.insert({"GET", path});
  }
  for (const char* of_machine : {"findings", "points", "walk"})
    there.insert({"POST", std::string("/api/machines/{machine}/") + of_machine});
  there.insert({"POST", "/api/entries/{entry}/correct"});
  there.insert({"GET", "/healthz"});
  for (const auto& [route, operation] : all_operations) {               // by join_served_test
    if (route.pattern.starts_with("/api/group/")) there.insert(route);  // tests/group
    if (route.pattern.starts_with("/api/edge/")) there.insert(route);   // tests/group
    if (route.pattern.starts_with("/api/lives")) there.insert(route);   // lives_api_test.cpp
    if (route.pattern.starts_with("/api/stores"))
      there.insert(route);  // stores_api_test.cpp, stores_sheet_api_test.cpp
    if (route.pattern.starts_with("/api/join-codes") || route.pattern.starts_with("/api/devices")) there.insert(route);
    for (const char* of_access : {"/api/me", "/api/sign-", "/api/accounts", "/api/tokens", "/api/access-notes"}) {
      if (route.pattern.starts_with(of_access)) there.insert(route);  // access_api_test.cpp
    }
  }
  for (const auto& [route, operation] : all_operations) {  // by horizon_test and month_test
    const std::string& path = route.pattern;
    const bool is_of_dates = path.ends_with("/forecast") || path.ends_with("/backtest") || path == "/api/horizon" ||
                             path == "/api/today" || path.starts_with("/api/use-changes");
    if (is_of_dates || path.starts_with("/api/months")) there.insert(route);
  }
  for (const auto& [route, operation] : all_operations) {  // by stops_api_test and proposals_test
    if (route.pattern.starts_with("/api/proposals")) there.insert(route);
    if (route.pattern.starts_with("/api/stops") || route.pattern == "/api/machines/{machine}/stops")
      there.insert(route);
  }
  there.insert({"POST", "/api/rehearsals"});                  // rehearsals_test.cpp
  there.insert({"GET", "/api/machines/{machine}/readings"});  // these by readings_test.cpp
  there.insert({"GET", "/api/machines/{machine}/readings/{task}"});
  there.insert({"GET", "/authority.crt"});
  there.insert({"GET", "/api/events"});  // by the test of its own
  return there;
}

TEST_F(Served, TheRoutesAreThoseOfTheContractBothWays) {
  std::set<http::Route> in_contract, answered;
  for (const auto& [route, operation] : all_operations) in_contract.insert(route);
  for (const auto& route : server->routes()) answered.insert(route);
  for (const auto& route : in_contract) EXPECT_TRUE(answered.contains(route)) << route.method << " " << route.pattern;
  for (const auto& route : answered) EXPECT_TRUE(in_contract.contains(route)) << route.method << " " << route.pattern;
}

TEST_F(Served, EveryOperationAnswersAsTheContractSays) {
  const std::string machine = "/api/machines/{machine}", m1 = "/api/machines/mill1";
  answer_of("POST", machine + "/tasks", m1 + "/tasks",
            task_body(1, R"(,"steps":["a"],"parts":[{"name":"Bag","quantity":1,"unit":"pc"}])"));
  answer_of("PUT", machine + "/tasks/{task}", m1 + "/tasks/" + id_of(1), task_body(2, R"(,"version":1)"));
  answer_of("POST", machine + "/tasks/{task}/done", m1 + "/tasks/filter/done",
            done_body(3, R"(,"at":"2026-03-02T06:00:00Z","note":"as usual")"));
  answer_of("POST", machine + "/tasks/{task}/done", m1 + "/tasks/grease/done", done_body(4));
  answer_of("POST", "/api/entries/{entry}/undo", "/api/entries/" + id_of(4) + "/undo", done_body(5));
  answer_of("POST", machine + "/tasks/{task}/retire", m1 + "/tasks/" + id_of(1) + "/retire", done_body(6));
  const auto read = [&](int id, std::string_view hours) {
    return answer_of("POST", machine + "/hour-readings", m1 + "/hour-readings",
                     done_body(id, fmt::format(R"(,"counter":"operating","display_h":{})", hours)));
  };
  const std::string round = machine + "/rounds/{rhythm}", shift = m1 + "/rounds/shift";
  answer_of("POST", round + "/walks", shift + "/walks", done_body(10, R"(,"checks":["look"])"));
  const auto answered =
      answer_of("POST", round + "/answers", shift + "/answers",
                done_body(11, fmt::format(R"(,"walk":"{}","others":true,"answers":[{{"check":"look","kind":"look",)"
                                          R"("answer":"as it should be"}}])",
                                          id_of(10))));
  EXPECT_EQ(answered.at("kind"), "others as they should be");
  answer_of("POST", round + "/walks", m1 + "/rounds/before%20start-up/walks", done_body(12, R"(,"checks":["a"])"));
  const auto rounds = answer_of("GET", "/api/rounds", "/api/rounds");
  EXPECT_EQ(rounds.at_pointer("/machines/0/rounds/0/now/state"), "walked");
  EXPECT_EQ(answer_of("GET", "/api/rounds", "/api/rounds?machine=mill2").at("machines").as_array().size(), 1u);
  EXPECT_EQ(read(7, "1000").at("state"), "fits");
  EXPECT_EQ(read(8, "1100.5").at("state"), "to be settled");
  answer_of("POST", machine + "/hour-readings/{reading}/settle", m1 + "/hour-readings/" + id_of(8) + "/settle",
            done_body(9, R"(,"settled_as":"misread")"));
  const auto view = answer_of("GET", machine, m1);
  EXPECT_EQ(view.at("entries").as_array().size(), 12u);
  EXPECT_EQ(view.at("retired").as_array().size(), 1u);
  EXPECT_FALSE(view.at("counters").as_array().empty());
  answer_of("GET", machine, "/api/machines/mill2");
  const auto days = answer_of("GET", machine + "/days", m1 + "/days?counter=revolutions%20Srpm&from=2026-03-01");
  EXPECT_EQ(days.at("days").as_array().size(), 1u);
  EXPECT_EQ(answer_of("GET", "/api/floor", "/api/floor").at("machines").as_array().size(), 2u);
  answer_of("GET", "/api/shop", "/api/shop");
  answer_of("GET", "/readyz", "/readyz");
  answer_of("GET", "/api/join", "/api/join");
  EXPECT_EQ(answer_of("GET", "/api/openapi.json", "/api/openapi.json"), the_contract);
  EXPECT_EQ(ask("GET", "/healthz").body, "alive\n");
  const auto metrics = ask("GET", "/metrics").body;
  EXPECT_NE(metrics.find("hourwright_counter_hours{machine=\"mill1\",counter=\"operating\"} "), std::string::npos)
      << metrics;
  EXPECT_NE(metrics.find("hourwright_tasks{machine=\"mill1\",state=\"overdue\"} "), std::string::npos);
  EXPECT_TRUE(metrics.ends_with("# EOF\n"));
  asked.insert({"GET", "/metrics"});
  for (const auto& route : asked_elsewhere(all_operations)) asked.insert(route);
  for (const auto& [route, operation] : all_operations) {
    EXPECT_TRUE(asked.contains(route)) << route.method << " " << route.pattern << " is asked nowhere here";
  }
}

TEST_F(Served, EventsTellWhatChangedInTheContractsWords) {
  http::RawClient client(server->port());
  client.send("GET /api/events HTTP/1.1\r\nHost: localhost\r\n" + as_lead + "\r\n");
  EXPECT_NE(client.read_through("\r\n\r\n").find("text/event-stream"), std::string::npos);
  ask("POST", "/api/machines/mill1/tasks/filter/done", done_body(1));
  client.read_through("event: machine\ndata: ");
  std::string line = client.read_through("\n");
  const auto mistakes =
      mistakes_in(json::parse(line), the_contract.at_pointer("/components/schemas/FloorMachine"), the_contract);
  EXPECT_TRUE(mistakes.empty()) << mistakes.front();
  client.read_through("event: tasks\ndata: ");
  EXPECT_EQ(client.read_through("\n"), "{\"machine\":\"mill1\"}\n");
}

TEST_F(Served, ABodyThatIsNotWhatItShouldBeIsRefusedWithItsPath) {
  const std::string done = "/api/machines/mill1/tasks/filter/done";
  expect_problem(ask("POST", done, "{"), 400, "line 1");
  expect_problem(ask("POST", done, "[]"), 400, "");
  expect_problem(ask("POST", done, R"({"by":"Ada"})"), 400, "id");
  expect_problem(ask("POST", done, done_body(1, R"(,"colour":"red")")), 400, "colour");
  expect_problem(ask("POST", done, R"({"id":7,"by":"Ada"})"), 400, "id: must be");
  expect_problem(ask("POST", done, done_body(1, R"(,"at":"yesterday")")), 400, "at");
  expect_problem(ask("POST", done, R"({"id":"x","by":"Ada"})"), 400, "no UUID");
  const std::string tasks = "/api/machines/mill1/tasks";
  std::string body = task_body(1);
  body.replace(body.find("40"), 2, "\"40\"");
  expect_problem(ask("POST", tasks, body), 400, "triggers[0].interval");
  body = task_body(1);
  body.replace(body.find("40"), 2, "1e999");
  expect_problem(ask("POST", tasks, body), 400, "1e999");
  body = task_body(1);
  body.replace(body.find("isolated"), 8, "asleep");
  expect_problem(ask("POST", tasks, body), 400, "energy");
  EXPECT_TRUE(scene.machine().entries.empty());
}

TEST_F(Served, WhatIsNotThereIsAProblemNotAPage) {
  expect_problem(ask("GET", "/api/machines/mill9"), 404, "mill9");
  expect_problem(ask("GET", "/api/rounds?machine=mill9"), 404, "mill9");
  expect_problem(ask("POST", "/api/entries/" + id_of(77) + "/undo", done_body(1)), 404, id_of(77));
  expect_problem(ask("POST", "/api/machines/mill1/hour-readings/" + id_of(77) + "/settle",
                     done_body(1, R"(,"settled_as":"misread")")),
                 404, id_of(77));
  for (const char* path :
       {"/api", "/api/", "/api/nothing", "/api/machines", "/api/machines/mill1/nothing", "/api/shop/"}) {
    expect_problem(ask("GET", path), 404, path);
  }
}

TEST_F(Served, PagesOfTheAppAreItsIndex) {
  for (const char* path : {"/", "/machine/mill1", "/floor"}) EXPECT_EQ(ask("GET", path).body, index_html) << path;
  expect_problem(ask("GET", "/missing.js"), 404, "missing.js");
}

TEST_F(Served, AMethodThatAPathDoesNotHaveIs405WithWhatItHas) {
  const Answer answer = ask("DELETE", "/api/machines/mill1/tasks/filter", "{}");
  expect_problem(answer, 405, "DELETE");
  EXPECT_NE(answer.head.find("Allow: OPTIONS, PUT"), std::string::npos) << answer.head;
  expect_problem(ask("POST", "/api/shop", "{}"), 405, "POST");
}

TEST_F(Served, ConflictsAndBadQueriesSayWhatWouldBeRight) {
  ask("POST", "/api/machines/mill1/tasks/filter/done", done_body(1));
  expect_problem(ask("POST", "/api/machines/mill1/tasks/grease/done", done_body(1)), 409, "used once");
  expect_problem(ask("GET", "/api/machines/mill1/days"), 400, "counter");
  expect_problem(ask("GET", "/api/machines/mill1/days?counter=operating&from=monday"), 400, "from");
  expect_problem(ask("GET", "/api/machines/mill1/days?counter=hours"), 400, "hours");
}

TEST_F(Served, LabelsOpenTheMachinesPagesAndSayTheirNames) {
  const std::string labels = "/api/labels.pdf?base=http://shop.example:8470";
  const Answer sheet = ask("GET", labels);
  EXPECT_EQ(sheet.status, 200) << sheet.body;
  EXPECT_NE(sheet.head.find("Content-Type: application/pdf"), std::string::npos) << sheet.head;
  const formats::PdfReading read(sheet.body);
  EXPECT_EQ(read.pages(), 1);
  EXPECT_NEAR(read.page_size().height_mm, 297, 0.05);
  EXPECT_THAT(read.codes(1, 300), testing::UnorderedElementsAre("http://shop.example:8470/machine/mill1",
                                                                "http://shop.example:8470/machine/mill2"));
  EXPECT_EQ(ask("GET", "/machine/mill1").body, index_html);  // where the code leads
  const Answer rolls = ask("GET", labels + "&layout=single&machines=mill2,mill1,mill2&label_width_mm=70");
  EXPECT_EQ(rolls.status, 200) << rolls.body;
  const formats::PdfReading roll(rolls.body);
  EXPECT_EQ(roll.pages(), 3);
  EXPECT_NEAR(roll.page_size().width_mm, 70, 0.05);
  EXPECT_EQ(roll.codes(2, 203), std::vector<std::string>{"http://shop.example:8470/machine/mill1"});
  std::string words;
  for (const auto& word : roll.words(1)) words += word.text + " ";
  for (const auto* part : {"Mill 2", "mill2", "Mill ", "Cell"}) EXPECT_NE(words.find(part), std::string::npos) << words;
}

TEST_F(Served, LabelsThatWouldNotFitOrAreMisspeltAreRefused) {
  const std::string labels = "/api/labels.pdf?base=http://shop.example:8470";
  expect_problem(ask("GET", "/api/labels.pdf"), 400, "base: it is missing");
  expect_problem(ask("GET", "/api/labels.pdf?base=shop"), 400, "base: ");
  expect_problem(ask("GET", labels + "&machines=mill1,mill9"), 404, "machines: there is no machine \"mill9\"");
  expect_problem(ask("GET", labels + "&machines="), 404, "machines");
  expect_problem(ask("GET", labels + "&layout=roll"), 400, "right is sheet or single");
  expect_problem(ask("GET", labels + "&pich_x_mm=60"), 400, "pich_x_mm: there is no such parameter");
  expect_problem(ask("GET", labels + "&layout=single&columns=2"), 400, "columns: there is no such parameter");
  expect_problem(ask("GET", labels + "&rows=8&rows=9"), 400, "rows: it is there twice");
  expect_problem(ask("GET", labels + "&rows=8.5"), 400, "rows: \"8.5\" is no number");
  expect_problem(ask("GET", labels + "&pitch_x_mm=66,0"), 400, "pitch_x_mm: \"66,0\" is no number; right is 66");
  expect_problem(ask("GET", labels + "&pitch_x_mm=nan"), 400, "pitch_x_mm");
  expect_problem(ask("GET", labels + "&page_width_mm=1e309"), 400, "page_width_mm");
  expect_problem(ask("GET", labels + "&columns=4"), 400, "columns: 4 of them need 269 mm, and page_width_mm is 210");
  expect_problem(ask("GET", labels + "&first_label=25"), 400, "first_label: 25 is out of range; right is 1 to 24");
}

TEST_F(Served, TheSameEditFiveTimesIsOneEntry) {
  const Answer first = ask("POST", "/api/machines/mill1/tasks/filter/done", done_body(1));
  for (int i = 0; i < 4; ++i)
    EXPECT_EQ(ask("POST", "/api/machines/mill1/tasks/filter/done", done_body(1)).body, first.body);
  EXPECT_EQ(scene.machine().entries.size(), 1u);
}

TEST_F(Served, AnotherSitesPageChangesNothing) {
  const std::string done = "/api/machines/mill1/tasks/filter/done";
  expect_problem(ask("POST", done, done_body(1), "Content-Type: text/plain\r\n"), 415, "application/json");
  expect_problem(
      ask("POST", done, done_body(1), "Content-Type: application/json\r\nOrigin: http://elsewhere.example\r\n"), 403,
      "elsewhere.example");
  http::RawClient client(server->port());
  client.send("GET /api/floor HTTP/1.1\r\nHost: rebound.example:8470\r\nConnection: close\r\n\r\n");
  EXPECT_EQ(client.read_response().substr(9, 3), "421");
  EXPECT_TRUE(scene.machine().entries.empty());
}

TEST_F(Served, ReadinessTellsWhatWorksAndWhatDoesNot) {
  const auto readiness = [&] { return answer_of("GET", "/readyz", "/readyz"); };
  EXPECT_EQ(readiness().at("ready"), true);
  scene.shop().machines().at(0)->feed.state = "lost";
  const auto checks = readiness().at("checks");
  EXPECT_EQ(checks.at(1).at("name"), "feeds");
  EXPECT_EQ(checks.at(1).at("result"), "warn");
  EXPECT_NE(checks.at(1).at("detail").as_string().find("mill1"), std::string::npos);
}

}  // namespace
}  // namespace hw::shop
