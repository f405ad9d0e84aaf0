// The logbook of a shop that was worked with, as the program verifies it from its folder.

#include <gmock/gmock.h>

#include "libs/sql/sqlite.h"
#include "src/storage/open_store.h"
#include "src/storage/schema.h"
#include "tests/shop/program.h"
#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

using testing::HasSubstr;

Ended verify(const Scene& scene) { return run({"logbook", "verify", "--data", scene.folder().string()}); }

TEST(Logbook, OfAShopThatWasWorkedWithIsUnbroken) {
  Scene scene;
  EXPECT_THAT(verify(scene).output, HasSubstr("0 entries, unbroken, head 000000"));
  scene.play("mill1 |########|");
  const std::string task = scene.machine().tasks.at(0).key;
  must(scene.done(task, 1));
  must(scene.undo(1, 2));
  must(scene.read_hours(100, 3));
  must(scene.settle(3, "display is right", 4));
  const Ended beside = verify(scene);
  EXPECT_EQ(beside.exit_status, 0) << beside.errors;
  EXPECT_THAT(beside.output, HasSubstr("4 entries, unbroken, head "));
  scene.reopen();
  EXPECT_EQ(verify(scene).output, beside.output);
}

TEST(Logbook, AnEntryThatWasAlteredInTheFileIsNamedByTheProgram) {
  Scene scene;
  const std::string task = scene.machine().tasks.at(0).key;
  for (int n = 1; n <= 3; ++n) must(scene.done(task, n));
  const auto db = must(sql::open_sqlite(scene.folder() / "hourwright.db", sql::Access::write,
                                        {.application_id = storage::application_id}));
  must(db->run_script("drop trigger entry_stays; update entry set by_name = 'Zoe' where ordinal = 2"));
  const Ended ended = verify(scene);
  EXPECT_EQ(ended.exit_status, 1);
  EXPECT_EQ(ended.output, "entry 2 was altered: it is not what was sealed (which field was altered cannot be known)\n");
}

TEST(Logbook, WhereThereIsNoShopIsOneSentence) {
  const Ended ended = run({"logbook", "verify", "--data", "/nowhere"});
  EXPECT_EQ(ended.exit_status, 1);
  EXPECT_EQ(ended.output, "");
  EXPECT_THAT(ended.errors, HasSubstr("/nowhere: there is no shop here"));
}

}  // namespace
}  // namespace hw::shop
