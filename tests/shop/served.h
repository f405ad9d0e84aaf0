#pragma once
// A server on a scene's shop, and the contract that its answers are held against.

#include <map>
#include <memory>
#include <set>
#include <string>
#include <string_view>

#include <boost/json/value.hpp>

#include "src/web/web_server.h"
#include "tests/shop/scene.h"

namespace hw::shop {

struct Answer {
  int status = 0;
  std::string head;
  std::string body;
  boost::json::value json() const;
};

// After `mill1 |##S.|`, with a page that stands for the app. The server's clock stands at the scene's `now`.
class Served : public testing::Test {
 protected:
  Served();

  static constexpr std::string_view index_html = "<!doctype html><title>pages</title>";
  static constexpr std::string_view as_json = "Content-Type: application/json\r\n";

  std::filesystem::path share() const { return scene.folder() / "share"; }

  // As a lead's program, unless the headers say as whom.
  Answer ask(std::string_view method, std::string_view path, std::string_view body = "",
             std::string_view more_headers = as_json) const;

  // The answer of an operation, which has to be what the contract says of this status.
  boost::json::value answer_of(std::string_view method, std::string_view pattern, std::string_view path,
                               std::string_view body = "", std::string_view more_headers = as_json);
  void expect_problem(const Answer& answer, int status, std::string_view says) const;

  static std::string done_body(int id, std::string_view more = "");

  const boost::json::value the_contract;
  const std::map<http::Route, boost::json::object> all_operations;  // methods and paths of the contract
  std::set<http::Route> asked;
  Scene scene;
  std::unique_ptr<web::WebServer> server;
  std::string as_lead;  // the header that lets in
};

}  // namespace hw::shop
