#include "libs/http/router.h"

#include <gtest/gtest.h>

namespace hw::http {
namespace {

Handler says(std::string text) {
  return [text = std::move(text)](Request) { return Response::of(200, "text/plain", text); };
}

Request asking(std::string method, std::string path) {
  Request request;
  request.method = std::move(method);
  request.path = std::move(path);
  return request;
}

Router shop() {
  Router router;
  router.add("GET", "/api/machines", says("all"));
  router.add("POST", "/api/machines", says("new"));
  router.add("GET", "/api/machines/{machine}", says("one"));
  router.add("GET", "/api/machines/lost", says("lost"));
  router.add("PUT", "/api/machines/{machine}/tasks/{task}", [](Request request) {
    return Response::of(200, "text/plain",
                        std::string(request.path_value("machine")) + "|" + std::string(request.path_value("task")));
  });
  return router;
}

TEST(Router, TakesNamesFromThePath) {
  EXPECT_EQ(shop().answer(asking("PUT", "/api/machines/mill 1/tasks/t7")).text(), "mill 1|t7");
}

TEST(Router, AWordIsCloserThanAName) {
  EXPECT_EQ(shop().answer(asking("GET", "/api/machines/lost")).text(), "lost");
  EXPECT_EQ(shop().answer(asking("GET", "/api/machines/found")).text(), "one");
}

TEST(Router, UnknownPathsAre404) {
  for (const char* path :
       {"/", "/api", "/api/machines/", "/api/machines/a/tasks", "/api/machines/a/b/c", "/API/machines"}) {
    EXPECT_EQ(shop().answer(asking("GET", path)).status, 404) << path;
  }
}

TEST(Router, AnotherMethodIs405WithAllow) {
  const Response response = shop().answer(asking("DELETE", "/api/machines"));
  EXPECT_EQ(response.status, 405);
  EXPECT_EQ(response.headers.find("Allow"), "GET, HEAD, OPTIONS, POST");
  EXPECT_EQ(shop().answer(asking("GET", "/api/machines/a/tasks/b")).headers.find("Allow"), "OPTIONS, PUT");
}

TEST(Router, HeadIsAnsweredByGetAndOptionsByAllow) {
  EXPECT_EQ(shop().answer(asking("HEAD", "/api/machines")).text(), "all");
  EXPECT_EQ(shop().answer(asking("HEAD", "/api/machines/a/tasks/b")).status, 405);
  EXPECT_EQ(shop().answer(asking("OPTIONS", "/api/machines")).status, 204);
}

TEST(Router, OtherwiseTakesWhatNoPatternFits) {
  Router router = shop();
  router.otherwise(says("app"));
  EXPECT_EQ(router.answer(asking("GET", "/machine/mill1")).text(), "app");
  EXPECT_EQ(router.answer(asking("DELETE", "/api/machines")).status, 405);
}

TEST(Router, SaysBeforeABodyWhatNeedsNoHandler) {
  Router router = shop();
  router.guard([](const Route& route, Request& request) -> std::optional<Response> {
    if (route.method == "PUT" && request.path_value("task") == "t7") return Response::empty(403);
    return std::nullopt;
  });
  const auto status = [&](const char* method, const char* path) {
    const auto answer = router.answer_before(asking(method, path));
    return answer ? answer->status : 0;
  };
  EXPECT_EQ(status("PUT", "/api/machines/a/tasks/t7"), 403);
  EXPECT_EQ(status("PUT", "/api/machines/a/tasks/t8"), 0) << "its handler is to be asked";
  EXPECT_EQ(status("DELETE", "/api/machines"), 405);
  EXPECT_EQ(status("PUT", "/nowhere"), 404);
  EXPECT_EQ(router.answer(asking("PUT", "/api/machines/a/tasks/t7")).status, 403);
}

TEST(Router, ListsItsRoutesSorted) {
  const std::vector<Route> expected = {{"GET", "/api/machines"},
                                       {"POST", "/api/machines"},
                                       {"GET", "/api/machines/lost"},
                                       {"GET", "/api/machines/{machine}"},
                                       {"PUT", "/api/machines/{machine}/tasks/{task}"}};
  EXPECT_EQ(shop().routes(), expected);
}

TEST(RouterDeathTest, TheSameRouteTwiceIsOurMistake) {
  Router router = shop();
  EXPECT_DEATH(router.add("GET", "/api/machines/{other}", says("")), "each route is added once");
}

}  // namespace
}  // namespace hw::http
