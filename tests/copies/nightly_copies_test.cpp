// The running server's nightly copies, with a maker that only says that it made one.

#include "src/service/nightly_copies.h"

#include <future>

#include "src/web/metrics.h"
#include "src/web/readiness.h"
#include "tests/copies/copied_shop.h"

namespace hw::shop {
namespace {

class Making : public testing::Test {
 protected:
  // Runs until a copy was tried, or until it was looked whether one is due, and then ends.
  copies::CopyState state_after(std::optional<copies::GoodCopy> newest, Result<copies::GoodCopy> made) {
    std::promise<void> looked;
    service::CopyMaking making;
    making.at = {2};
    making.newest = [&] { return newest; };
    making.make = [&](Instant) {
      ++tries;
      return made;
    };
    making.clock = [&] {
      if (!has_looked) looked.set_value();
      has_looked = true;
      return scene.now;
    };
    making.report = [&](std::string_view says) { reported = says; };
    {
      const service::NightlyCopies copies(scene.shop(), making);
      looked.get_future().wait();
    }
    return scene.shop().copies();
  }
  copies::GoodCopy good(int hours_ago) const { return {scene.now - Duration::hours(hours_ago), 1'500'000}; }
  std::string check() const {
    for (const auto& one : web::readiness_of(scene.shop(), 1, scene.now).checks) {
      if (one.name == "copies") return one.result + ": " + one.detail;
    }
    return "";
  }
  std::vector<service::TodayItemView> today() const {
    service::UseForecasts forecasts(scene.shop());
    service::PartStudies studies(scene.shop());
    service::StoresStudies stores(scene.shop(), forecasts, studies);
    auto items = must(show_today(scene.shop(), forecasts, studies, stores, scene.now)).items;
    std::erase_if(items, [](const auto& item) { return item.kind != "copies"; });
    return items;
  }

  Scene scene;
  int tries = 0;
  std::string reported;
  bool has_looked = false;
};

TEST_F(Making, WithoutAnyOneIsMadeAtOnce) {
  const auto state = state_after({}, good(0));
  EXPECT_EQ(tries, 1);
  EXPECT_EQ(state.last_good->made_at, scene.now);
  EXPECT_EQ(check().substr(0, 5), "pass:");
  EXPECT_TRUE(today().empty());
  const std::string metrics = web::metrics_of(scene.shop(), scene.now);
  EXPECT_NE(metrics.find("\nhourwright_copy_age_seconds 0\n"), std::string::npos) << metrics;
  EXPECT_NE(metrics.find("hourwright_copy_bytes 1500000\n"), std::string::npos) << metrics;
  EXPECT_NE(metrics.find("hourwright_copying 1\n"), std::string::npos);
}

TEST_F(Making, OneOfThisNightIsEnough) {
  state_after(good(1), good(0));
  EXPECT_EQ(tries, 0);
}

TEST_F(Making, OneThatFailedStandsOnTodayAndIsAWarning) {
  const auto state = state_after(good(60), refuse(ErrorCode::disk_full, "no room"));
  EXPECT_EQ(state.trouble, "no room");
  EXPECT_NE(reported.find("no room"), std::string::npos);
  EXPECT_EQ(check().substr(0, 5), "warn:");
  ASSERT_EQ(today().size(), 1u);
  EXPECT_EQ(today()[0].copies->concern, copies::Concern::failed);
  EXPECT_EQ(today()[0].copies->last_good_at, good(60).made_at);
}

TEST_F(Making, WhereNoneAreMadeTodaySaysSoButNotOfADemo) {
  EXPECT_TRUE(today().empty());
  scene.shop().set_copies({copies::Keeping::none, {}, ""});
  ASSERT_EQ(today().size(), 1u);
  EXPECT_EQ(today()[0].copies->concern, copies::Concern::not_set_up);
  EXPECT_EQ(check().substr(0, 5), "warn:");
}

}  // namespace
}  // namespace hw::shop
