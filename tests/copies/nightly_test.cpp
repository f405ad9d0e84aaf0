// The folder of nightly copies.

#include <fstream>

#include "src/copies/copy_name.h"
#include "src/storage/copy_folder.h"
#include "src/storage/copying.h"
#include "tests/copies/copied_shop.h"

namespace hw::shop {
namespace {

namespace fs = std::filesystem;

class Nightly : public testing::Test {
 protected:
  fs::path file(Instant made_at) const { return folder.copies / copies::copy_name(made_at); }
  Result<copies::GoodCopy> keep(int night) {
    return storage::keep_nightly(folder, scene.now + Duration::hours(24 * night));
  }

  Scene scene;
  sql::TestFolder place;
  storage::CopyFolder folder{scene.folder(), place.path(), {2, 0, 0}, scene.shop().calendar().zone};
};

TEST_F(Nightly, OldOnesGoAndWhatIsNotOursStays) {
  std::ofstream(place.path() / "holiday.jpg") << "somebody's";
  std::ofstream(place.path() / "hourwright-2020-01-01T000000Z.copy.bak") << "somebody's";
  std::ofstream(place.path() / ".hourwright-2020-01-01T000000Z.copy.4711") << "broken off";
  fs::create_directory(place.path() / "..hourwright-2020-01-01T000000Z.copy.4711.work.4711");
  for (int night = 0; night < 3; ++night) must(keep(night));
  EXPECT_FALSE(fs::exists(file(scene.now)));
  EXPECT_TRUE(fs::exists(file(scene.now + Duration::hours(24))));
  EXPECT_TRUE(storage::check_copy(file(scene.now + Duration::hours(48))));
  EXPECT_EQ(std::distance(fs::directory_iterator(place.path()), fs::directory_iterator()), 4);
  EXPECT_TRUE(fs::exists(place.path() / "holiday.jpg"));
  EXPECT_EQ(must(storage::newest_good(folder))->made_at, scene.now + Duration::hours(48));
}

TEST_F(Nightly, OfAnAlteredLogbookNoOlderCopyIsRemoved) {
  must(scene.done("filter", 1));
  for (int night = 0; night < 2; ++night) must(keep(night));
  meddle(scene.folder(), "drop trigger entry_stays; update entry set says = 'another' where ordinal = 1");
  for (int night = 2; night < 4; ++night) EXPECT_EQ(keep(night).error().code, ErrorCode::corrupt);
  EXPECT_TRUE(fs::exists(file(scene.now)));
  EXPECT_EQ(must(storage::newest_good(folder))->made_at, scene.now + Duration::hours(24));
}

TEST_F(Nightly, AFolderThatIsNotThereIsNotMade) {
  folder.copies = place.path() / "not-mounted";
  EXPECT_EQ(keep(0).error().code, ErrorCode::not_found);
  EXPECT_EQ(storage::newest_good(folder).error().code, ErrorCode::not_found);
  EXPECT_FALSE(fs::exists(folder.copies));
}

}  // namespace
}  // namespace hw::shop
