#include "tests/shop/served.h"

#include <fstream>
#include <sstream>

#include <boost/json/parse.hpp>

#include "libs/http/loopback_test.h"
#include "src/web/contract.h"
#include "tests/places/places.h"
#include "tests/shop/let_in.h"
#include "tests/shop/schema_check.h"

namespace hw::shop {
namespace {

namespace json = boost::json;

json::value contract() {
  std::ifstream in(in_source("api/openapi.yaml"));
  std::stringstream text;
  text << in.rdbuf();
  return json::parse(must(web::json_of_yaml(text.str())));
}

std::map<http::Route, json::object> operations(const json::value& contract) {
  std::map<http::Route, json::object> all;
  for (const auto& [path, item] : contract.at("paths").as_object()) {
    for (const auto& [method, operation] : item.as_object()) {
      if (method == "parameters") continue;
      std::string upper{method};
      for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
      all[{upper, std::string{path}}] = operation.as_object();
    }
  }
  return all;
}

}  // namespace

json::value Answer::json() const { return json::parse(body); }

Served::Served() : the_contract(contract()), all_operations(operations(the_contract)) {
  scene.play("mill1 |##S.|");
  must(scene.keep());
  std::filesystem::create_directories(share() / "api");
  std::filesystem::create_directories(share() / "app" / "dist");
  std::filesystem::copy(in_source("api/openapi.yaml"), share() / "api" / "openapi.yaml");
  std::ofstream(share() / "app" / "dist" / "index.html") << index_html;
  web::WebOptions options;
  options.plain.port = 0;
  options.share = share();
  as_lead = let_in(scene.folder());
  server = must(web::WebServer::start(scene.shop(), options, [now = scene.now] { return now; }));
}

Answer Served::ask(std::string_view method, std::string_view path, std::string_view body,
                   std::string_view more_headers) const {
  http::RawClient client(server->port());
  const bool says_who = more_headers.find("Authorization:") != std::string_view::npos ||
                        more_headers.find("Cookie:") != std::string_view::npos;
  const std::string headers =
      fmt::format("{}{}", body.empty() && !says_who ? "" : more_headers, says_who ? "" : as_lead);
  client.send(fmt::format("{} {} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n{}Content-Length: {}\r\nConnection: close\r\n\r\n{}",
                          method, path, server->port(), headers, body.size(), body));
  Answer answer;
  answer.head = client.read_response(&answer.body);
  if (answer.head.size() > 12) answer.status = std::stoi(answer.head.substr(9, 3));
  return answer;
}

json::value Served::answer_of(std::string_view method, std::string_view pattern, std::string_view path,
                              std::string_view body, std::string_view more_headers) {
  const Answer answer = ask(method, path, body, more_headers);
  EXPECT_EQ(answer.status, 200) << method << " " << path << ": " << answer.body;
  if (answer.status != 200) return {};
  const auto& operation = all_operations.at({std::string{method}, std::string{pattern}});
  const auto& schema = operation.at("responses").at("200").at("content").at("application/json").at("schema");
  for (const auto& mistake : mistakes_in(answer.json(), schema, the_contract)) {
    ADD_FAILURE() << method << " " << path << ": " << mistake;
  }
  asked.insert({std::string{method}, std::string{pattern}});
  return answer.json();
}

void Served::expect_problem(const Answer& answer, int status, std::string_view says) const {
  EXPECT_EQ(answer.status, status) << answer.body;
  EXPECT_NE(answer.head.find("Content-Type: application/problem+json"), std::string::npos) << answer.head;
  for (const auto& mistake :
       mistakes_in(answer.json(), the_contract.at_pointer("/components/schemas/Problem"), the_contract)) {
    ADD_FAILURE() << mistake;
  }
  EXPECT_EQ(answer.json().at("status"), status);
  EXPECT_NE(answer.json().at("detail").as_string().find(says), std::string::npos) << answer.body;
}

std::string Served::done_body(int id, std::string_view more) {
  return fmt::format(R"({{"id":"{}","by":"Ada"{}}})", id_of(id), more);
}

}  // namespace hw::shop
