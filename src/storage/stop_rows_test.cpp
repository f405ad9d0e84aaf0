#include "src/storage/stop_rows.h"

#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

using service::StopState;

class StopRows : public StoreTest {
 protected:
  static service::Entry about(std::string stop, std::string id, std::string_view kind, std::string machine = "l1") {
    service::Entry entry;
    entry.id = std::move(id);
    entry.kind = kind;
    entry.machine = std::move(machine);
    entry.by = "Ada";
    entry.at = entry.happened_at = at("2026-03-02T07:00:00Z");
    entry.says = "x";
    entry.body.stop = std::move(stop);
    if (kind == service::stop_agreed) {
      entry.body.plan = service::StopPlan{.on = LocalDate::of(2026, 3, 4), .tasks = {{.task = "filter"}}};
    }
    return entry;
  }
  static std::string ids_of(const Result<std::vector<service::Stop>>& stops) {
    std::string ids;
    for (const auto& stop : *stops) ids += stop.id + " ";
    return ids;
  }
};

TEST_F(StopRows, FollowFromTheirEntriesInTheSameTransaction) {
  ASSERT_TRUE(keep(*store, about("s1", "s1", service::stop_agreed)));
  ASSERT_TRUE(keep(*store, about("s2", "s2", service::stop_agreed, "l2")));
  EXPECT_EQ(ids_of(store->agreed_stops({})), "s1 s2 ");
  EXPECT_EQ(ids_of(store->agreed_stops("l2")), "s2 ");
  {
    auto writing = *store->begin();
    service::Entry done = about("s1", "d3", "task done");
    done.task = "filter";
    ASSERT_TRUE(writing->add_entry(done));
    service::Entry closed = about("s1", "c4", service::stop_closed);
    ASSERT_TRUE(writing->add_entry(closed));
  }
  EXPECT_EQ(ids_of(store->agreed_stops({})), "s1 s2 ") << "what is not committed is not there";
  EXPECT_FALSE(*store->last_done("l1", "filter"));
  {
    auto writing = *store->begin();
    service::Entry done = about("s1", "d3", "task done");
    done.task = "filter";
    ASSERT_TRUE(writing->add_entry(done));
    service::Entry closed = about("s1", "c4", service::stop_closed);
    ASSERT_TRUE(writing->add_entry(closed));
    ASSERT_TRUE(writing->commit());
  }
  open();
  EXPECT_EQ(ids_of(store->agreed_stops({})), "s2 ");
  EXPECT_EQ((*store->stop("s1"))->done.at(0).entry, "d3");
  EXPECT_EQ((*store->last_done("l1", "filter"))->body.stop, "s1");
}

TEST_F(StopRows, WhatWasReadOrFilledInIsFoundTheLatestFirstAndNothingElse) {
  const auto done = [&](const std::string& id, int hours) {
    service::Entry entry = about("s1", id, "task done");
    entry.task = "filter";
    entry.happened_at = entry.happened_at + Duration::hours(hours);
    return entry;
  };
  ASSERT_TRUE(keep(*store, done("plain", 1)));
  service::Entry read = done("read", 2);
  read.body.doing = service::TaskDoing{.readings = std::vector<service::ReadValue>{{"pH", "pH", 9}}};
  ASSERT_TRUE(keep(*store, read));
  service::Entry filled = done("filled", 3);
  filled.kind = "check answered";
  filled.body.stop.reset();
  filled.body.walk = "w1";
  filled.body.rhythm = "shift";
  filled.body.answers = std::vector<service::GivenAnswer>{{.check = "filter",
                                                           .task = "filter",
                                                           .kind = "top up",
                                                           .title = "Fill",
                                                           .answer = "as it should be",
                                                           .quantity = 2,
                                                           .quantity_unit = "l"}};
  ASSERT_TRUE(keep(*store, filled));
  const auto found = *store->measured_doings_of("l1", "filter", 10);
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].id, "filled");
  EXPECT_EQ(found[1].id, "read");
  EXPECT_EQ(store->measured_doings_of("l1", "filter", 1)->size(), 1u);
  EXPECT_TRUE(store->measured_doings_of("l2", "filter", 10)->empty());
}

TEST_F(StopRows, ThoseThatAreOverComeTheLatestFirstAndNoMoreThanAskedFor) {
  for (int n = 1; n <= 4; ++n) {
    const std::string id = fmt::format("s{}", n);
    ASSERT_TRUE(keep(*store, about(id, id, service::stop_agreed)));
    service::Entry over = about(id, "o" + id, n == 2 ? service::stop_withdrawn : service::stop_closed);
    over.happened_at = over.happened_at + Duration::hours(n == 1 ? 9 : n);
    ASSERT_TRUE(keep(*store, over));
  }
  EXPECT_EQ(ids_of(store->past_stops({}, {}, 3)), "s1 s4 s3 ");
  EXPECT_EQ(ids_of(store->past_stops({}, StopState::withdrawn, 3)), "s2 ");
  EXPECT_EQ(ids_of(store->past_stops("l1", StopState::closed, 9)), "s1 s4 s3 ");
  EXPECT_EQ(ids_of(store->past_stops("l2", {}, 9)), "");
}

TEST_F(StopRows, WithoutTheEntryThatAgreesItThereIsNone) {
  ASSERT_TRUE(keep(*store, about("s1", "c1", service::stop_closed)));
  EXPECT_FALSE(*store->stop("s1"));
}

}  // namespace
}  // namespace hw::storage
