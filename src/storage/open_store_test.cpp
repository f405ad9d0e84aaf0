#include "src/storage/open_store.h"

#include <fstream>

#include <sys/mount.h>

#include "libs/sql/sqlite.h"
#include "src/storage/kept_store.h"
#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

struct OpenStore : testing::Test {
  sql::TestFolder folder;
  std::filesystem::path file() const { return folder.path() / "hourwright.db"; }

  Error refusal(const std::filesystem::path& path) {
    const auto opened = open_store(path);
    EXPECT_FALSE(opened);
    return opened ? Error{} : opened.error();
  }
  void expect_says(const Error& error, ErrorCode code, std::string_view says) {
    EXPECT_EQ(error.code, code) << error.message;
    EXPECT_NE(error.message.find(says), std::string::npos) << error.message;
    EXPECT_EQ(error.message.find('\n'), std::string::npos);
  }
};

TEST_F(OpenStore, MakesFolderAndTablesFromNothing) {
  const auto store = open_store(folder.path() / "new");
  ASSERT_TRUE(store) << store.error().message;
  EXPECT_FALSE(*(*store)->shop());
  EXPECT_TRUE((*store)->machines()->empty());
}

TEST_F(OpenStore, OpensWhatItMadeAgain) {
  { ASSERT_TRUE((*open_store(folder.path()))->create_shop(full_shop(), {full_machine("l1")})); }
  const auto again = open_store(folder.path());
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ((**(*again)->shop()).plant, "Werk Süd");
}

TEST_F(OpenStore, AnEdgeHasItsShopInTheFoldersFile) {
  EXPECT_EQ(open_edge(folder.path()).error().code, ErrorCode::not_found);
  { ASSERT_TRUE((*open_store(folder.path(), {.new_plant = "north"}))->create_shop(full_shop(), {})); }
  {
    const auto edge = open_edge(folder.path());
    ASSERT_TRUE(edge) << edge.error().message;
    EXPECT_GT(*edge->shipments->waiting(), 0);
    EXPECT_EQ(open_store(folder.path()).error().code, ErrorCode::in_use);
  }
  ASSERT_TRUE(place_on_server(folder.path() / "there", "postgresql:///none"));
  expect_says(open_edge(folder.path() / "there").error(), ErrorCode::unsupported, "an edge keeps its own file");
}

TEST_F(OpenStore, CanBeLookedIntoBesideAServer) {
  EXPECT_EQ(look_into(folder.path()).error().code, ErrorCode::not_found);
  const auto store = open_store(folder.path());
  expect_says(look_into(folder.path()).error(), ErrorCode::not_found, "no shop has been founded");
  ASSERT_TRUE((*store)->create_shop(full_shop(), {full_machine("l2"), full_machine("l1")}));
  const auto seen = look_into(folder.path());
  ASSERT_TRUE(seen) << seen.error().message;
  EXPECT_EQ(seen->shop.plant, "Werk Süd");
  ASSERT_EQ(seen->machines.size(), 2u);
  EXPECT_EQ(seen->machines[0].machine.key, "l2");
}

TEST_F(OpenStore, WhatAnotherVersionWroteIsNotLookedInto) {
  { ASSERT_TRUE((*open_store(folder.path()))->create_shop(full_shop(), {})); }
  {
    const auto db = *sql::open_sqlite(file(), sql::Access::write, {.application_id = application_id});
    ASSERT_TRUE(db->set_schema_version(99));
  }
  expect_says(look_into(folder.path()).error(), ErrorCode::unsupported, "version 99");
}

TEST_F(OpenStore, AFolderHasOneServer) {
  const auto first = open_store(folder.path());
  expect_says(refusal(folder.path()), ErrorCode::in_use, folder.path().string());
  ASSERT_TRUE((*first)->create_shop(full_shop(), {}));
}

TEST_F(OpenStore, AFolderIsNotMadeInOneThatIsMissing) {
  expect_says(refusal(folder.path() / "missing" / "data"), ErrorCode::not_found, "missing");
  EXPECT_FALSE(std::filesystem::exists(folder.path() / "missing"));
}

TEST_F(OpenStore, AFileIsNoFolder) {
  std::ofstream(folder.path() / "data") << "x";
  expect_says(refusal(folder.path() / "data"), ErrorCode::bad_input, "no folder");
}

TEST_F(OpenStore, ANewerProgramsTablesAreRefusedUntouched) {
  { ASSERT_TRUE(open_store(folder.path())); }
  const sql::SqliteOptions options{.application_id = application_id};
  { ASSERT_TRUE((*sql::open_sqlite(file(), sql::Access::write, options))->set_schema_version(99)); }
  expect_says(refusal(folder.path()), ErrorCode::unsupported, "99");
  EXPECT_EQ(*(*sql::open_sqlite(file(), sql::Access::read, options))->schema_version(), 99);
}

