#include "src/service/stop_edits.h"

#include <cmath>

#include <gmock/gmock.h>

namespace hw::service {
namespace {

using testing::HasSubstr;

constexpr const char* an_id = "01941f29-7c00-7aaa-8bbb-000000000001";
constexpr const char* another_id = "01941f29-7c00-7aaa-8bbb-000000000002";

StopEdit stop_edit() {
  StopEdit edit;
  edit.id = an_id;
  edit.by = "Ada";
  edit.tasks = {"filter"};
  return edit;
}

StopClose close_edit() {
  StopClose edit;
  edit.id = an_id;
  edit.by = "Ada";
  StopDone done;
  done.id = another_id;
  done.task = "filter";
  edit.done = {done};
  return edit;
}

std::string refusal_of(const auto& edit) {
  const auto checked = check(edit);
  return checked ? "" : checked.error().message;
}

TEST(StopEdits, AStopNamesItsTasksOnceAndNotTooMany) {
  StopEdit edit = stop_edit();
  EXPECT_TRUE(check(edit));
  edit.tasks = {};
  EXPECT_EQ(check(edit).error().saying->code, "stop-empty");
  edit.tasks = {"filter", "filter"};
  EXPECT_THAT(refusal_of(edit), HasSubstr("tasks: \"filter\" is named twice"));
  edit.tasks = {""};
  EXPECT_THAT(refusal_of(edit), HasSubstr("tasks: "));
  edit.tasks.clear();
  for (std::size_t i = 0; i <= stop_tasks_max; ++i) edit.tasks.push_back(fmt::format("t{}", i));
  EXPECT_EQ(check(edit).error().saying->code, "stop-full");
  edit.tasks.pop_back();
  EXPECT_TRUE(check(edit));
}

TEST(StopEdits, ASignatureANoteAndAReasonAreAsOfAnyEntry) {
  StopEdit edit = stop_edit();
  edit.by = "";
  EXPECT_THAT(refusal_of(edit), HasSubstr("by: "));
  edit = stop_edit();
  edit.note = std::string(2001, 'x');
  EXPECT_THAT(refusal_of(edit), HasSubstr("note: "));
  StopWithdraw withdraw;
  withdraw.id = an_id;
  withdraw.by = "Ada";
  withdraw.why = " ";
  EXPECT_THAT(refusal_of(withdraw), HasSubstr("why: "));
  withdraw.why = "a hot order";
  EXPECT_TRUE(check(withdraw));
}

TEST(StopEdits, AChangeChangesSomething) {
  StopChange change;
  change.id = an_id;
  change.by = "Ada";
  EXPECT_EQ(check(change).error().saying->code, "changes-nothing");
  change.note = "";
  EXPECT_TRUE(check(change)) << "an empty note takes the note away";
  change.tasks = std::vector<std::string>{};
  EXPECT_EQ(check(change).error().saying->code, "stop-empty");
}

TEST(StopEdits, AClosingEndsAfterItBegan) {
  StopClose edit = close_edit();
  EXPECT_TRUE(check(edit)) << "at once is not before";
  edit.began_at = Instant::from_millis(1);
  EXPECT_EQ(check(edit).error().saying->code, "stop-turned");
}

TEST(StopEdits, EachTaskThatWasDoneHasAnIdOfItsOwn) {
  StopClose edit = close_edit();
  edit.done[0].id = edit.id;
  EXPECT_THAT(refusal_of(edit), HasSubstr("done[0].id: "));
  edit = close_edit();
  edit.done.push_back(edit.done[0]);
  EXPECT_THAT(refusal_of(edit), HasSubstr("done[1].id: "));
  edit.done[1].id = "01941f29-7c00-7aaa-8bbb-000000000003";
  EXPECT_THAT(refusal_of(edit), HasSubstr("done[1].task: \"filter\" is named twice"));
  edit.done[1].id = "3";
  EXPECT_THAT(refusal_of(edit), HasSubstr("done[1]"));
}

TEST(StopEdits, AmountsThatCannotBeAreRefused) {
  for (const double minutes : {-1.0, 10'081.0, std::nan("")}) {
    StopClose edit = close_edit();
    edit.done[0].minutes = minutes;
    EXPECT_THAT(refusal_of(edit), HasSubstr("done[0]: minutes: ")) << minutes;
  }
  for (const double quantity : {-0.1, 2e9, std::nan("")}) {
    StopClose edit = close_edit();
    edit.done[0].quantity = quantity;
    EXPECT_THAT(refusal_of(edit), HasSubstr("done[0]: quantity: ")) << quantity;
  }
}

}  // namespace
}  // namespace hw::service
