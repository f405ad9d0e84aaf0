// The routes of rounds, without a server: the rhythm's words in the path, what is refused.

#include "src/web/rounds_api.h"

#include <gmock/gmock.h>

#include "libs/http/event_stream.h"
#include "tests/shop/walking.h"

namespace hw::shop {
namespace {

using testing::HasSubstr;

class RoundsApi : public testing::Test {
 protected:
  RoundsApi() {
    web::add_rounds(router, {.shop = scene.shop(),
                             .floor = floor,
                             .clock = [this] { return scene.now; },
                             .events = events,
                             .forecasts = forecasts,
                             .proposals = proposals,
                             .studies = studies,
                             .stores = stores,
                             .contract_json = nullptr,
                             .reach = reach});
  }
  http::Response post(std::string path, std::string body) {
    http::Request request;
    request.method = "POST";
    request.path = std::move(path);
    request.body = std::move(body);
    return router.answer(std::move(request));
  }
  static std::string text_of(const http::Response& response) { return std::get<std::string>(response.body); }

  Scene scene{"2026-03-02T05:00:00Z", "Europe/Berlin", round_tasks};
  web::FloorLines floor{scene.shop()};
  http::Channel events;
  service::UseForecasts forecasts{scene.shop()};
  service::Proposals proposals{scene.shop(), forecasts};
  service::PartStudies studies{scene.shop()};
  service::StoresStudies stores{scene.shop(), forecasts, studies};
  const web::Reach reach{{}};
  http::Router router;
};

TEST_F(RoundsApi, TheRhythmStandsInThePathAsItsWords) {
  const std::string walk = fmt::format(R"({{"id":"{}","by":"Ada","checks":["start"]}})", id_of(1));
  const auto begun = post("/api/machines/mill1/rounds/before start-up/walks", walk);
  EXPECT_EQ(begun.status, 200) << text_of(begun);
  EXPECT_THAT(text_of(begun), HasSubstr(R"("rhythm":"before start-up")"));
  EXPECT_EQ(post("/api/machines/mill1/rounds/month/walks", walk).status, 400);
}

TEST_F(RoundsApi, WhatTheContractDoesNotHaveIsRefusedWithItsPath) {
  const auto answered = post("/api/machines/mill1/rounds/shift/answers",
                             fmt::format(R"({{"id":"{}","by":"Ada","walk":"{}","others":false,)"
                                         R"("answers":[{{"check":"air/supply air","kind":"reading","value":1e309}}]}})",
                                         id_of(1), id_of(2)));
  EXPECT_EQ(answered.status, 400);
  EXPECT_THAT(text_of(answered), HasSubstr("1e309"));
  EXPECT_TRUE(scene.machine().entries.empty());
}

}  // namespace
}  // namespace hw::shop
