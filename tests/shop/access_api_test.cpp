// Coming in, and who may what, over the wire and in the contract's words.

#include <gtest/gtest.h>

#include "libs/http/loopback_test.h"
#include "libs/passwords/one_time_code.h"
#include "libs/values/secret.h"
#include "src/web/admission.h"
#include "src/web/machine_limits.h"
#include "src/web/me_view.h"
#include "tests/shop/let_in.h"
#include "tests/shop/served.h"

namespace hw::shop {
namespace {

namespace json = boost::json;

constexpr std::string_view password = "three blue mills at noon";

std::string cookie_in(const Answer& answer) {
  const auto at = answer.head.find("Set-Cookie: ");
  if (at == std::string::npos) return "";
  return answer.head.substr(at + 12, answer.head.find(';', at) - at - 12);
}

// The bytes of base32 (RFC 4648), as an app reads them.
std::string parse_base32(std::string_view text) {
  constexpr std::string_view signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";
  std::string bytes;
  unsigned bits = 0;
  int count = 0;
  for (const char c : text) {
    bits = (bits << 5U | static_cast<unsigned>(signs.find(c))) & 0xFFFU;
    count += 5;
    if (count < 8) continue;
    count -= 8;
    bytes += static_cast<char>(bits >> static_cast<unsigned>(count) & 0xFFU);
  }
  return bytes;
}

class AccessServed : public Served {
 protected:
  static std::string by_cookie(const std::string& cookie) {
    return fmt::format("Content-Type: application/json\r\nCookie: {}\r\n", cookie);
  }

