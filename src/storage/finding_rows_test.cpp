#include "src/storage/finding_rows.h"

#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

class FindingRows : public StoreTest {
 protected:
  static service::Entry about(std::string finding, std::string id, std::string kind, std::string machine = "l1") {
    service::Entry entry;
    entry.id = std::move(id);
    entry.kind = std::move(kind);
    entry.machine = std::move(machine);
    entry.by = "Ada";
    entry.at = entry.happened_at = at("2026-03-02T07:00:00Z");
    entry.says = "x";
    entry.body.finding = std::move(finding);
    if (entry.kind == "finding made") {
      entry.body.what = "Oil";
      entry.body.severity = "watch";
    }
    return entry;
  }
  std::string open_ones(std::optional<std::string> machine = {}) {
    std::string ids;
    const auto found = *store->open_findings(machine);
    for (const auto& finding : found) ids += finding.id + " ";
    return ids;
  }
};

TEST_F(FindingRows, FollowFromTheirEntriesInTheSameTransaction) {
  ASSERT_TRUE(keep(*store, about("f1", "f1", "finding made")));
  ASSERT_TRUE(keep(*store, about("f2", "f2", "finding made", "l2")));
  EXPECT_EQ(open_ones(), "f1 f2 ");
  EXPECT_EQ(open_ones("l2"), "f2 ");
  ASSERT_TRUE(keep(*store, about("f1", "e3", "finding settled")));
  EXPECT_EQ(open_ones(), "f2 ");
  EXPECT_EQ(store->settled_findings({}, 10)->at(0).id, "f1");
  EXPECT_TRUE(store->settled_findings("l2", 10)->empty());
  EXPECT_EQ((*store->finding("f1"))->settled->by, "Ada");
  EXPECT_EQ(store->entries_about("f1")->size(), 2u);
  {
    auto writing = *store->begin();
    service::Entry reopened = about("f1", "e4", "finding reopened");
    ASSERT_TRUE(writing->add_entry(reopened));
  }
  EXPECT_EQ(open_ones(), "f2 ") << "what is not committed is not there";
  open();
  ASSERT_TRUE(keep(*store, about("f1", "e4", "finding reopened")));
  EXPECT_EQ(open_ones("l1"), "f1 ");
}

TEST_F(FindingRows, SettledOnesComeTheLatestFirstAndNoMoreThanAskedFor) {
  for (int n = 1; n <= 4; ++n) {
    const std::string id = fmt::format("f{}", n);
    ASSERT_TRUE(keep(*store, about(id, id, "finding made")));
    service::Entry settled = about(id, "s" + id, "finding settled");
    settled.happened_at = settled.happened_at + Duration::hours(n == 1 ? 9 : n);
    ASSERT_TRUE(keep(*store, settled));
  }
  std::string ids;
  const auto found = *store->settled_findings({}, 3);
  for (const auto& finding : found) ids += finding.id + " ";
  EXPECT_EQ(ids, "f1 f4 f3 ");
}

TEST_F(FindingRows, WithoutTheEntryThatMakesItThereIsNone) {
  ASSERT_TRUE(keep(*store, about("f1", "e1", "finding settled")));
  EXPECT_FALSE(*store->finding("f1"));
  EXPECT_EQ(store->entries_about("f1")->size(), 1u);
}

}  // namespace
}  // namespace hw::storage
