#include "libs/power/power_cut.h"

#include <set>

#include <gtest/gtest.h>

namespace hw::power {
namespace {

// What 400 cuts at the same moment leave.
std::set<Image> images_of(const PowerCut& cut, const Operation* under_way = nullptr) {
  std::set<Image> images;
  for (std::uint64_t seed = 0; seed < 400; ++seed) images.insert(cut.image(under_way, seed));
  return images;
}

struct Written {
  Disk disk{Image{{"a", "old"}}};
  std::shared_ptr<File> file = disk.open("a", false);
  Written() { disk.begin_record(); }
  PowerCut cut() const {
    PowerCut cut(Image{{"a", "old"}});
    for (const Operation& operation : disk.record()) cut.advance(operation);
    return cut;
  }
};

TEST(PowerCut, WhatWasSyncedIsThere) {
  Written written;
  written.disk.write(*written.file, 0, "new");
  written.disk.sync(*written.file);
  EXPECT_EQ(images_of(written.cut()), (std::set<Image>{{{"a", "new"}}}));
}

TEST(PowerCut, OfUnsyncedWritesAnySubsetMayBeThere) {
  Written written;
  written.disk.write(*written.file, 0, "1");
  written.disk.write(*written.file, 2, "3");
  const auto images = images_of(written.cut());
  for (const char* bytes : {"old", "1ld", "ol3", "1l3"}) EXPECT_TRUE(images.contains({{"a", bytes}})) << bytes;
  EXPECT_GT(images.size(), 4u) << "some are garbled";
}

TEST(PowerCut, AWriteIsTornAtSectorsAndGarbledNowhereElse) {
  Written written;
  written.disk.write(*written.file, 3, std::string(1021 + 512, 'n'));
  bool is_torn = false;
  for (const Image& image : images_of(written.cut())) {
    const std::string& bytes = image.at("a");
    EXPECT_EQ(bytes.substr(0, 3), "old");
    const auto sector = [&](std::size_t from, std::size_t count) {
      return from < bytes.size() && bytes.substr(from, count) == std::string(count, 'n');
    };
    is_torn = is_torn || (sector(3, 509) && !sector(512, 512) && sector(1024, 512));
  }
  EXPECT_TRUE(is_torn);
}

TEST(PowerCut, WhatIsUnderWayMayBeThereOrNot) {
  Written written;
  const PowerCut cut = written.cut();
  const Operation truncates{.kind = Operation::Kind::truncate, .file = 1, .offset = 1};
  EXPECT_EQ(images_of(cut, &truncates), (std::set<Image>{{{"a", "old"}}, {{"a", "o"}}}));
  const Operation syncs{.kind = Operation::Kind::sync, .file = 1};
  EXPECT_EQ(images_of(cut, &syncs), (std::set<Image>{{{"a", "old"}}}));
}

TEST(PowerCut, FilesComeAndGoWithTheirFolder) {
  Written written;
  written.disk.remove("a");
  written.disk.open("b", true);
  EXPECT_EQ(images_of(written.cut()), (std::set<Image>{{}, {{"a", "old"}}, {{"b", ""}}, {{"a", "old"}, {"b", ""}}}));
  written.disk.sync_folder();
  EXPECT_EQ(images_of(written.cut()), (std::set<Image>{{{"b", ""}}}));
}

TEST(PowerCut, TheSameSeedIsTheSameImage) {
  Written written;
  written.disk.write(*written.file, 0, std::string(9000, 'n'));
  const PowerCut cut = written.cut();
  EXPECT_EQ(cut.image(nullptr, 7), cut.image(nullptr, 7));
}

}  // namespace
}  // namespace hw::power
