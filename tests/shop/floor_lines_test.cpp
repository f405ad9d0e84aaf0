// The Floor's text is kept, and yet says what is so now.

#include "src/web/floor_lines.h"

#include "libs/formats/json.h"
#include "libs/numerics/random.h"
#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

using web::FloorLines;

const http::Request of_all;

http::Request limited_to(std::vector<std::string> machines) {
  http::Request request;
  request.limited_to = std::move(machines);
  return request;
}

// As it is told where nothing is kept.
std::string told_anew(const Scene& scene) { return formats::print_json(show_floor(scene.shop(), scene.now)); }

struct FloorLinesOfAScene : testing::Test {
  FloorLinesOfAScene() { scene.play("mill1 |##S.|"); }
  std::string kept() { return *lines.floor(of_all, scene.now); }

  Scene scene;
  FloorLines lines{scene.shop()};
};

TEST_F(FloorLinesOfAScene, AreToldLetterForLetterAsWithoutKeeping) {
  EXPECT_EQ(kept(), told_anew(scene));
  EXPECT_EQ(kept(), told_anew(scene));
}

TEST_F(FloorLinesOfAScene, AreTheSameTextForWhoeverAsksNextWhileNothingChanges) {
  const auto first = lines.floor(of_all, scene.now);
  EXPECT_EQ(lines.floor(of_all, scene.now), first);
  EXPECT_EQ(lines.floor(of_all, scene.now + FloorLines::now_within - Duration{1}), first);
  EXPECT_NE(lines.floor(of_all, scene.now + FloorLines::now_within), first) << "the present moment is told with it";
}

TEST_F(FloorLinesOfAScene, TellAnEntryAtOnce) {
  const std::string before = kept();
  must(scene.done("filter", 1));
  EXPECT_EQ(kept(), told_anew(scene));
  EXPECT_NE(kept(), before);
}

TEST_F(FloorLinesOfAScene, TellWhatTheFeedSaysAtOnce) {
  kept();
  scene.play("mill1 |#|");
  EXPECT_EQ(kept(), told_anew(scene));
}

TEST_F(FloorLinesOfAScene, CountOnWhileAValueIsHeldAndNothingIsSaid) {
  kept();
  scene.now = scene.now + FloorLines::lasts;
  EXPECT_EQ(kept(), told_anew(scene));
}

TEST_F(FloorLinesOfAScene, FollowAClockThatIsSetBack) {
  kept();
  scene.now = scene.now - Duration::hours(1);
  EXPECT_EQ(kept(), told_anew(scene));
}

TEST_F(FloorLinesOfAScene, TellWhoIsLimitedOfNoOtherMachine) {
  service::FloorView view = show_floor(scene.shop(), scene.now);
  std::erase_if(view.machines, [](const auto& machine) { return machine.key != "mill2"; });
  ASSERT_EQ(view.machines.size(), 1u);
  EXPECT_EQ(*lines.floor(limited_to({"mill2"}), scene.now), formats::print_json(view));
  view.machines.clear();
  EXPECT_EQ(*lines.floor(limited_to({}), scene.now), formats::print_json(view));
  EXPECT_EQ(kept(), told_anew(scene)) << "what was told to one is not kept for all";
}

TEST_F(FloorLinesOfAScene, AreMadeReadyOnlyWhileSomebodyLooks) {
  const auto line = [&] {
    const auto looking = scene.shop().look();
    return lines.line(0, scene.now);
  };
  kept();
  const auto first = line();
  scene.now = scene.now + Duration::seconds(1);
  lines.refresh(scene.now);
  const auto refreshed = line();
  EXPECT_NE(refreshed, first);
  scene.now = scene.now + Duration::seconds(20);
  lines.refresh(scene.now);
  scene.now = scene.now - Duration::seconds(20);
  EXPECT_EQ(line(), refreshed) << "nobody has looked for a while";
}

TEST(Property, TheKeptFloorIsTheToldOneWhateverComesInWhichOrder) {
  numerics::Random random(20261127);
  Scene scene;
  FloorLines lines(scene.shop());
  for (int step = 0; step < 200; ++step) {
    switch (random.whole_between(0, 3)) {
      case 0:
        scene.play(random.whole_between(0, 1) ? "mill1 |#|" : "mill2 |S|");
        break;
      case 1:
        must(scene.done("filter", step + 1));
        break;
      case 2:
        scene.now = scene.now + Duration::seconds(random.whole_between(2, 100));
        break;
      default:
        break;  // asked twice
    }
    ASSERT_EQ(*lines.floor(of_all, scene.now), told_anew(scene)) << "step " << step;
  }
}

}  // namespace
}  // namespace hw::shop
