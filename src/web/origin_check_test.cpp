#include "src/web/origin_check.h"

#include <gtest/gtest.h>

namespace hw::web {
namespace {

struct Came {
  std::string from = "127.0.0.1";
  bool is_tls = false;
  std::string path = "/api/shop";
};

http::Request request_of(std::string method, http::Headers headers, const Came& came = {}) {
  http::Request request;
  request.method = std::move(method);
  request.path = came.path;
  request.headers = std::move(headers);
  request.remote_address = came.from;
  request.is_tls = came.is_tls;
  return request;
}

int status_of(std::string method, http::Headers headers, const Came& came = {}) {
  const Reach reach({*certificates::parse_host_name("shop.example"), *certificates::parse_host_name("10.0.0.7")});
  const auto request = request_of(std::move(method), std::move(headers), came);
  if (const auto refusal = check_origin(request, reach)) return refusal->status;
  const auto refusal = check_body_type(request);
  return refusal ? refusal->status : 0;
}

TEST(OriginCheck, OnlyTheServersOwnNamesAreAnswered) {
  for (const char* host :
       {"127.0.0.1:8470", "127.0.0.1", "localhost:8470", "LOCALHOST", "north.localhost:8470", "[::1]:8470", "[::1]"}) {
    EXPECT_EQ(status_of("GET", {{"Host", host}}), 0) << host;
  }
  for (const char* host : {"rebound.example:8470", "127.0.0.1.rebound.example", "localhost.rebound.example:8470",
                           "northlocalhost", ".localhost", "", ":8470", "127.0.0.1:8470.rebound.example",
                           "10.0.0.8:8470", "::1", "[::1", "127.0.0.1@rebound.example", "rebound.example:127.0.0.1"}) {
    EXPECT_EQ(status_of("GET", {{"Host", host}}), 421) << host;
    EXPECT_EQ(status_of("POST", {{"Host", host}, {"Content-Type", "application/json"}}), 421) << host;
  }
  EXPECT_EQ(status_of("GET", {}), 421);
}

TEST(OriginCheck, OtherDevicesAskForTheNamesThatTheyHaveForTheServer) {
  for (const char* from : {"10.0.0.20", "127.0.0.1"}) {
    for (const char* host : {"shop.example:8470", "SHOP.example", "10.0.0.7:8470"}) {
      EXPECT_EQ(status_of("GET", {{"Host", host}}, {from}), 0) << host;
    }
    EXPECT_EQ(status_of("GET", {{"Host", "shop.example.rebound.example"}}, {from}), 421);
  }
  for (const char* host : {"localhost:8470", "127.0.0.1:8470", "[::1]:8470"}) {
    EXPECT_EQ(status_of("GET", {{"Host", host}}, {"10.0.0.20"}), 421) << host;
  }
}

TEST(OriginCheck, ThisComputerIsALoopbackPeerThatAsksForALoopbackName) {
  const auto is_own = [](const char* from, const char* host) {
    return is_this_computer(request_of("GET", {{"Host", host}}, {from}));
  };
  for (const char* from : {"127.0.0.1", "127.0.0.9", "::1", "::ffff:127.0.0.1"}) {
    EXPECT_TRUE(is_own(from, "localhost:8470")) << from;
    EXPECT_FALSE(is_own(from, "shop.example:8470")) << from;
  }
  for (const char* from : {"10.0.0.20", "::ffff:10.0.0.20", "fe80::1", "1270.0.1", ""}) {
    EXPECT_FALSE(is_own(from, "127.0.0.1:8470")) << from;
  }
}

TEST(OriginCheck, OverAnEncryptedLineTheOriginIsAnEncryptedOne) {
  const auto post = [](const char* origin, bool is_tls) {
    return status_of("POST", {{"Host", "shop.example:8471"}, {"Origin", origin}, {"Content-Type", "application/json"}},
                     {"10.0.0.20", is_tls});
  };
  EXPECT_EQ(post("https://shop.example:8471", true), 0);
  EXPECT_EQ(post("http://shop.example:8471", true), 403);
  EXPECT_EQ(post("http://shop.example:8471", false), 0);
  EXPECT_EQ(post("https://shop.example:8471", false), 403);
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

TEST(OriginCheck, ASheetIsBytesThatAreAskedForFirst) {
  const auto post = [](const char* type, const char* path) {
    return status_of("POST", {{"Host", "localhost"}, {"Content-Type", type}}, {.path = path});
  };
  for (const char* path : {"/api/stores/sheet", "/api/stores/sheet/look"}) {
    EXPECT_EQ(post("application/octet-stream", path), 0) << path;
    EXPECT_EQ(post("text/plain", path), 415) << path;
    EXPECT_EQ(post("application/json", path), 415) << path;
  }
  EXPECT_EQ(post("application/octet-stream", "/api/stores/sheets"), 415);
}

TEST(OriginCheck, APhotoIsAPictureAndOnlyAPhotoIs) {
  const auto put = [](const char* type, const char* path, const char* origin = "http://localhost") {
    return status_of("PUT", {{"Host", "localhost"}, {"Origin", origin}, {"Content-Type", type}}, {.path = path});
  };
  for (const char* type : {"image/jpeg", "image/png", "Image/WebP ; q=1"}) {
    EXPECT_EQ(put(type, "/api/photos/p"), 0) << type;
    EXPECT_EQ(put(type, "/api/photos/p", "http://elsewhere.example"), 403) << type;
    EXPECT_EQ(put(type, "/api/machines/m/tasks/t"), 415) << type;
    EXPECT_EQ(put(type, "/api/photosets"), 415) << type;
    EXPECT_EQ(status_of("POST", {{"Host", "localhost"}, {"Content-Type", type}}, {.path = "/api/photos/p"}), 415)
        << type;
  }
  for (const char* type : {"application/json", "image/svg+xml", "image/gif", "text/html", ""}) {
    EXPECT_EQ(put(type, "/api/photos/p"), 415) << type;
  }
}

TEST(OriginCheck, LookingIsAllowedFromAnywhereThatReachesTheServer) {
  EXPECT_EQ(status_of("GET", {{"Host", "localhost"}, {"Origin", "http://elsewhere.example"}}), 0);
  EXPECT_EQ(status_of("HEAD", {{"Host", "localhost"}}), 0);
  EXPECT_EQ(status_of("OPTIONS", {{"Host", "localhost"}}), 0);
}

}  // namespace
}  // namespace hw::web
