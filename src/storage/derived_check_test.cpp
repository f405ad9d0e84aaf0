// The tables that follow from the entries, altered by hand, and the photos.

#include "src/storage/derived_check.h"

#include <gmock/gmock.h>

#include "libs/sql/sqlite.h"
#include "libs/values/sha256.h"
#include "src/storage/derived_rows.h"
#include "src/storage/photo_check.h"
#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

using testing::HasSubstr;

// An entry of each kind from which rows follow.
class DerivedCheck : public StoreTest {
 protected:
  DerivedCheck() {
    EXPECT_TRUE(keep(*store, full_entry("e1")));
    service::Entry walk = full_entry("w2");
    walk.kind = "round begun";
    walk.task.reset();
    walk.body.rhythm = "shift";
    walk.body.checks = std::vector<std::string>{"filter"};
    EXPECT_TRUE(keep(*store, walk));
    service::Entry answered = full_entry("a3");
    answered.kind = "check answered";
    answered.task.reset();
    answered.body.rhythm = "shift";
    answered.body.walk = "w2";
    service::GivenAnswer answer;
    answer.check = "filter";
    answer.task = "filter";
    answer.kind = "look";
    answer.title = "Filter";
    answer.answer = "as it should be";
    answered.body.answers = std::vector{answer};
    EXPECT_TRUE(keep(*store, answered));
    service::Entry made = full_entry("f4");
    made.kind = "finding made";
    made.task.reset();
    made.body.finding = "f4";
    made.body.what = "Oil";
    made.body.severity = "watch";
    made.body.stray = "no such machine";
    EXPECT_TRUE(keep(*store, made));
    service::Entry settled = made;
    settled.id = "s5";
    settled.kind = "finding settled";
    settled.body = {};
    settled.body.finding = "f4";
    settled.body.done = "Sealed";
    settled.body.corrects = "e1";
    EXPECT_TRUE(keep(*store, settled));
    service::Entry agreed = full_entry("p6");
    agreed.kind = service::stop_agreed;
    agreed.task.reset();
    agreed.body = {};
    agreed.body.stop = "p6";
    agreed.body.plan = service::StopPlan{.shift = "early", .tasks = {{.task = "filter"}}};
    EXPECT_TRUE(keep(*store, agreed));
    keep_photo("q1", "the photo");  // the other entries name a p1 that is not here
    store.reset();
    std::filesystem::copy_file(file(), copy());
  }
  std::filesystem::path file() const { return folder.path() / "hourwright.db"; }
  std::filesystem::path copy() const { return folder.path() / "copy.db"; }

  void keep_photo(std::string id, std::string bytes) {
    auto writing = *store->begin();
    EXPECT_TRUE(writing->add_photo({std::move(id), print_hex(sha256(bytes)), bytes}));
    EXPECT_TRUE(writing->commit());
  }
  record::Verdict verdict() {
    store.reset();
    auto read = verify_logbook(folder.path(), {});
    EXPECT_TRUE(read) << read.error().message;
    return read ? std::move(*read) : record::Verdict{};
  }
  // What is said after the script was run on the file past this program; then the file is as it was.
  std::string breaks_after(const std::string& script) {
    {
      const auto db = *sql::open_sqlite(file(), sql::Access::write, {.application_id = application_id});
      const auto done =
          db->run_script("pragma foreign_keys = off; drop trigger photo_stays; drop trigger photo_is_kept;" + script);
      EXPECT_TRUE(done) << script << ": " << done.error().message;
    }
    std::string text;
    for (const auto& one : verdict().breaks) text += one.says + "\n";
    std::filesystem::copy_file(copy(), file(), std::filesystem::copy_options::overwrite_existing);
    return text;
  }
};

TEST_F(DerivedCheck, AgreesWhereNobodyTouchedThem) { EXPECT_EQ(breaks_after("select 1"), ""); }

