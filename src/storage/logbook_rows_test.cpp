// The logbook in its file, altered by hand in every way that somebody with the file can think of.

#include "src/storage/logbook_rows.h"

#include <gmock/gmock.h>

#include "libs/sql/sqlite.h"
#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

using testing::HasSubstr;

constexpr std::string_view not_sealed = "was altered: it is not what was sealed";

// Nine entries; the ninth takes back the eighth.
class Logbook : public StoreTest {
 protected:
  Logbook() {
    for (int n = 1; n <= 8; ++n) EXPECT_TRUE(keep(*store, full_entry(fmt::format("e{}", n))));
    service::Entry undone = full_entry("e9");
    undone.kind = "undone";
    undone.undoes = "e8";
    undone.device_at.reset();
    undone.note.reset();
    EXPECT_TRUE(keep(*store, undone));
  }

  std::filesystem::path file() const { return folder.path() / "hourwright.db"; }

  // Statements on the file, past this program and its triggers, while nobody has it open.
  void alter(const std::string& script) {
    store.reset();
    const auto db = must_open();
    std::vector<std::string> triggers;
    {
      auto rows = *db->query("select name from sqlite_schema where type = 'trigger'");
      while (rows.next()) triggers.push_back(rows.get<std::string>(0));
    }
    for (const std::string& trigger : triggers) EXPECT_TRUE(db->run_script("drop trigger " + trigger));
    const auto done = db->run_script("pragma foreign_keys = off; drop index if exists entry_id;" + script);
    EXPECT_TRUE(done) << script << ": " << done.error().message;
  }
  std::unique_ptr<sql::Connection> must_open() {
    return std::move(*sql::open_sqlite(file(), sql::Access::write, {.application_id = application_id}));
  }
  void restore() { std::filesystem::copy_file(copy(), file(), std::filesystem::copy_options::overwrite_existing); }
  void keep_copy() {
    store.reset();
    std::filesystem::copy_file(file(), copy());
  }
  std::filesystem::path copy() const { return folder.path() / "copy.db"; }

  record::Verdict verdict(const std::optional<std::string>& noted = {}) {
    auto read = verify_logbook(folder.path(), noted);
    EXPECT_TRUE(read) << read.error().message;
    return read ? std::move(*read) : record::Verdict{};
  }
  // One break a line.
  std::string breaks(const std::optional<std::string>& noted = {}) {
    std::string text;
    for (const auto& one : verdict(noted).breaks) text += one.says + "\n";
    return text;
  }
  std::string breaks_after(const std::string& script) {
    alter(script);
    return breaks();
  }
};

TEST_F(Logbook, IsUnbrokenBesideAServerAndAfterItsEnd) {
  EXPECT_EQ(breaks(), "");
  EXPECT_EQ(verdict().entries, 9);
  const std::string head = verdict().head;
  store.reset();
  EXPECT_EQ(breaks(), "");
  EXPECT_EQ(verdict().head, head);
  open();
  EXPECT_TRUE(keep(*store, full_entry("e10")));
  EXPECT_EQ(breaks(head), "");
  EXPECT_NE(verdict().head, head);
}

TEST_F(Logbook, EveryColumnIsSealed) {
  keep_copy();
  for (const char* column : {"id", "kind", "machine", "task", "by_name", "says", "note", "counters", "body"}) {
    alter(fmt::format("update entry set {0} = {0} || ' ' where ordinal = 3", column));
    EXPECT_THAT(breaks(), HasSubstr(fmt::format("entry 3 {}", not_sealed))) << column;
    EXPECT_EQ(verdict().breaks.size(), 1u) << column;
    restore();
  }
  for (const char* change : {"at_ms = at_ms + 1", "happened_ms = happened_ms + 1", "device_ms = device_ms - 1",
                             "device_ms = null", "task = null", "note = null", "note = ''", "undoes = 'e1'"}) {
    alter(fmt::format("update entry set {} where ordinal = 3", change));
    EXPECT_THAT(breaks(), HasSubstr(fmt::format("entry 3 {}", not_sealed))) << change;
    restore();
  }
  for (const char* change : {"undoes = null", "undoes = 'e7'", "device_ms = 0", "note = ''"}) {
    alter(fmt::format("update entry set {} where ordinal = 9", change));
    EXPECT_THAT(breaks(), HasSubstr(fmt::format("entry 9 {}", not_sealed))) << change;
    restore();
  }
  EXPECT_EQ(breaks(), "");
}

