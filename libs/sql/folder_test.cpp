#include "libs/sql/folder.h"

#include <fstream>
#include <optional>

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "libs/sql/test_folder.h"

namespace hw::sql {
namespace {

TEST(FolderLock, ASecondHolderIsToldWhoHoldsIt) {
  const TestFolder folder;
  auto first = std::optional(lock_folder(folder.path()));
  ASSERT_TRUE(first->has_value());
  const auto second = lock_folder(folder.path());
  ASSERT_FALSE(second.has_value());
  EXPECT_EQ(second.error().code, ErrorCode::in_use);
  const std::string holder = "is in use by process " + std::to_string(::getpid()) + " (";
  EXPECT_NE(second.error().message.find(holder), std::string::npos) << second.error().message;
  EXPECT_NE(second.error().message.find(folder.path().string()), std::string::npos);
  first.reset();
  EXPECT_TRUE(lock_folder(folder.path()).has_value());
}

TEST(FolderLock, IsFreeAgainWhenItsProcessWasKilled) {
  const TestFolder folder;
  int ready[2];
  ASSERT_EQ(::pipe(ready), 0);
  const pid_t child = ::fork();
  if (child == 0) {
    const auto held = lock_folder(folder.path());
    (void)!::write(ready[1], "x", 1);
    ::pause();
  }
  char letter = 0;
  ASSERT_EQ(::read(ready[0], &letter, 1), 1);
  const auto refused = lock_folder(folder.path());
  ASSERT_FALSE(refused.has_value());
  EXPECT_NE(refused.error().message.find("process " + std::to_string(child)), std::string::npos);
  ::kill(child, SIGKILL);
  ASSERT_EQ(::waitpid(child, nullptr, 0), child);
  EXPECT_TRUE(lock_folder(folder.path()).has_value());
}

TEST(FolderLock, AMissingFolderIsNotFound) {
  const TestFolder folder;
  const auto refused = lock_folder(folder.path() / "none");
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().code, ErrorCode::not_found);
}

TEST(SyncFolder, AFolderThatIsThereIsMadeSafeAndAnotherIsRefused) {
  const TestFolder folder;
  EXPECT_TRUE(sync_folder(folder.path()).has_value());
  EXPECT_EQ(sync_folder(folder.path() / "none").error().code, ErrorCode::disk_full);
}

TEST(LocalFileSystem, WhatComesOverANetworkIsRefusedByName) {
  const auto message = [](std::uint64_t magic, std::string_view mount_type) {
    const auto judged = judge_file_system(magic, mount_type, "/srv/shop");
    return judged ? std::string("local") : judged.error().message;
  };
  EXPECT_EQ(message(0x6969, ""),
            "/srv/shop: lies on NFS, where locks cannot be relied on; use a folder on a disk of this computer");
  EXPECT_NE(message(0xFF534D42, "").find("SMB"), std::string::npos);
  EXPECT_NE(message(0x01021997, "").find("9p"), std::string::npos);
  EXPECT_NE(message(0x65735546, "fuse.sshfs").find("fuse.sshfs"), std::string::npos);
  EXPECT_NE(message(0x65735546, "").find("lies on fuse"), std::string::npos);
  EXPECT_EQ(message(0x65735546, "fuseblk"), "local");
  EXPECT_EQ(message(0xEF53, ""), "local");      // ext4
  EXPECT_EQ(message(0x9123683E, ""), "local");  // btrfs
}

TEST(LocalFileSystem, MemoryAndTemporaryFoldersAreLocalAndMissingOnesNotFound) {
  EXPECT_TRUE(check_local_file_system("/proc").has_value());
  const TestFolder folder;
  EXPECT_TRUE(check_local_file_system(folder.path()).has_value());
  EXPECT_EQ(check_local_file_system(folder.path() / "none").error().code, ErrorCode::not_found);
}

}  // namespace
}  // namespace hw::sql