TEST_F(DerivedCheck, NamesEachTableOfWhichAColumnWasAltered) {
  for (const auto& [table, columns] : std::vector<std::pair<std::string, std::vector<std::string>>>{
           {"task_done", {"machine = 'x'", "task = 'x'", "happened_ms = 1", "entry = 'x'"}},
           {"walk",
            {"walk = 'x'", "machine = 'x'", "rhythm = 'day'", "by_name = 'x'", "begun_ms = 1", "checks = '[]'"}},
           {"given_answer",
            {"entry = 'x'", "place = 9", "machine = 'x'", "rhythm = 'day'", "walk = 'x'", "check_key = 'x'",
             "by_name = 'x'", "happened_ms = 1", "value = 1.5", "body = '{}'"}},
           {"correction", {"corrects = 'x'", "entry = 'x'"}},
           {"stray", {"entry = 'x'"}},
           {"finding_entry", {"finding = 'x'", "ordinal = 99"}},
           {"finding", {"finding = 'x'", "machine = 'x'", "settled_ms = null", "body = '{}'"}},
           {"stop_entry", {"stop = 'x'", "ordinal = 99"}},
           {"stop", {"stop = 'x'", "machine = 'x'", "state = 'closed'", "over_ms = 1", "body = '{}'"}}}) {
    for (const std::string& column : columns) {
      // One row of them, since more would clash with each other.
      const std::string script =
          table == "task_done"       ? fmt::format("update task_done set {} where entry = 'e1'", column)
          : table == "finding_entry" ? fmt::format("update finding_entry set {} where ordinal = 4", column)
                                     : fmt::format("update {} set {}", table, column);
      EXPECT_THAT(breaks_after(script), HasSubstr(fmt::format("the table {} does not agree with the entries", table)))
          << column;
    }
    EXPECT_THAT(breaks_after("delete from " + table), HasSubstr("the table " + table + " does not agree")) << table;
  }
}

TEST_F(DerivedCheck, NamesTheRowThatWasPutInOrTakenOut) {
  EXPECT_EQ(breaks_after("insert into stray(plant, entry) values('plant', 'a1')"),
            "the table stray does not agree with the entries: the first difference is at a1\n");
  EXPECT_EQ(breaks_after("insert into stray(plant, entry) values('plant', 'z9')"),
            "the table stray does not agree with the entries: the first difference is at z9\n");
  EXPECT_EQ(breaks_after("delete from finding"),
            "the table finding does not agree with the entries: the first difference is at f4\n");
  EXPECT_EQ(breaks_after("insert into task_done select plant, 'other', task, happened_ms, entry from task_done"),
            "the table task_done does not agree with the entries: the first difference is at other, filter, " +
                std::to_string(at("2026-03-02T06:59:00.500Z").as_millis()) + ", a3\n");
}

TEST_F(DerivedCheck, ATableOfAnotherShapeIsNamed) {
  EXPECT_EQ(breaks_after("alter table walk drop column checks"), "the table walk is not as this program makes it\n");
  EXPECT_EQ(breaks_after("drop table finding"), "the table finding is not as this program makes it\n");
}

TEST_F(DerivedCheck, IsNotMadeWhereTheEntriesThemselvesWereAltered) {
  EXPECT_EQ(breaks_after("drop trigger entry_stays; update entry set body = '{}' where ordinal = 3; delete from walk"),
            "entry 3 was altered: it is not what was sealed (which field was altered cannot be known)\n");
}

TEST_F(DerivedCheck, APhotoThatWasAlteredOrExchangedIsNamed) {
  EXPECT_EQ(breaks_after("update photo set bytes = x'00'"), "photo q1 was altered: it is not what was kept\n");
  EXPECT_EQ(breaks_after("update photo set sha256 = 'x'"), "photo q1 was altered: it is not what was kept\n");
}

TEST_F(DerivedCheck, APhotoThatAnEntryNamesOtherwiseIsNamedAndAMissingOneIsAwaited) {
  open();
  service::Entry entry = full_entry("e7");
  entry.body.photos =
      std::vector<service::PhotoName>{{"q1", print_hex(sha256("the photo"))}, {"q2", std::string(64, 'b')}};
  ASSERT_TRUE(keep(*store, entry));
  EXPECT_TRUE(verdict().breaks.empty());
  EXPECT_EQ(verdict().photos_awaited.back().photo, "q2");
  EXPECT_EQ(verdict().photos_awaited.back().entry, 7);
  open();
  service::Entry other = full_entry("e8");
  other.body.photos = std::vector<service::PhotoName>{{"q1", std::string(64, 'c')}};
  ASSERT_TRUE(keep(*store, other));
  const auto breaks = verdict().breaks;
  ASSERT_EQ(breaks.size(), 1u);
  EXPECT_EQ(breaks.at(0).kind, record::BreakKind::photo);
  EXPECT_EQ(breaks.at(0).entry, 8);
  EXPECT_EQ(breaks.at(0).says,
            "photo q1 is not the one that entry 8 names: it was exchanged, or another was sent under its id");
}

}  // namespace
}  // namespace hw::storage