TEST_F(Logbook, TheHashesAreSealedToo) {
  keep_copy();
  EXPECT_THAT(breaks_after("update entry set hash = upper(hash) where ordinal = 3"),
              HasSubstr("entry 3 was altered: its hash"));
  restore();
  EXPECT_THAT(breaks_after("update entry set previous_hash = hash where ordinal = 3"),
              HasSubstr("entry 3 was altered: its link"));
}

TEST_F(Logbook, AnEntryOfAnotherPlantOrPlaceIsMissing) {
  keep_copy();
  EXPECT_EQ(breaks_after("update entry set plant = 'other' where ordinal = 3"), "entry 3 is missing\n");
  restore();
  const std::string moved = breaks_after("update entry set ordinal = 30 where ordinal = 3");
  EXPECT_THAT(moved, HasSubstr("entry 3 is missing\n"));
  EXPECT_THAT(moved, HasSubstr("entry 30 is in the wrong place: written as entry 3\n"));
}

TEST_F(Logbook, DeletedRowsAreMissing) {
  keep_copy();
  EXPECT_EQ(breaks_after("delete from entry where ordinal in (1, 4, 5)"),
            "entry 1 is missing\n"
            "entries 4 to 5 are missing\n");
  restore();
  EXPECT_THAT(breaks_after("delete from entry where ordinal > 7"), HasSubstr("entries 8 to 9 are missing at the end"));
  restore();
  EXPECT_THAT(breaks_after("delete from entry"), HasSubstr("entries 1 to 9 are missing at the end"));
}

TEST_F(Logbook, SwappedRowsAreInTheWrongPlace) {
  EXPECT_EQ(breaks_after("update entry set ordinal = 99 where ordinal = 3; update entry set ordinal = 3 where "
                         "ordinal = 6; update entry set ordinal = 6 where ordinal = 99"),
            "entry 3 is in the wrong place: written as entry 6\n"
            "entry 6 is in the wrong place: written as entry 3\n");
}

TEST_F(Logbook, ARowPutInIsFound) {
  const std::string copied =
      "insert into entry select plant, {}, 'forged', kind, machine, task, by_name, at_ms, device_ms, happened_ms, "
      "says, note, counters, body, null, previous_hash, hash from entry where ordinal = 5;";
  keep_copy();
  EXPECT_THAT(breaks_after(fmt::format(fmt::runtime(copied), 10)), HasSubstr("entry 10 was altered"));
  restore();
  EXPECT_THAT(breaks_after(fmt::format(fmt::runtime(copied), 0)), HasSubstr("entry 0 was put in"));
  restore();
  const std::string between = breaks_after(
      "update entry set ordinal = -ordinal - 1 where ordinal > 4;"
      "update entry set ordinal = -ordinal where ordinal < 0;" +
      std::string("insert into entry select plant, 5, 'forged', kind, machine, "
                  "task, by_name, at_ms, device_ms, happened_ms, says, note, counters, body, null, "
                  "previous_hash, hash from entry where ordinal = 4;"));
  EXPECT_THAT(between, HasSubstr("entry 5 was altered"));
  EXPECT_THAT(between, HasSubstr("entries 6 to 10 are in the wrong place: written as entries 5 to 9"));
}

TEST_F(Logbook, AHeadThatWasAlteredIsFound) {
  keep_copy();
  EXPECT_THAT(breaks_after("update entry_head set ordinal = 8"), HasSubstr("entry 9 is behind the head"));
  restore();
  EXPECT_THAT(breaks_after("update entry_head set ordinal = 11"), HasSubstr("entries 10 to 11 are missing at the end"));
  restore();
  EXPECT_THAT(breaks_after("update entry_head set hash = 'x'"), HasSubstr("the head's hash is not that of entry 9"));
  restore();
  EXPECT_THAT(breaks_after("delete from entry_head"), HasSubstr("the head is missing"));
}

