// Devices, over the wire: how they join, and what is closed to whoever has not signed in. Another device is a loopback
// peer that asks for the server by the name that others have for it.

#include <atomic>
#include <fstream>
#include <sstream>

#include <boost/json/parse.hpp>
#include <gtest/gtest.h>

#include "libs/http/loopback_test.h"
#include "libs/http/tls_asking_test.h"
#include "src/storage/grants.h"
#include "src/web/contract.h"
#include "src/web/join_routes.h"
#include "src/web/web_server.h"
#include "tests/places/places.h"
#include "tests/shop/scene.h"
#include "tests/shop/schema_check.h"

namespace hw::shop {
namespace {

namespace json = boost::json;
using certificates::HostName;

std::string text_of_file(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

struct Asked {
  std::string method = "GET";
  std::string path;
  std::string host = "shop.example";
  std::string cookie = {};
  std::string body = {};
  std::string as = {};  // a header that lets in
};

struct JoinAnswer {
  std::string whole;
  int status() const { return whole.size() > 12 ? std::stoi(whole.substr(9, 3)) : 0; }
  std::string body() const { return whole.substr(std::min(whole.find("\r\n\r\n") + 4, whole.size())); }
  json::value value() const { return json::parse(body()); }
  std::string header(std::string_view name) const {
    const auto at = whole.find(fmt::format("\r\n{}: ", name));
    if (at == std::string::npos) return "";
    const auto begin = at + name.size() + 4;
    return whole.substr(begin, whole.find("\r\n", begin) - begin);
  }
  // "hourwright_device=..."
  std::string cookie() const { return header("Set-Cookie").substr(0, header("Set-Cookie").find(';')); }
};

std::string text_of_file(const Asked& asked) {
  return fmt::format("{} {} HTTP/1.1\r\nHost: {}\r\n{}{}{}Content-Length: {}\r\nConnection: close\r\n\r\n{}",
                     asked.method, asked.path, asked.host, asked.as,
                     asked.cookie.empty() ? "" : "Cookie: a=1; " + asked.cookie + "; b=2\r\n",
                     asked.method != "GET" && asked.method != "HEAD" ? "Content-Type: application/json\r\n" : "",
                     asked.body.size(), asked.body);
}

// A server with both lines, at the name shop.example, with a certificate of its own authority.
class JoinServed : public testing::Test {
 protected:
  JoinServed() {
    must(init({"shop.example"}));
    web::WebOptions options;
    options.plain.port = 0;
    options.share = in_source();
    options.names = names({"shop.example"});
    options.tls = web::TlsOptions{{"127.0.0.1", 0}, folder(), Duration::millis(20)};
    server = must(web::WebServer::start(scene.shop(), options, [this] { return Instant{now_ns}; }));
    as_lead = sign_in("Ada");
  }

  // A person's session, begun by a link at the server's own computer: its Cookie header.
  std::string sign_in(const std::string& name, access::Role role = access::Role::lead) const {
    const service::Grant grant{
        .kind = "link", .name = name, .role = role, .made_at = now(), .ends_at = now() + Duration::hours(1)};
    const std::string secret = must(storage::leave_grant(scene.folder(), grant));
    const JoinAnswer in =
        ask({"POST", "/api/sign-in/link", "localhost", "",
             fmt::format(R"({{"secret":"{}","password":"three blue mills at noon","pin":"2580"}})", secret)});
    EXPECT_EQ(in.status(), 200) << in.whole;
    return in.cookie();
  }

  static std::vector<HostName> names(std::initializer_list<const char*> texts) {
    std::vector<HostName> all;
    for (const char* text : texts) all.push_back(*certificates::parse_host_name(text));
    return all;
  }
  certificates::TlsFolder folder() const { return {scene.folder() / "tls"}; }
  Result<certificates::Served> init(std::initializer_list<const char*> for_names, bool new_authority = false) {
    certificates::InitOrder order{names(for_names), now()};
    order.with_new_authority = new_authority;
    return certificates::init_folder(folder(), order);
  }

  JoinAnswer ask(const Asked& asked) const {
    http::RawClient client(server->port());
    client.send(text_of_file(asked));
    return {client.read_all()};
  }
  std::string ask_over_tls(const Asked& asked, const std::string& authority_der) const {
    return http::asked_over_tls({server->tls_port(), authority_der, asked.host, text_of_file(asked)});
  }
  std::string authority() const { return ask({.path = "/authority.crt"}).body(); }

  std::string new_code(int id) const {
    const auto answer = ask({"POST", "/api/join-codes", "localhost", as_lead, edit(id, R"("by":"Ada")")});
    EXPECT_EQ(answer.status(), 200) << answer.whole;
    return std::string{answer.value().at("code").as_string()};
  }
  static std::string edit(int id, std::string_view more) { return fmt::format(R"({{"id":"{}",{}}})", id_of(id), more); }
  static Asked joining(int id, const std::string& code) {
    return {"POST", "/api/devices", "shop.example", "", edit(id, fmt::format(R"("code":"{}","title":"Phone")", code))};
  }
  void expect_schema(const JoinAnswer& answer, const char* schema) const {
    const json::value contract = json::parse(must(web::json_of_yaml(text_of_file(in_source("api/openapi.yaml")))));
    EXPECT_EQ(answer.status(), 200) << answer.whole;
    for (const auto& mistake :
         mistakes_in(answer.value(), contract.at_pointer(fmt::format("/components/schemas/{}", schema)), contract)) {
      ADD_FAILURE() << schema << ": " << mistake;
    }
  }

  static std::string text_of_file(const std::filesystem::path& file) { return shop::text_of_file(file); }
  static std::string text_of_file(const Asked& asked) { return shop::text_of_file(asked); }

  Instant now() const { return Instant{now_ns}; }
  void advance(Duration by) { now_ns += by.ns; }

  Scene scene;
  std::atomic<std::int64_t> now_ns = scene.now.ns;  // the server's threads read it
  std::unique_ptr<web::WebServer> server;
  std::string as_lead;  // the cookie of a session
};

// The routes that the contract opens to everybody; else nobody is let in anywhere, at this computer as little as
// elsewhere.
TEST_F(JoinServed, WhoHasNotSignedInIsRefusedEverythingOfTheShop) {
  const std::set<http::Route> open{{"GET", "/healthz"},
                                   {"GET", "/authority.crt"},
                                   {"GET", "/api/join"},
                                   {"POST", "/api/devices"},
                                   {"GET", "/api/me"},
                                   {"GET", "/api/openapi.json"},
                                   {"POST", "/api/sign-in"},
                                   {"POST", "/api/sign-in/pin"},
                                   {"POST", "/api/sign-in/link"},
                                   {"POST", "/api/sign-in/link/look"}};
  int refused = 0;
  for (const auto& route : server->routes()) {
    if (open.contains(route)) continue;
    std::string path = route.pattern;
    for (auto at = path.find('{'); at != std::string::npos; at = path.find('{')) {
      path.replace(at, path.find('}') - at + 1, "x");
    }
    const bool is_watched = path == "/readyz" || path == "/metrics";
    for (const char* host : {"shop.example", "localhost"}) {
      if (is_watched && host == std::string_view{"localhost"}) continue;
      const JoinAnswer answer = ask({route.method, path, host, "hourwright_session=guessed", "{}"});
      EXPECT_EQ(answer.status(), 401) << route.method << " " << path << "\n" << answer.whole;
      EXPECT_NE(answer.body().find(R"("code":"not-signed-in")"), std::string::npos) << answer.whole;
      ++refused;
    }
  }
  EXPECT_GT(refused, 150);
  EXPECT_EQ(ask({.method = "HEAD", .path = "/api/shop"}).status(), 401);
  EXPECT_EQ(ask({.path = "/api/shop", .cookie = as_lead}).status(), 200);
  EXPECT_EQ(ask({.path = "/api/shop", .host = "elsewhere.example", .cookie = as_lead}).status(), 421);
}

TEST_F(JoinServed, WhoIsNotLetInIsToldSoBeforeWhatIsWrongWithTheBody) {
  Asked photo{"PUT", "/api/photos/" + id_of(5), "shop.example", "", "{}"};
  EXPECT_EQ(ask(photo).status(), 401);
  photo.cookie = as_lead;
  EXPECT_EQ(ask(photo).status(), 415);
}

TEST_F(JoinServed, OthersAreToldHowToJoinAndNothingOfTheShop) {
  const JoinAnswer join = ask({.path = "/api/join"});
  expect_schema(join, "Join");
  EXPECT_EQ(join.value().at("encrypted"), false);
  EXPECT_EQ(join.value().at("this_computer"), false);
  EXPECT_TRUE(join.value().at("device").is_null());
  EXPECT_EQ(join.value().at("authority").at("title"), "Hourwright authority of shop.example");
  EXPECT_EQ(join.header("Cache-Control"), "no-store");
  EXPECT_EQ(join.body().find(std::string{scene.shop().record().plant}), std::string::npos);
  EXPECT_EQ(ask({.path = "/healthz"}).status(), 200);
  const JoinAnswer certificate = ask({.path = "/authority.crt"});
  EXPECT_EQ(certificate.header("Content-Type"), "application/x-x509-ca-cert");
  EXPECT_EQ(certificate.body().substr(0, 1), "\x30");  // DER
  EXPECT_EQ(ask({.path = "/api/join", .host = "localhost"}).value().at("this_computer"), true);
}

TEST_F(JoinServed, ADeviceJoinsByACodeAndThenAsksWhoIsThere) {
  const JoinAnswer code = ask({"POST", "/api/join-codes", "localhost", as_lead, edit(1, R"("by":"Ada")")});
  expect_schema(code, "JoinCode");
  const std::string address{code.value().at("address").as_string()};
  const std::string text{code.value().at("code").as_string()};
  EXPECT_EQ(address, fmt::format("http://shop.example:{}/join?code={}", server->port(), text));
  EXPECT_EQ(code.value().at("qr").at("path").as_string().find("M0 0h7v1h-7z"), 0U);  // the corner that readers look for
  const JoinAnswer joined = ask(joining(2, text));
  expect_schema(joined, "Device");
  const std::string whole = joined.header("Set-Cookie");
  for (const char* part : {"; HttpOnly", "; SameSite=Strict", "; Path=/", "; Max-Age=34560000"}) {
    EXPECT_NE(whole.find(part), std::string::npos) << whole;
  }
  EXPECT_EQ(whole.find("Secure"), std::string::npos) << whole;  // the line was not encrypted
  const std::string cookie = joined.cookie();
  EXPECT_EQ(ask({.path = "/api/shop", .cookie = cookie}).status(), 401);
  EXPECT_EQ(ask({.path = "/api/me", .cookie = cookie}).value().at("pin_people"), json::array{"Ada"});
  EXPECT_EQ(ask({.path = "/api/me"}).value().at("pin_people"), json::array{});
  const JoinAnswer join = ask({.path = "/api/join", .cookie = cookie});
  expect_schema(join, "Join");
  EXPECT_EQ(join.value().at("device").at("title"), "Phone");
  EXPECT_EQ(join.cookie(), cookie);  // lasts 400 days from now
  expect_schema(ask({.path = "/api/devices", .cookie = as_lead}), "Devices");
}

TEST_F(JoinServed, APersonSignsInByPinAtADeviceAndIsOutWithIt) {
  const std::string device = ask(joining(2, new_code(1))).cookie();
  const std::string pin = R"({"name":"Ada","pin":"2580"})";
  EXPECT_EQ(ask({"POST", "/api/sign-in/pin", "shop.example", "", pin}).status(), 401) << "no device";
  const JoinAnswer in = ask({"POST", "/api/sign-in/pin", "shop.example", device, pin});
  expect_schema(in, "Me");
  const std::string both = device + "; " + in.cookie();
  EXPECT_EQ(ask({.path = "/api/shop", .cookie = both}).status(), 200);
  EXPECT_EQ(ask({.path = "/api/shop", .cookie = in.cookie()}).status(), 401) << "the session without its device";
  http::RawClient listening(server->port());
  listening.send("GET /api/events HTTP/1.1\r\nHost: shop.example\r\nCookie: " + both + "\r\n\r\n");
  listening.read_through("\r\n\r\n");
  const JoinAnswer ended =
      ask({"POST", "/api/devices/" + id_of(2) + "/end", "localhost", as_lead, edit(3, R"("by":"Ada")")});
  expect_schema(ended, "Device");
  listening.read_all();  // comes to its end
  EXPECT_EQ(ask({.path = "/api/shop", .cookie = both}).status(), 401);
  EXPECT_TRUE(ask({.path = "/api/join", .cookie = device}).value().at("device").is_null());
}

TEST_F(JoinServed, PasswordsAreNotTakenOverAnOpenLineFromElsewhere) {
  const std::string body = R"({"name":"Ada","password":"three blue mills at noon"})";
  const JoinAnswer open = ask({"POST", "/api/sign-in", "shop.example", "", body});
  EXPECT_EQ(open.status(), 403) << open.whole;
  EXPECT_EQ(open.value().at("saying").at("code"), "open-line");
  EXPECT_TRUE(ask({.path = "/api/me"}).value().at("is_open_line").as_bool());
  EXPECT_EQ(ask({"POST", "/api/sign-in", "localhost", "", body}).status(), 200);
  const JoinAnswer in{ask_over_tls({"POST", "/api/sign-in", "shop.example", "", body}, authority())};
  EXPECT_EQ(in.status(), 200) << in.whole;
  EXPECT_NE(in.header("Set-Cookie").find("; HttpOnly; SameSite=Strict; Secure"), std::string::npos) << in.whole;
}

TEST_F(JoinServed, GuessingCodesIsSlowedDown) {
  const std::string code = new_code(1);
  for (int i = 0; i < 10; ++i) EXPECT_EQ(ask(joining(2, "XXXXXXXX")).status(), 404);
  const JoinAnswer answer = ask(joining(2, code));
  EXPECT_EQ(answer.status(), 429);
  EXPECT_EQ(answer.value().at("code"), "too-often");
  advance(Duration::seconds(60));
  EXPECT_EQ(ask(joining(2, code)).status(), 200);
}

TEST_F(JoinServed, APageOfAnotherSiteLetsNobodyJoin) {
  Asked asked = joining(2, new_code(1));
  asked.host = "shop.example\r\nOrigin: http://elsewhere.example";
  EXPECT_EQ(ask(asked).status(), 403);
}

TEST_F(JoinServed, OverTlsTheServerIsTrustedByWhomeverTrustsItsAuthority) {
  const std::string trusted = authority();
  const std::string join = ask_over_tls({.path = "/api/join"}, trusted);
  EXPECT_NE(join.find("\"encrypted\":true"), std::string::npos) << join;
  EXPECT_EQ(ask_over_tls({.path = "/", .host = "other.example"}, trusted), "not trusted: hostname mismatch");
  EXPECT_EQ(ask_over_tls({.path = "/"}, "").find("not trusted: "), 0U);
  const JoinAnswer joined{ask_over_tls(joining(2, new_code(1)), trusted)};
  EXPECT_NE(joined.header("Set-Cookie").find("; Secure"), std::string::npos) << joined.whole;
  EXPECT_EQ(joined.value().at("encrypted"), true);
  EXPECT_EQ(JoinAnswer{ask_over_tls({.path = "/api/shop", .cookie = as_lead}, trusted)}.status(), 200);
  EXPECT_EQ(JoinAnswer{ask_over_tls({.path = "/api/shop", .cookie = joined.cookie()}, trusted)}.status(), 401);
}

TEST_F(JoinServed, AnotherCertificateIsServedWithoutARestartAndABadOneIsNot) {
  const std::string before = authority();
  must(init({"works.example"}, true));
  ASSERT_TRUE(http::comes_true([&] { return authority() != before; }));
  EXPECT_EQ(ask_over_tls({.path = "/", .host = "works.example"}, before).find("not trusted: "), 0U);
  const std::string now = authority();
  EXPECT_EQ(JoinAnswer{ask_over_tls({.path = "/healthz", .host = "works.example"}, now)}.status(), 200);
  EXPECT_EQ(ask({.path = "/healthz", .host = "works.example"}).status(), 200);  // the name came with it
  std::ofstream(folder().server_file()) << "no certificate";
  advance(Duration::hours(25));  // the time at which it looks for a renewal as well
  EXPECT_EQ(JoinAnswer{ask_over_tls({.path = "/healthz", .host = "works.example"}, now)}.status(), 200);
  must(init({"works.example"}));
  ASSERT_TRUE(http::comes_true(
      [&] { return server->reach().served()->certificate.begins_at > *parse_instant("2026-03-02T05:00:00Z"); }));
  EXPECT_EQ(JoinAnswer{ask_over_tls({.path = "/healthz", .host = "works.example"}, now)}.status(), 200);
}

TEST_F(JoinServed, TheServerRenewsItsCertificateWhileItRuns) {
  const auto before = server->reach().served()->certificate;
  advance(Duration::hours(24 * 380));
  ASSERT_TRUE(http::comes_true([&] { return server->reach().served()->certificate.ends_at > before.ends_at; }));
  EXPECT_EQ(server->reach().served()->certificate.names, before.names);
  EXPECT_NE(ask({.path = "/readyz", .host = "localhost"}).body().find("\"certificate\",\"result\":\"pass\""),
            std::string::npos);
}

TEST(JoinNotServed, TlsWithoutACertificateIsRefusedWithWhatToDo) {
  Scene scene;
  web::WebOptions options;
  options.plain.port = 0;
  options.share = in_source();
  options.tls = web::TlsOptions{{"127.0.0.1", 0}, {scene.folder() / "tls"}, Duration::seconds(3)};
  const auto server = web::WebServer::start(scene.shop(), options, [now = scene.now] { return now; });
  ASSERT_FALSE(server);
  EXPECT_NE(server.error().message.find("hourwright tls init --data " + scene.folder().string()), std::string::npos)
      << server.error().message;
}

// The Cookie header of a lead's session, begun by a link.
std::string as_lead_person(const Scene& scene, const web::WebServer& server) {
  const service::Grant grant{.kind = "link",
                             .name = "Ada",
                             .role = access::Role::lead,
                             .made_at = scene.now,
                             .ends_at = scene.now + Duration::hours(1)};
  const std::string secret = must(storage::leave_grant(scene.folder(), grant));
  http::RawClient client(server.port());
  client.send(text_of_file({"POST", "/api/sign-in/link", "localhost", "",
                            fmt::format(R"({{"secret":"{}","password":"three blue mills at noon"}})", secret)}));
  return "Cookie: " + JoinAnswer{client.read_all()}.cookie() + "\r\n";
}

TEST(JoinNotServed, WhileOnlyThisComputerReachesItNobodyCanJoin) {
  Scene scene;
  web::WebOptions options;
  options.plain.port = 0;
  options.share = in_source();
  const auto server = must(web::WebServer::start(scene.shop(), options, [now = scene.now] { return now; }));
  http::RawClient client(server->port());
  client.send(text_of_file({"POST", "/api/join-codes", "localhost", "",
                            fmt::format(R"({{"id":"{}","by":"Ada"}})", id_of(1)), as_lead_person(scene, *server)}));
  const std::string answer = client.read_all();
  EXPECT_NE(answer.find("409 Conflict"), std::string::npos) << answer;
  EXPECT_NE(answer.find("--listen"), std::string::npos) << answer;
}

}  // namespace
}  // namespace hw::shop