TEST_F(OpenStore, AnotherProgramsDatabaseOrNoDatabaseIsRefusedUntouched) {
  { ASSERT_TRUE(sql::open_sqlite(file(), sql::Access::write, {.application_id = 0x4F544852})); }
  expect_says(refusal(folder.path()), ErrorCode::bad_input, "another program");
  std::filesystem::remove(file());
  const std::string text(10'000, 'x');
  std::ofstream(file()) << text;
  expect_says(refusal(folder.path()), ErrorCode::corrupt, "hourwright.db");
  std::ifstream in(file());
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(in), {}), text);
}

TEST_F(OpenStore, WhereThereIsNoShopNothingIsMade) {
  EXPECT_EQ(find_store(folder.path()).error().code, ErrorCode::not_found);
  EXPECT_EQ(find_store(folder.path() / "typo").error().code, ErrorCode::not_found);
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
  { ASSERT_TRUE(open_store(folder.path())); }
  EXPECT_TRUE(find_store(folder.path()));
}

TEST_F(OpenStore, AShopIsMadeOnce) {
  const auto store = *open_store(folder.path());
  ASSERT_TRUE(store->create_shop(full_shop(), {full_machine("l1")}));
  EXPECT_EQ(store->create_shop(full_shop(), {full_machine("l9")}).error().code, ErrorCode::conflict);
  EXPECT_EQ(store->machines()->size(), 1u);
}

TEST_F(OpenStore, AShopThatIsRefusedOnItsWayLeavesNothing) {
  const auto store = *open_store(folder.path());
  auto twice = full_machine("l1");
  twice.points.push_back(twice.points.at(0));
  EXPECT_EQ(store->create_shop(full_shop(), {full_machine("l0"), twice}).error().code, ErrorCode::conflict);
  EXPECT_FALSE(*store->shop());
  EXPECT_TRUE(store->machines()->empty());
}

service::Entry big_entry(std::string id) {
  service::Entry entry = full_entry(std::move(id));
  entry.note = std::string(200'000, 'n');
  return entry;
}

// Entries until there is no more room; how many were acknowledged.
int add_until_full(service::Store& store) {
  for (int n = 0; n < 1000; ++n) {
    try {
      EXPECT_TRUE(keep(store, big_entry(fmt::format("big{}", n))));
    } catch (const sql::StorageFailed& failed) {
      EXPECT_EQ(failed.error().code, ErrorCode::disk_full);
      EXPECT_NE(failed.error().message.find("full"), std::string::npos) << failed.error().message;
      return n;
    }
  }
  ADD_FAILURE() << "it never got full";
  return -1;
}

TEST_F(OpenStore, Survives_AFullFileWithTheRefusedEntryLeavingNothing) {
  { ASSERT_TRUE((*open_store(folder.path()))->create_shop(full_shop(), {full_machine("l1")})); }
  const sql::SqliteOptions small{.application_id = application_id, .pages_max = 300};
  const auto pool = [&](sql::Access access, ConnectionPool::Failed failed) {
    return std::make_shared<ConnectionPool>([=, this] { return sql::open_sqlite(file(), access, small); }, failed);
  };
  KeptStore store({"plant", folder.path(), nullptr, pool(sql::Access::write, ConnectionPool::Failed::kept),
                   pool(sql::Access::read, ConnectionPool::Failed::replaced)});
  const int added = add_until_full(store);
  EXPECT_GT(added, 0);
  EXPECT_EQ(store.entries_of("l1", 1000)->size(), static_cast<std::size_t>(added));
  EXPECT_FALSE(*store.entry(fmt::format("big{}", added)));
  EXPECT_TRUE(keep(store, full_entry("small")));  // for which there is room
}

TEST_F(OpenStore, Survives_AFullDiskAndGoesOnOnceThereIsRoom) {
  const auto disk = folder.path() / "disk";
  std::filesystem::create_directory(disk);
  if (::mount("tmpfs", disk.c_str(), "tmpfs", 0, "size=3m") != 0) GTEST_SKIP() << "needs the right to mount";
  const std::shared_ptr<void> unmount(nullptr, [&](void*) { EXPECT_EQ(::umount(disk.c_str()), 0); });
  std::ofstream(disk / "filler") << std::string(1'000'000, 'f') << std::flush;
  const auto store = *open_store(disk / "data");
  ASSERT_TRUE(store->create_shop(full_shop(), {full_machine("l1")}));
  const int added = add_until_full(*store);
  EXPECT_GT(added, 0);
  const std::string refused = fmt::format("big{}", added);
  EXPECT_FALSE(*store->entry(refused));
  std::filesystem::remove(disk / "filler");
  EXPECT_TRUE(keep(*store, big_entry(refused)));
  EXPECT_EQ(store->entries_of("l1", 1000)->size(), static_cast<std::size_t>(added) + 1);
}

}  // namespace
}  // namespace hw::storage
