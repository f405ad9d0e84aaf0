#include "libs/power/disk.h"

#include <gtest/gtest.h>

namespace hw::power {
namespace {

TEST(Disk, AFileKeepsItsBytesUntilItIsRemoved) {
  Disk disk;
  EXPECT_EQ(disk.open("a", false), nullptr);
  const auto file = disk.open("a", true);
  disk.write(*file, 3, "xyz");
  EXPECT_EQ(disk.image().at("a"), std::string("\0\0\0xyz", 6));
  disk.truncate(*file, 4);
  EXPECT_EQ(disk.open("a", false)->bytes, std::string("\0\0\0x", 4));
  disk.remove("a");
  EXPECT_FALSE(disk.has("a"));
  EXPECT_EQ(file->bytes.size(), 4u) << "whoever has it open still has it";
}

TEST(Disk, RecordsChangesAndSyncsFromWhereItIsTold) {
  Disk disk(Image{{"b", "1"}});
  const auto file = disk.open("b", true);
  disk.write(*file, 0, "2");
  disk.begin_record();
  disk.write(*file, 1, "3");
  disk.sync(*file);
  disk.open("c", true);
  ASSERT_EQ(disk.record().size(), 3u);
  EXPECT_EQ(disk.record()[0].bytes, "3");
  EXPECT_EQ(disk.record()[1].kind, Operation::Kind::sync);
  EXPECT_EQ(disk.record()[2].name, "c");
  EXPECT_NE(disk.record()[2].file, disk.record()[0].file);
}

TEST(Disk, FailsAtTheOneThatIsNamedOnceOrForEver) {
  Disk disk;
  disk.fail(Fault{Access::sync, 2, Failing::once, Failure::full});
  EXPECT_FALSE(disk.meet(Access::sync));
  EXPECT_FALSE(disk.meet(Access::write));
  EXPECT_FALSE(disk.has_failed());
  EXPECT_EQ(disk.meet(Access::sync), Failure::full);
  EXPECT_FALSE(disk.meet(Access::sync));
  EXPECT_EQ(disk.met(Access::sync), 3);
  disk.fail(Fault{Access::read, 1, Failing::for_ever});
  EXPECT_TRUE(disk.meet(Access::read) && disk.meet(Access::read));
  disk.fail({});
  EXPECT_FALSE(disk.meet(Access::read));
}

}  // namespace
}  // namespace hw::power
