// The drill: a copy of every version of the tables that was released is restored and brought to this version.

#include <cstdlib>
#include <fstream>

#include "libs/sql/sqlite.h"
#include "src/storage/copied_database.h"
#include "src/storage/copying.h"
#include "src/storage/open_store.h"
#include "src/storage/schema.h"
#include "src/storage/update_tables.h"
#include "tests/copies/copied_shop.h"
#include "tests/places/places.h"

namespace hw::shop {
namespace {

namespace fs = std::filesystem;

const fs::path released = fs::path(in_source()) / "tests" / "copies" / "released";

std::string name_of(int schema) { return fmt::format("schema_{}.copy", schema); }

std::vector<fs::path> update_copies(const fs::path& data) {
  std::vector<fs::path> found;
  for (const auto& one : fs::directory_iterator(data)) {
    if (one.path().filename().string().starts_with("before-update-")) found.push_back(one.path());
  }
  return found;
}

TEST(Drill, ACopyOfTodaysTablesRestores) {
  Scene scene;
  fill(scene);
  const fs::path file = scene.folder() / name_of(storage::known_schema());
  const auto made = must(storage::make_copy(scene.folder(), file, scene.now));
  EXPECT_EQ(made.copy.schema, storage::known_schema());
  must(storage::restore_copy(file, scene.folder() / "restored"));
  EXPECT_EQ(whole_digest(scene.folder() / "restored"), whole_digest(scene.folder()));
  if (std::getenv("HOURWRIGHT_WRITE_COPY")) fs::copy_file(file, released / file.filename());
}

TEST(Drill, ACopyOfEveryReleasedVersionRestoresAndComesToThisOne) {
  for (int schema = 1; schema <= storage::known_schema(); ++schema) {
    SCOPED_TRACE(name_of(schema));
    if (schema == storage::known_schema() && !fs::exists(released / name_of(schema))) continue;  // not released yet
    const sql::TestFolder place;
    const fs::path data = place.path() / "data";
    const auto restored = must(storage::restore_copy(released / name_of(schema), data));
    EXPECT_EQ(restored.copy.schema, schema);
    const auto columns = columns_in(data);
    const std::string before = digest_of(data, columns);
    {
      const auto store = must(storage::open_store(data));
      ASSERT_TRUE(store);
      ASSERT_TRUE(service::OpenShop::open(*store)) << "it can be served";
    }
    EXPECT_EQ(must(storage::read_content(data / "hourwright.db")).schema, storage::known_schema());
    EXPECT_EQ(digest_of(data, columns), before) << "what was there is there as it was";
    const auto verdict = must(storage::verify_logbook(data, restored.copy.head));
    EXPECT_TRUE(verdict.breaks.empty()) << verdict.breaks.front().says;
    EXPECT_EQ(verdict.entries, restored.copy.entries);
    EXPECT_EQ(update_copies(data).size(), schema < storage::known_schema() ? 1u : 0u);
  }
}

class Update : public testing::Test {
 protected:
  Update() : steps(storage::migrations().begin(), storage::migrations().end()) {
    fill(scene);
    scene.end_and_reopen();
    must(storage::make_copy(scene.folder(), place.path() / "shop.copy", scene.now));
    must(storage::restore_copy(place.path() / "shop.copy", data));
    digest = whole_digest(data);
  }
  Result<void> update(const std::string& step) {
    steps.push_back({static_cast<int>(steps.size()) + 1, step});
    auto db =
        must(sql::open_sqlite(data / "hourwright.db", sql::Access::write, {.application_id = storage::application_id}));
    auto updated = storage::update_tables({data}, *db, steps);
    if (!updated) steps.pop_back();
    return updated;
  }

  Scene scene;
  sql::TestFolder place;
  fs::path data = place.path() / "data";
  std::vector<sql::Migration> steps;
  std::string digest;
};

TEST_F(Update, AStepThatFailsHalfWayLeavesTheDatabaseAsItWasAndTheCopyBesideIt) {
  const auto failed = update(
      "create table tool(name text) strict; insert into tool(name) values('mill'); "
      "alter table machine add column colour text; update entry set says = 'another'");
  ASSERT_FALSE(failed);
  EXPECT_NE(failed.error().message.find("entries are only added"), std::string::npos) << failed.error().message;
  EXPECT_EQ(whole_digest(data), digest);
  EXPECT_EQ(must(storage::read_content(data / "hourwright.db")).schema, storage::known_schema());
  ASSERT_EQ(update_copies(data).size(), 1u);
  EXPECT_TRUE(storage::check_copy(update_copies(data).front()));
  EXPECT_TRUE(storage::open_store(data)) << "the version of before serves it still";
}

TEST_F(Update, TheCopyOfBeforeIsKeptUntilTheNextUpdateHasItsOwn) {
  must(update("create table tool(name text) strict"));
  ASSERT_EQ(update_copies(data).size(), 1u);
  must(storage::restore_copy(update_copies(data).front(), place.path() / "back"));
  EXPECT_EQ(whole_digest(place.path() / "back"), digest);
  std::ofstream(data / "before-update-by-hand.copy.old") << "somebody's";
  fs::rename(update_copies(data).front(), data / "before-update-2020-01-01T000000Z.copy");
  // Tables of a later version than this program's cannot be copied by it: the update stops before anything is changed.
  const auto next = update("create table gauge(name text) strict");
  ASSERT_FALSE(next);
  EXPECT_EQ(next.error().code, ErrorCode::unsupported);
  EXPECT_TRUE(fs::exists(data / "before-update-2020-01-01T000000Z.copy")) << "no new copy, so the old one stays";
}

TEST_F(Update, TheTablesOfANewerProgramAreRefusedAndLeftAlone) {
  meddle(data, "pragma user_version = 99");
  const auto opened = storage::open_store(data);
  ASSERT_FALSE(opened);
  EXPECT_EQ(opened.error().code, ErrorCode::unsupported);
  EXPECT_EQ(whole_digest(data), digest);
  EXPECT_TRUE(update_copies(data).empty());
}

}  // namespace
}  // namespace hw::shop