  // What the command line leaves for a person; the secret of the link.
  std::string leave_link(const std::string& name, access::Role role = access::Role::lead,
                         const char* kind = "link") const {
    const service::Grant grant{.kind = kind,
                               .name = name,
                               .role = role,
                               .made_at = scene.now,
                               .ends_at = scene.now + Duration::seconds(30 * 60)};
    return must(storage::leave_grant(scene.folder(), grant));
  }
  Answer use_link(const std::string& secret, std::string_view chosen = password) const {
    return ask("POST", "/api/sign-in/link", fmt::format(R"({{"secret":"{}","password":"{}"}})", secret, chosen),
               by_cookie("none=1"));
  }
  std::string sign_in(const std::string& name, access::Role role = access::Role::lead) const {
    const Answer in = use_link(leave_link(name, role));
    EXPECT_EQ(in.status, 200) << in.body;
    return cookie_in(in);
  }
  Answer by_password(std::string_view name, std::string_view given, std::string_view more = "") const {
    return ask("POST", "/api/sign-in", fmt::format(R"({{"name":"{}","password":"{}"{}}})", name, given, more),
               by_cookie("none=1"));
  }
  // An operation as a person, whose answer has to be what the contract says.
  json::value told_at(std::string_view method, std::string_view pattern, std::string_view path,
                      const std::string& cookie, std::string_view body = "") {
    return answer_of(method, pattern, path, body, by_cookie(cookie));
  }
  json::value told(std::string_view method, std::string_view pattern, const std::string& cookie,
                   std::string_view body = "") {
    return told_at(method, pattern, pattern, cookie, body);
  }
  // The live events begin.
  static void hear(http::RawClient& client, const std::string& cookie) {
    client.send("GET /api/events HTTP/1.1\r\nHost: localhost\r\n" + by_cookie(cookie) + "\r\n");
    client.read_through("\r\n\r\n");
  }
  static void expect_ended(http::RawClient& client) {
    client.read_all();
    char byte = 0;
    EXPECT_EQ(::recv(client.descriptor(), &byte, 1, 0), 0) << "the server closed the line";
  }
  // What an app for one-time codes does; the answer to its first code.
  json::value set_up_factor(const std::string& cookie) {
    const json::value begun =
        told("POST", "/api/me/second-factor/begin", cookie, fmt::format(R"({{"now":"{}"}})", password));
    const std::string key = parse_base32(begun.at("secret").as_string());
    const std::string code = passwords::code_of(key, passwords::code_step(scene.now));
    return told("POST", "/api/me/second-factor", cookie, fmt::format(R"({{"code":"{}"}})", code));
  }
  void expect_saying(const Answer& answer, int status, std::string_view code) const {
    EXPECT_EQ(answer.status, status) << answer.body;
    if (answer.status != status) return;
    EXPECT_EQ(std::string_view{answer.json().at("saying").at("code").as_string()}, code) << answer.body;
  }
};

TEST_F(AccessServed, TheFirstLeadComesInByALinkOnceAndNobodyBefore) {
  EXPECT_EQ(ask("GET", "/api/floor", "", by_cookie("none=1")).status, 401);
  EXPECT_FALSE(told("GET", "/api/me", "none=1").at("can_sign_in").as_bool());
  const std::string secret = leave_link("Ada");
  const std::string body = fmt::format(R"({{"secret":"{}"}})", secret);
  EXPECT_EQ(told("POST", "/api/sign-in/link/look", "none=1", body).at("name"), "Ada");
  const Answer in = use_link(secret);
  EXPECT_EQ(in.status, 200) << in.body;
  EXPECT_EQ(in.json().at("role"), "lead");
  const std::string cookie = cookie_in(in);
  EXPECT_EQ(ask("GET", "/api/floor", "", by_cookie(cookie)).status, 200);
  EXPECT_TRUE(told("GET", "/api/me", cookie).at("can_sign_in").as_bool());
  expect_saying(use_link(secret), 404, "link-over");
  expect_saying(ask("POST", "/api/sign-in/link/look", R"({"secret":"guessed"})", by_cookie("none=1")), 404,
                "link-over");
}

TEST_F(AccessServed, ALinkAsksForAPasswordThatStandsGuessing) {
  const std::string secret = leave_link("Ada");
  expect_saying(use_link(secret, "short"), 400, "password-short");
  expect_saying(use_link(secret, "password12345"), 400, "password-common");
  expect_saying(use_link(secret, "hourwright hourwright"), 400, "password-common");
  expect_saying(use_link(secret, std::string(129, 'q')), 400, "password-long");
  const std::string pin_alone = fmt::format(R"({{"secret":"{}","pin":"2580"}})", secret);
  expect_saying(ask("POST", "/api/sign-in/link", pin_alone, by_cookie("none=1")), 400, "password-needed");
  EXPECT_EQ(use_link(secret).status, 200) << "what was refused used it up";
}

TEST_F(AccessServed, WhoGuessesPasswordsWaitsAndWhoKnowsItComesIn) {
  sign_in("Ada");
  for (int i = 0; i < 4; ++i) expect_saying(by_password("Ada", "wrong wrong wrong"), 401, "wrong-sign-in");
  const Answer waits = by_password("Ada", password);
  expect_saying(waits, 429, "try-later");
  EXPECT_NE(waits.head.find("Retry-After: 1"), std::string::npos) << waits.head;
  expect_saying(by_password("Nobody", "wrong wrong wrong"), 401, "wrong-sign-in");
  sign_in("Bea");
  EXPECT_EQ(by_password("Bea", password).status, 200) << "another's guesses keep nobody out";
}

TEST_F(AccessServed, NobodyEntersInAnothersName) {
  const std::string cookie = sign_in("Ada");
  const std::string done = "/api/machines/mill1/tasks/filter/done";
  const Answer other = ask("POST", done, fmt::format(R"({{"id":"{}","by":"Bea"}})", id_of(1)), by_cookie(cookie));
  expect_saying(other, 403, "not-you");
  EXPECT_TRUE(scene.machine().entries.empty());
  EXPECT_EQ(ask("POST", done, done_body(1), by_cookie(cookie)).status, 200);
}

TEST_F(AccessServed, EachRoleGetsWhatTheContractsTableSaysAndNoMore) {
  const auto& table = the_contract.at("x-permissions").as_object();
  const auto has = [&](std::string_view permission, std::string_view role) {
    const auto& roles = table.at(permission).at("roles").as_array();
    return std::find(roles.begin(), roles.end(), json::value(role)) != roles.end();
  };
  int asked_count = 0;
  for (const access::Role role : access::all_roles) {
    if (role == access::Role::outside) continue;  // the next test
    const std::string cookie = sign_in(fmt::format("The {}", access::word_of(role)), role);
    for (const auto& [route, operation] : all_operations) {
      const std::string permission{operation.at("x-permission").as_string()};
      const bool is_stream = route.pattern == "/api/events";
      if (permission == "open" || permission == "self" || permission == "watch" || is_stream) continue;
      std::string path = route.pattern;
      for (auto at = path.find('{'); at != std::string::npos; at = path.find('{')) {
        path.replace(at, path.find('}') - at + 1, "none");
      }
      const Answer answer = ask(route.method, path, "{}", by_cookie(cookie));
      EXPECT_EQ(answer.status != 403, has(permission, access::word_of(role)))
          << access::word_of(role) << ": " << route.method << " " << path << ": " << answer.status;
      ++asked_count;
    }
  }
  EXPECT_GT(asked_count, 300);
}

TEST_F(AccessServed, OutsideServiceSeesItsMachinesAndNothingElse) {
  const std::string outside =
      fmt::format("Content-Type: application/json\r\n{}", let_in(scene.folder(), access::Role::outside, {{"mill1"}}));
  const auto get = [&](std::string_view path) { return ask("GET", path, "", outside); };
  EXPECT_EQ(get("/api/machines/mill1").status, 200);
  expect_saying(get("/api/machines/mill2"), 403, "not-your-machine");
  const json::value floor = get("/api/floor").json();
  ASSERT_EQ(floor.at("machines").as_array().size(), 1U);
  EXPECT_EQ(floor.at("machines").at(0).at("key"), "mill1");
  EXPECT_EQ(get("/api/rounds").json().at("machines").as_array().size(), 1U);
  EXPECT_TRUE(get("/api/shop").json().at("people").as_array().empty());
  expect_saying(get("/api/rounds?machine=mill2"), 403, "not-your-machine");
  expect_saying(get("/api/findings?machine=mill2"), 403, "not-your-machine");
  for (const char* path : {"/api/today", "/api/logbook", "/api/stores", "/api/horizon", "/api/accounts"}) {
    expect_saying(get(path), 403, "not-allowed");
  }
  const std::string done = done_body(1);
  EXPECT_EQ(ask("POST", "/api/machines/mill1/tasks/filter/done", done, outside).status, 200);
  expect_saying(ask("POST", "/api/machines/mill2/tasks/filter/done", done_body(2), outside), 403, "not-your-machine");
  ASSERT_EQ(ask("POST", "/api/machines/mill2/tasks/filter/done", done_body(3)).status, 200);
  expect_saying(ask("POST", "/api/entries/" + id_of(3) + "/undo", done_body(4), outside), 403, "not-your-machine");
}

TEST_F(AccessServed, OutsideServiceHearsOfItsMachinesOnly) {
  http::RawClient client(server->port());
  client.send("GET /api/events HTTP/1.1\r\nHost: localhost\r\n" +
              let_in(scene.folder(), access::Role::outside, {{"mill2"}}) + "\r\n");
  client.read_through("\r\n\r\n");
  ask("POST", "/api/machines/mill1/tasks/filter/done", done_body(1));
  ask("POST", "/api/machines/mill2/tasks/filter/done", done_body(2));
  client.read_through("event: tasks\ndata: ");
  EXPECT_EQ(client.read_through("\n"), "{\"machine\":\"mill2\"}\n");
}

TEST_F(AccessServed, APersonSeesAndEndsSessions) {
  const std::string here = sign_in("Ada");
  const std::string there = cookie_in(by_password("Ada", password));
  const json::value sessions = told("GET", "/api/me/sessions", here);
  ASSERT_EQ(sessions.at("sessions").as_array().size(), 2U);
  const std::string other_id = [&] {
    for (const auto& one : sessions.at("sessions").as_array()) {
      if (!one.at("is_this").as_bool()) return std::string{one.at("id").as_string()};
    }
    return std::string{};
  }();
  told_at("POST", "/api/me/sessions/{session}/end", "/api/me/sessions/" + other_id + "/end", here, "{}");
  EXPECT_EQ(ask("GET", "/api/floor", "", by_cookie(there)).status, 401);
  const std::string third = cookie_in(by_password("Ada", password));
  told("POST", "/api/me/sessions/end-others", here, "{}");
  EXPECT_EQ(ask("GET", "/api/floor", "", by_cookie(third)).status, 401);
  told("POST", "/api/sign-out", here, "{}");
  EXPECT_EQ(ask("GET", "/api/floor", "", by_cookie(here)).status, 401);
}

TEST_F(AccessServed, PasswordPinAndSecondFactorAreChangedBehindThePresentPassword) {
  const std::string cookie = sign_in("Ada");
  const auto now_and = [](std::string_view more) { return fmt::format(R"({{"now":"{}"{}}})", password, more); };
  expect_saying(
      ask("POST", "/api/me/password", R"({"now":"no","password":"four green mills at dawn"})", by_cookie(cookie)), 401,
      "wrong-sign-in");
  expect_saying(ask("POST", "/api/me/pin", now_and(R"(,"pin":"1234")"), by_cookie(cookie)), 400, "pin-simple");
  expect_saying(ask("POST", "/api/me/pin", now_and(R"(,"pin":"12x4")"), by_cookie(cookie)), 400, "pin-form");
  EXPECT_TRUE(told("POST", "/api/me/pin", cookie, now_and(R"(,"pin":"2580")")).at("has_pin").as_bool());
  const json::value begun = told("POST", "/api/me/second-factor/begin", cookie, now_and(""));
  const std::string key = parse_base32(begun.at("secret").as_string());
  expect_saying(ask("POST", "/api/me/second-factor", R"({"code":"000000"})", by_cookie(cookie)), 401, "wrong-code");
  const std::int64_t step = passwords::code_step(scene.now);
  const auto code_body = [&](std::int64_t of) {
    return fmt::format(R"({{"code":"{}"}})", passwords::code_of(key, of));
  };
  EXPECT_TRUE(told("POST", "/api/me/second-factor", cookie, code_body(step)).at("has_second_factor").as_bool());
  expect_saying(by_password("Ada", password), 401, "code-needed");
  const auto with_code = [&](std::int64_t of) { return fmt::format(R"(,"code":"{}")", passwords::code_of(key, of)); };
  expect_saying(by_password("Ada", password, with_code(step)), 401, "wrong-code");  // used already
  EXPECT_EQ(by_password("Ada", password, with_code(step + 1)).status, 200);
  told("POST", "/api/me/second-factor/end", cookie, now_and(""));
  EXPECT_EQ(by_password("Ada", password).status, 200);
  told("POST", "/api/me/password", cookie, now_and(R"(,"password":"four green mills at dawn")"));
  expect_saying(by_password("Ada", password), 401, "wrong-sign-in");
  EXPECT_EQ(by_password("Ada", "four green mills at dawn").status, 200);
}

TEST_F(AccessServed, ADemandedSecondFactorIsSetUpBeforeAnythingElse) {
  const std::string lead = sign_in("Ada"), viewer = sign_in("Eva", access::Role::viewer),
                    technician = sign_in("Otto", access::Role::technician);
  const auto floor = [&](const std::string& cookie) { return ask("GET", "/api/floor", "", by_cookie(cookie)); };
  const std::string demand = R"({"demanded":true})";
  expect_saying(ask("POST", "/api/accounts/second-factor", demand, by_cookie(lead)), 409, "own-second-factor");
  set_up_factor(lead);
  EXPECT_TRUE(told("POST", "/api/accounts/second-factor", lead, demand).at("second_factor_demanded").as_bool());
  EXPECT_EQ(floor(lead).status, 200);
  EXPECT_EQ(floor(technician).status, 200);
  expect_saying(floor(viewer), 403, "second-factor-needed");
  expect_saying(ask("POST", "/api/machines/mill1/tasks/filter/done", done_body(1), by_cookie(viewer)), 403,
                "second-factor-needed");
  const std::string anew = cookie_in(by_password("Eva", password));
  const json::value me = told("GET", "/api/me", anew);
  EXPECT_TRUE(me.at("needs_second_factor").as_bool());
  EXPECT_TRUE(me.at("permissions").as_array().empty());
  const json::value set = set_up_factor(anew);
  EXPECT_FALSE(set.at("needs_second_factor").as_bool());
  EXPECT_FALSE(set.at("permissions").as_array().empty());
  EXPECT_EQ(floor(anew).status, 200);
}

TEST_F(AccessServed, WhatANewPasswordSignedOutHearsNothingMore) {
  const std::string here = sign_in("Ada"), there = cookie_in(by_password("Ada", password));
  http::RawClient client(server->port());
  hear(client, there);
  told("POST", "/api/me/password", here,
       fmt::format(R"({{"now":"{}","password":"four green mills at dawn"}})", password));
  expect_ended(client);
  EXPECT_EQ(ask("GET", "/api/events", "", by_cookie(there)).status, 401);
}

TEST_F(AccessServed, WhoLacksADemandedSecondFactorHearsNothingMore) {
  const std::string lead = sign_in("Ada"), viewer = sign_in("Eva", access::Role::viewer);
  set_up_factor(lead);
  http::RawClient client(server->port());
  hear(client, viewer);
  told("POST", "/api/accounts/second-factor", lead, R"({"demanded":true})");
  expect_ended(client);
  expect_saying(ask("GET", "/api/events", "", by_cookie(viewer)), 403, "second-factor-needed");
}

TEST_F(AccessServed, ALeadLetsPeopleInChangesAndEndsThem) {
  const std::string lead = sign_in("Ada");
  const std::string viewer = R"({"name":"Bea","role":"viewer"})";
  const json::value made = told("POST", "/api/accounts", lead, viewer);
  const std::string link{made.at("link").as_string()};
  expect_saying(ask("POST", "/api/accounts", viewer, by_cookie(lead)), 409, "account-there");
  const std::string bea = cookie_in(use_link(link.substr(link.find('#') + 1)));
  EXPECT_EQ(told("GET", "/api/me", bea).at("role"), "viewer");
  told("POST", "/api/accounts/change", lead, R"({"name":"Bea","role":"technician"})");
  EXPECT_EQ(told("GET", "/api/me", bea).at("role"), "technician");
  told("POST", "/api/accounts/end-sessions", lead, R"({"name":"Bea"})");
  EXPECT_TRUE(told("GET", "/api/me", bea).at("name").is_null());
  told("POST", "/api/accounts/link", lead, R"({"name":"Bea"})");
  EXPECT_EQ(by_password("Bea", password).status, 200) << "a link that nobody used changes nothing";
  told("POST", "/api/accounts/end", lead, R"({"name":"Bea"})");
  expect_saying(by_password("Bea", password), 401, "wrong-sign-in");
  expect_saying(ask("POST", "/api/accounts/end", R"({"name":"Ada"})", by_cookie(lead)), 409, "last-lead");
  expect_saying(ask("POST", "/api/accounts/change", R"({"name":"Ada","role":"viewer"})", by_cookie(lead)), 409,
                "last-lead");
  expect_saying(ask("POST", "/api/accounts/link", R"({"name":"Nobody"})", by_cookie(lead)), 404, "no-account");
  expect_problem(ask("POST", "/api/accounts", R"({"name":"Otto","role":"outside"})", by_cookie(lead)), 400, "machines");
  EXPECT_EQ(told("GET", "/api/accounts", lead).at("accounts").as_array().size(), 2U);
  EXPECT_GT(told("GET", "/api/access-notes", lead).at("notes").as_array().size(), 5U);
}

TEST_F(AccessServed, AProgramComesInByATokenUntilItEnds) {
  const std::string lead = sign_in("Ada");
  const json::value made = told("POST", "/api/tokens", lead,
                                R"({"title":"Wall display","role":"technician","permissions":["look"],"days":30})");
  const std::string bearer = fmt::format("Content-Type: application/json\r\nAuthorization: Bearer {}\r\n",
                                         std::string{made.at("secret").as_string()});
  EXPECT_EQ(ask("GET", "/api/floor", "", bearer).status, 200);
  expect_saying(ask("GET", "/api/today", "", bearer), 403, "not-allowed");
  expect_saying(ask("POST", "/api/sign-out", "{}", bearer), 403, "not-allowed");
  const json::value all = told("GET", "/api/tokens", lead);
  EXPECT_FALSE(all.at("tokens").at(0).at("used_on").is_null());
  const std::string id{made.at("token").at("id").as_string()};
  told_at("POST", "/api/tokens/{token}/end", "/api/tokens/" + id + "/end", lead, "{}");
  EXPECT_EQ(ask("GET", "/api/floor", "", bearer).status, 401);
  expect_problem(
      ask("POST", "/api/tokens", R"({"title":"x","role":"viewer","permissions":["admit"],"days":1})", by_cookie(lead)),
      400, "admit");
  expect_problem(ask("POST", "/api/tokens", R"({"title":"x","role":"viewer","days":0})", by_cookie(lead)), 400, "days");
}

TEST_F(AccessServed, WhatWasLetInStaysSoAfterARestartAndWhatEndedStaysEnded) {
  const std::string stays = sign_in("Ada");
  const std::string ends = sign_in("Bea");
  told("POST", "/api/sign-out", ends, "{}");
  server->stop();
  web::WebOptions options;
  options.plain.port = 0;
  options.share = share();
  server = must(web::WebServer::start(scene.shop(), options, [now = scene.now] { return now; }));
  EXPECT_EQ(ask("GET", "/api/floor", "", by_cookie(stays)).status, 200);
  EXPECT_EQ(ask("GET", "/api/floor", "", by_cookie(ends)).status, 401);
  EXPECT_EQ(by_password("Ada", password).status, 200);
}

TEST_F(AccessServed, AResetOnTheHostGivesAnotherLinkAndTakesThePasswordBefore) {
  sign_in("Ada");
  const std::string secret = leave_link("Ada", access::Role::lead, "reset");
  EXPECT_EQ(by_password("Ada", password).status, 200) << "the link is not used yet";
  EXPECT_EQ(use_link(secret, "four green mills at dawn").status, 200);
  expect_saying(by_password("Ada", password), 401, "wrong-sign-in");
  expect_saying(use_link(leave_link("Nobody", access::Role::lead, "reset")), 404, "link-over");
}

}  // namespace
}  // namespace hw::shop
