#include "src/storage/open_files.h"

#include <fstream>
#include <sstream>

#include <gmock/gmock.h>

#include "src/storage/record_digest.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

class OpenFiles : public testing::Test {
 protected:
  OpenFiles() {
    auto store = std::move(*open_store(data, {.new_plant = "north"}));
    EXPECT_TRUE(store->create_shop(full_shop(), {full_machine("l2"), full_machine("l1")}));
    EXPECT_TRUE(keep(*store, full_entry("e1")));
    auto writing = std::move(*store->begin());
    EXPECT_TRUE(writing->add_photo({"p1", "00ff", std::string("\xFF\xD8\xFF\xE0jpeg\0\n", 10)}));
    EXPECT_TRUE(writing->commit());
  }
  static std::string text_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
  }
  static void put(const fs::path& file, const std::string& text) { std::ofstream(file, std::ios::binary) << text; }
  static std::string digest_at(const fs::path& folder) {
    auto db = std::move(*open_database(*place_of(folder), sql::Access::read));
    return record_digest(*db)->sha256;
  }
  // What is said where this text of a file of the export is another one; nothing is there afterwards.
  std::string refusal_with(const fs::path& file, const std::string& text, const std::string& other) {
    const std::string was = text_of(file);
    EXPECT_THAT(was, HasSubstr(text));
    std::string altered = was;
    altered.replace(altered.find(text), text.size(), other);
    put(file, altered);
    const auto refused = import_shop(out, folder.path() / "again");
    EXPECT_FALSE(refused);
    EXPECT_FALSE(fs::exists(folder.path() / "again"));
    put(file, was);
    return refused ? "" : refused.error().message;
  }

  sql::TestFolder folder;
  fs::path data = folder.path() / "data", out = folder.path() / "out";
};

TEST_F(OpenFiles, AreWrittenAndMakeTheSameShopAgain) {
  const auto written = export_shop(data, out, at("2026-11-27T08:00:00Z"));
  ASSERT_TRUE(written) << written.error().message;
  EXPECT_EQ(written->photos, 1);
  EXPECT_EQ(written->head.plant, "north");
  EXPECT_EQ(written->head.sha256, digest_at(data));
  const auto read = import_shop(out, folder.path() / "again");
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(read->photos, 1);
  EXPECT_EQ(digest_at(folder.path() / "again"), digest_at(data));
  const auto store = std::move(*open_store(folder.path() / "again"));
  EXPECT_EQ(store->shop().value()->plant, "Werk Süd");
  EXPECT_TRUE(keep(*store, full_entry("e2"))) << "and it goes on";
}

TEST_F(OpenFiles, CanBeReadByAnyProgram) {
  ASSERT_TRUE(export_shop(data, out, now()));
  EXPECT_THAT(text_of(out / "tables" / "machine.jsonl"), HasSubstr("\"machine\":\"l1\""));
  EXPECT_THAT(text_of(out / "sheets" / "machine.csv"), HasSubstr("plant,machine,ordinal"));
  EXPECT_EQ(text_of(out / "photos" / "1.jpeg"), std::string("\xFF\xD8\xFF\xE0jpeg\0\n", 10));
  EXPECT_THAT(text_of(out / "hourwright.json"), HasSubstr("\"format\":\"hourwright-shop-1\""));
  EXPECT_EQ(fs::status(out).permissions() & fs::perms::others_all, fs::perms::none);
}

TEST_F(OpenFiles, OfAShopOnAServerAreTheSame) {
  const TestDatabase server;
  const fs::path there = folder.path() / "there";
  ASSERT_TRUE(place_on_server(there, server.address(), "north"));
  ASSERT_TRUE((*open_store(there))->create_shop(full_shop(), {full_machine("l1")}));
  const auto written = export_shop(there, out, now());
  ASSERT_TRUE(written) << written.error().message;
  ASSERT_TRUE(import_shop(out, folder.path() / "again"));
  EXPECT_EQ(digest_at(folder.path() / "again"), written->head.sha256);
}

TEST_F(OpenFiles, ThatWereChangedAreRefusedWithFileLineAndColumn) {
  ASSERT_TRUE(export_shop(data, out, now()));
  const fs::path machines = out / "tables" / "machine.jsonl";
  EXPECT_THAT(refusal_with(machines, "by the door", "by the gate"), HasSubstr("not those that were written"));
  EXPECT_THAT(refusal_with(machines, "\"ordinal\":1", "\"ordinal\":\"one\""), HasSubstr("machine.jsonl, line"));
  EXPECT_THAT(refusal_with(machines, "\"note\"", "\"notes\""), HasSubstr("note: it is missing"));
  EXPECT_THAT(refusal_with(machines, "{\"plant\"", "\"plant\""), HasSubstr("line 1: a JSON object is right"));
  EXPECT_THAT(refusal_with(machines, "\"plant\":\"north\"", "\"plant\":\"south\""), HasSubstr("machine.jsonl"));
  EXPECT_THAT(refusal_with(out / "tables" / "photo.jsonl", "photos/1.jpeg", "../../etc/passwd"),
              HasSubstr("is not in the folder photos"));
  EXPECT_THAT(refusal_with(out / "hourwright.json", "shop-1", "shop-2"), HasSubstr("hourwright-shop-1 is right"));
  fs::remove(out / "tables" / "shift.jsonl");
  EXPECT_EQ(import_shop(out, folder.path() / "again").error().code, ErrorCode::not_found);
}

TEST_F(OpenFiles, TakeNoFoldersPlace) {
  ASSERT_TRUE(export_shop(data, out, now()));
  EXPECT_EQ(export_shop(data, out, now()).error().code, ErrorCode::conflict);
  EXPECT_EQ(import_shop(out, data).error().code, ErrorCode::conflict);
  EXPECT_EQ(export_shop(folder.path() / "none", folder.path() / "x", now()).error().code, ErrorCode::not_found);
  EXPECT_EQ(import_shop(folder.path() / "none", folder.path() / "x").error().code, ErrorCode::not_found);
}

}  // namespace
}  // namespace hw::storage
