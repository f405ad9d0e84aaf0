#pragma once
// What people and programs can ask of a shop: one function = one thing done, in one transaction. `now` is the server's
// clock. A success is on disk when the function returns.

#include <optional>
#include <string>
#include <string_view>

#include "src/service/edits.h"
#include "src/service/open_shop.h"
#include "src/service/round_edits.h"
#include "src/service/round_views.h"
#include "src/service/views.h"

namespace hw::service {

// Looking.
ShopView show_shop(const OpenShop& shop, Instant now);
FloorView show_floor(const OpenShop& shop, Instant now);
Result<FloorMachineView> show_floor_machine(const OpenShop& shop, std::string_view machine, Instant now);
Result<MachineView> show_machine(const OpenShop& shop, std::string_view machine, Instant now);
// The last 90 days where no days are given; refuses more than 800.
Result<CounterDaysView> show_days(const OpenShop& shop, std::string_view machine, std::string_view counter,
                                  std::optional<LocalDate> first, std::optional<LocalDate> last, Instant now);

// Marks a task done: its triggers begin anew at the counters of the moment when it was. For a task that was retired, or
// a task or machine that is not there, the entry is kept as stray: it begins nothing anew, and waits for the lead.
Result<EntryView> mark_done(OpenShop& shop, std::string_view machine, std::string_view task, const DoneEdit& edit,
                            Instant now);
// Takes back one's own entry of kind "task done" within `undo_within` of it.
inline constexpr Duration undo_within = Duration::seconds(10);
Result<EntryView> undo(OpenShop& shop, std::string_view entry, const Signature& signature, Instant now);

// The rounds of all machines, or of one, with all that walking them needs. Refuses (not_found) a machine that is not
// there.
Result<RoundsView> show_rounds(const OpenShop& shop, const std::optional<std::string>& machine, Instant now);
// Somebody sets out on a round, and answers its checks; answering a task's check is doing the task, but for work that
// was not done. They may come in any order, and from several people. What names a machine, round or check that is not
// there (any more) is kept as stray. Refuses (bad_input) what no check of its kind can have: a reading in another unit,
// a value that cannot be.
Result<EntryView> begin_walk(OpenShop& shop, std::string_view machine, std::string_view rhythm, const WalkEdit& edit,
                             Instant now);
Result<EntryView> answer_checks(OpenShop& shop, std::string_view machine, std::string_view rhythm,
                                const AnswersEdit& edit, Instant now);

// The shop's own tasks, and changes of any task. A change that names another version than the present one is a
// conflict.
Result<TaskView> add_task(OpenShop& shop, std::string_view machine, const TaskEdit& edit, Instant now);
Result<TaskView> change_task(OpenShop& shop, std::string_view machine, std::string_view task, const TaskEdit& edit,
                             Instant now);
Result<EntryView> retire_task(OpenShop& shop, std::string_view machine, std::string_view task,
                              const Signature& signature, Instant now);

// The control's hour display beside the counted hours.
Result<HourReadingView> read_hours(OpenShop& shop, std::string_view machine, const HourReadingEdit& edit, Instant now);
Result<HourReadingView> settle_hours(OpenShop& shop, std::string_view machine, std::string_view reading,
                                     const SettleEdit& edit, Instant now);

}  // namespace hw::service
