#include "src/storage/moving.h"

#include <gmock/gmock.h>

#include "src/storage/grant_files.h"
#include "src/storage/record_digest.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

// A shop in a file, under a key of its own, and a database that may take it.
class Moving : public testing::Test {
 protected:
  Moving() { found(data, "north"); }
  static void found(const fs::path& folder, const std::string& key) {
    auto store = std::move(*open_store(folder, {.new_plant = key}));
    EXPECT_TRUE(store->create_shop(full_shop(), {full_machine("l2"), full_machine("l1")}));
    EXPECT_TRUE(keep(*store, full_entry("e1")));
    EXPECT_TRUE(keep(*store, full_entry("e2")));
    auto writing = std::move(*store->begin());
    EXPECT_TRUE(writing->add_photo({"p1", "00ff", std::string("a\0b", 3)}));
    EXPECT_TRUE(writing->commit());
  }
  Result<copies::MoveReport> move() const { return move_to_server(data, server.address()); }
  static std::string digest_at(const DatabasePlace& place) {
    auto db = std::move(*open_database(place, sql::Access::read));
    return record_digest(*db)->sha256;
  }
  std::vector<std::string> plants() const {
    auto db = std::move(*open_database({data, server.address(), "nobody"}, sql::Access::read));
    return *plants_of(*db);
  }
  // As it was before the commit of a move that was broken off.
  void break_off_before_commit() const { EXPECT_TRUE(begin_move({data, server.address(), "north"})); }

  sql::TestFolder folder;
  TestDatabase server;
  fs::path data = folder.path() / "data";
};

TEST_F(Moving, TheWholeShopIsInTheDatabaseUnderItsKeyAndServedFromThere) {
  const std::string before = digest_at({data});
  const auto report = move();
  ASSERT_TRUE(report) << report.error().message;
  EXPECT_EQ(report->key, "north");
  EXPECT_EQ(report->plant, "Werk Süd");
  EXPECT_EQ(report->entries, 2);
  EXPECT_EQ(report->sha256, before);
  EXPECT_EQ(report->breaks, 0);
  EXPECT_EQ(digest_at(*place_of(data)), before);
  const auto store = open_store(data);
  ASSERT_TRUE(store) << store.error().message;
  EXPECT_EQ((*store)->shop().value()->plant, "Werk Süd");
  EXPECT_TRUE(keep(**store, full_entry("e3"))) << "the chain goes on";
  EXPECT_TRUE((*store)->verdict()->breaks.size() == 1) << "of a photo whose hash is none";
  EXPECT_EQ((*store)->verdict()->entries, 3);
}

TEST_F(Moving, TheFileIsKeptUnderANameThatNobodyServes) {
  const std::string before = digest_at({data});
  ASSERT_TRUE(move());
  EXPECT_FALSE(fs::exists(data / "hourwright.db"));
  EXPECT_FALSE(fs::exists(data / "hourwright.db-wal"));
  fs::create_directory(folder.path() / "apart");
  fs::copy(data / moved_file, folder.path() / "apart" / "hourwright.db");
  EXPECT_EQ(digest_at({folder.path() / "apart"}), before);
  const auto again = move();
  ASSERT_FALSE(again);
  EXPECT_THAT(again.error().message, HasSubstr("on a server already"));
}

TEST_F(Moving, WhatTheCommandLineLeftAndNobodyUsedGoesAlong) {
  ASSERT_TRUE(write_grant(data, "abc", {.kind = "link", .name = "Zoe", .made_at = at("2026-03-02T07:00:00Z")}));
  EXPECT_EQ(move()->grants, 1);
  const auto store = std::move(*open_store(data));
  EXPECT_EQ(store->grant("abc").value()->name, "Zoe");
  EXPECT_TRUE(left_grants(data).empty());
}

TEST_F(Moving, AKeyThatIsThereIsRefusedAndNothingIsChanged) {
  ASSERT_TRUE(move());
  const fs::path other = folder.path() / "other";
  found(other, "north");
  const auto refused = move_to_server(other, server.address());
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::conflict);
  EXPECT_THAT(refused.error().message, HasSubstr("holds a plant with the key north already"));
  EXPECT_TRUE(open_store(other)) << "it is served as before";
  const fs::path third = folder.path() / "third";
  found(third, "south");
  EXPECT_TRUE(move_to_server(third, server.address()));
  EXPECT_EQ(plants(), (std::vector<std::string>{"north", "south"}));
}

TEST_F(Moving, WhatAServerHasOpenIsRefused) {
  const auto store = std::move(*open_store(data));
  EXPECT_EQ(move().error().code, ErrorCode::in_use);
}

TEST_F(Moving, WhereThereIsNoShopNothingIsMade) {
  const fs::path empty = folder.path() / "empty";
  EXPECT_EQ(move_to_server(empty, server.address()).error().code, ErrorCode::not_found);
  EXPECT_FALSE(fs::exists(empty));
  fs::create_directory(empty);
  EXPECT_EQ(move_to_server(empty, server.address()).error().code, ErrorCode::not_found);
  EXPECT_TRUE(fs::is_empty(empty));
  EXPECT_EQ(move_to_server(data, "db.example").error().code, ErrorCode::bad_input);
}

TEST_F(Moving, BrokenOffBeforeItsCommitItBeginsAnewAndNobodyOpensTheFolderMeanwhile) {
  const std::string before = digest_at({data});
  break_off_before_commit();
  EXPECT_THAT(open_store(data).error().message, HasSubstr("begun and not ended"));
  EXPECT_FALSE(find_store(data));
  EXPECT_FALSE(look_into(data));
  EXPECT_EQ(move_to_server(data, TestDatabase::address_of("another")).error().code, ErrorCode::conflict);
  EXPECT_EQ(move()->sha256, before);
  EXPECT_EQ(digest_at(*place_of(data)), before);
}

TEST_F(Moving, BrokenOffBehindItsCommitItDoesWhatIsLeft) {
  ASSERT_TRUE(move());
  {  // a server of the database has taken it and goes on
    const auto store = std::move(*open_store(data));
    ASSERT_TRUE(keep(*store, full_entry("e3")));
  }
  const std::string there = digest_at(*place_of(data));
  for (const bool is_renamed : {false, true}) {
    if (!is_renamed) fs::rename(data / moved_file, data / "hourwright.db");
    break_off_before_commit();  // the note is the same
    const auto report = move();
    ASSERT_TRUE(report) << report.error().message;
    EXPECT_EQ(report->entries, 2) << "of the file";
    EXPECT_FALSE(fs::exists(data / "hourwright.db"));
    EXPECT_EQ(digest_at(*place_of(data)), there) << "nothing is written over";
  }
}

TEST_F(Moving, AnotherShopUnderTheKeyIsNotTakenForThisOne) {
  ASSERT_TRUE(move());
  const fs::path other = folder.path() / "other";
  {
    auto store = std::move(*open_store(other, {.new_plant = "north"}));
    EXPECT_TRUE(store->create_shop(full_shop(), {full_machine("l1")}));
    EXPECT_TRUE(keep(*store, full_entry("e9")));
  }
  EXPECT_TRUE(begin_move({other, server.address(), "north"}));
  const auto refused = move_to_server(other, server.address());
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().message, HasSubstr("another shop under the key north"));
}

TEST_F(Moving, ANewKeyIsOnlyForAShopThatIsNew) {
  const auto store = std::move(*open_store(data, {.new_plant = "south"}));
  ASSERT_TRUE(store->shop().value()) << "the shop that is there is shown, under its own key";
}

}  // namespace
}  // namespace hw::storage
