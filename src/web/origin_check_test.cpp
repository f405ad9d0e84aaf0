#include "src/web/origin_check.h"

#include <gtest/gtest.h>

namespace hw::web {
namespace {

int status_of(std::string method, http::Headers headers) {
  http::Request request;
  request.method = std::move(method);
  request.path = "/api/shop";
  request.headers = std::move(headers);
  const auto refusal = check_origin(request);
  return refusal ? refusal->status : 0;
}

TEST(OriginCheck, OnlyThisComputersNamesAreAnswered) {
  for (const char* host : {"127.0.0.1:8470", "127.0.0.1", "localhost:8470", "LOCALHOST", "[::1]:8470", "[::1]"}) {
    EXPECT_EQ(status_of("GET", {{"Host", host}}), 0) << host;
  }
  for (const char* host : {"rebound.example:8470", "127.0.0.1.rebound.example", "localhost.rebound.example:8470", "",
                           ":8470", "127.0.0.1:8470.rebound.example", "10.0.0.7:8470", "::1", "[::1",
                           "127.0.0.1@rebound.example", "rebound.example:127.0.0.1"}) {
    EXPECT_EQ(status_of("GET", {{"Host", host}}), 421) << host;
    EXPECT_EQ(status_of("POST", {{"Host", host}, {"Content-Type", "application/json"}}), 421) << host;
  }
  EXPECT_EQ(status_of("GET", {}), 421);
}

TEST(OriginCheck, ChangesComeFromTheServersOwnPagesOrFromPrograms) {
  const auto post = [](const char* origin) {
    return status_of("POST", {{"Host", "127.0.0.1:8470"}, {"Origin", origin}, {"Content-Type", "application/json"}});
  };
  EXPECT_EQ(post("http://127.0.0.1:8470"), 0);
  for (const char* origin : {"http://elsewhere.example", "null", "", "https://127.0.0.1:8470", "http://127.0.0.1:8471",
                             "http://localhost:8470", "http://127.0.0.1:8470.elsewhere.example"}) {
    EXPECT_EQ(post(origin), 403) << origin;
  }
  EXPECT_EQ(status_of("PUT", {{"Host", "localhost"}, {"Content-Type", "application/json"}}), 0);
}

TEST(OriginCheck, ABodyThatABrowserSendsAnywhereWithoutAskingIsRefused) {
  const auto post = [](const char* type) { return status_of("POST", {{"Host", "localhost"}, {"Content-Type", type}}); };
  EXPECT_EQ(post("application/json"), 0);
  EXPECT_EQ(post("Application/JSON ; charset=utf-8"), 0);
  for (const char* type : {"text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "",
                           "text/plain; application/json", "application/jsonp"}) {
    EXPECT_EQ(post(type), 415) << type;
  }
  EXPECT_EQ(status_of("DELETE", {{"Host", "localhost"}}), 415);
}

TEST(OriginCheck, LookingIsAllowedFromAnywhereThatReachesTheServer) {
  EXPECT_EQ(status_of("GET", {{"Host", "localhost"}, {"Origin", "http://elsewhere.example"}}), 0);
  EXPECT_EQ(status_of("HEAD", {{"Host", "localhost"}}), 0);
  EXPECT_EQ(status_of("OPTIONS", {{"Host", "localhost"}}), 0);
}

}  // namespace
}  // namespace hw::web