// Rows cut off with the head set back to fit: only a hash that was noted elsewhere can tell.
TEST_F(Logbook, ANotedHashFindsWhatTheFileAloneCannot) {
  const std::string noted = verdict().head;
  alter(
      "delete from entry where ordinal > 6; update entry_head set ordinal = 6, hash = (select hash from entry where "
      "ordinal = 6); delete from task_done where entry not in (select id from entry)");
  EXPECT_EQ(breaks(), "");
  EXPECT_THAT(breaks(noted), HasSubstr("no entry has the noted hash " + noted));
}

TEST_F(Logbook, TypesThatNobodyWritesAreAnAlteredRow) {
  alter(
      "create table loose as select * from entry; drop table entry; alter table loose rename to entry;"
      "update entry set at_ms = 'noon', hash = null where ordinal = 3; update entry set says = x'00ff', kind = null "
      "where ordinal = 5; update entry set ordinal = null where ordinal = 7");
  const std::string found = breaks();
  EXPECT_THAT(found, HasSubstr("entry 3 was altered"));
  EXPECT_THAT(found, HasSubstr("entry 5 was altered"));
  EXPECT_THAT(found, HasSubstr("entry 7 is missing"));
}

TEST_F(Logbook, TablesOfAnotherShapeAreRefusedInASentence) {
  alter("alter table entry drop column note");
  const auto refused = verify_logbook(folder.path(), {});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::corrupt);
  EXPECT_THAT(refused.error().message, HasSubstr("table entry"));
}

TEST_F(Logbook, WhereThereIsNoShopIsRefused) {
  EXPECT_EQ(verify_logbook(folder.path() / "nowhere", {}).error().code, ErrorCode::not_found);
}

// What was put in behind the head keeps nobody from entering: it stays to be found.
TEST_F(Logbook, GoesOnBehindAForgedRow) {
  alter(
      "insert into entry select plant, 10, 'forged', kind, machine, task, by_name, at_ms, device_ms, happened_ms, "
      "says, note, counters, body, null, previous_hash, hash from entry where ordinal = 5");
  open();
  EXPECT_TRUE(keep(*store, full_entry("e10")));
  EXPECT_EQ(store->entry("e10")->value().id, "e10");
  EXPECT_THAT(breaks(), HasSubstr("entry 10 was altered"));
}

TEST_F(Logbook, WithoutAHeadNothingIsEntered) {
  alter("delete from entry_head");
  open();
  EXPECT_EQ(keep(*store, full_entry("e10")).error().code, ErrorCode::corrupt);
}

TEST_F(Logbook, WhatIsNotCommittedMovesNoHead) {
  const std::string head = verdict().head;
  {
    auto writing = *store->begin();
    service::Entry entry = full_entry("e10");
    EXPECT_TRUE(writing->add_entry(entry));
  }
  EXPECT_EQ(verdict().head, head);
  EXPECT_EQ(keep(*store, full_entry("e1")).error().code, ErrorCode::conflict);
  EXPECT_EQ(breaks(), "");
}

TEST_F(Logbook, TheHeadOnlyGoesOn) {
  store.reset();
  const auto db = must_open();
  for (const char* change : {"update entry_head set hash = 'x'", "update entry_head set ordinal = 3",
                             "update entry_head set plant = 'x', ordinal = 99", "delete from entry_head"}) {
    const auto changed = db->execute(change);
    ASSERT_FALSE(changed) << change;
    EXPECT_THAT(changed.error().message, HasSubstr("only added")) << change;
  }
}

TEST_F(Logbook, AnyTextIsSealedAsItIs) {
  service::Entry odd = full_entry("odd");
  odd.note = std::string("a\0b\n\"-\xff", 7);
  ASSERT_TRUE(keep(*store, odd));
  EXPECT_EQ(breaks(), "");
}

}  // namespace
}  // namespace hw::storage
