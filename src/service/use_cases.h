#pragma once
// What people and programs can ask of a shop: one function = one thing done, in one transaction. `now` is the server's
// clock. A success is on disk when the function returns.

#include <optional>
#include <string>
#include <string_view>

#include "src/service/edits.h"
#include "src/service/finding_edits.h"
#include "src/service/forecast_views.h"
#include "src/service/month_views.h"
#include "src/service/open_shop.h"
#include "src/service/part_study.h"
#include "src/service/plan_edits.h"
#include "src/service/reading_views.h"
#include "src/service/round_edits.h"
#include "src/service/round_views.h"
#include "src/service/stop_card_views.h"
#include "src/service/stop_edits.h"
#include "src/service/stores_study.h"
#include "src/service/today_views.h"
#include "src/service/use_forecasts.h"
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

// What was read and what was topped up, one line each, with where it goes; and the whole working of one reading.
// Errors: not_found.
Result<ReadingsView> show_readings(const OpenShop& shop, std::string_view machine, Instant now);
Result<ReadingWorkingView> show_reading(const OpenShop& shop, std::string_view machine, std::string_view task,
                                        std::string_view what, Instant now);

// Due dates: of every machine, or of one; and the whole working of one task's. Errors: not_found.
Result<HorizonView> show_horizon(const OpenShop& shop, UseForecasts& forecasts, std::optional<std::string_view> only,
                                 Instant now);
Result<ForecastWorkingView> show_forecast(const OpenShop& shop, UseForecasts& forecasts, std::string_view machine,
                                          std::string_view task, Instant now);
// What has to be decided, the most costly first: machines that a finding stops; overdue tasks; pressing findings; what
// nobody owns; stops that go without a part, and what is to be ordered before noon; counters that stopped; due tasks;
// rounds to be walked, shelves to be counted; tasks that fall due within a week; intervals that are worth moving.
Result<TodayView> show_today(const OpenShop& shop, UseForecasts& forecasts, PartStudies& studies, StoresStudies& stores,
                             Instant now);

// Announced changes of how much a machine, or every machine, will be used. The logbook's entry of one that concerns
// every machine has an empty machine.
UseChangesView show_use_changes(const OpenShop& shop);
// Errors: bad_input (last day before the first, factor outside 0 to 10, no reason), not_found, conflict.
Result<UseChangeView> announce_use(OpenShop& shop, const UseChangeEdit& edit, Instant now);
Result<UseChangeView> withdraw_use(OpenShop& shop, std::string_view change, const Signature& signature, Instant now);

// Forecasts as they would have been made on past days, against what happened. Errors: not_found; bad_input where
// `counter` is no counter's key. A history that is too short is told in the view.
Result<BacktestView> show_backtest(UseForecasts& forecasts, std::string_view machine, std::string_view counter,
                                   Instant now);

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

// Findings. What a phone says of a machine that the shop does not have (any more) is kept for the lead, and a task that
// cannot settle it is left out and said so; at a change that is bad_input.
Result<FindingView> make_finding(OpenShop& shop, std::string_view machine, const FindingEdit& edit, Instant now);
Result<FindingView> change_finding(OpenShop& shop, std::string_view finding, const FindingChange& change, Instant now);
Result<FindingView> settle_finding(OpenShop& shop, std::string_view finding, const FindingSettle& edit, Instant now);
Result<FindingView> reopen_finding(OpenShop& shop, std::string_view finding, const FindingReopen& edit, Instant now);
enum class FindingsShown { open, settled, all };  // settled: the latest 200
BOOST_DESCRIBE_ENUM(FindingsShown, open, settled, all)
struct FindingsQuery {
  std::optional<std::string> machine = {};
  FindingsShown shown = FindingsShown::open;
};
Result<FindingsView> show_findings(const OpenShop& shop, const FindingsQuery& query);
Result<FindingHistoryView> show_finding(const OpenShop& shop, std::string_view finding);

// Stops. Refuses beside bad_input and not_found (conflict): a task that is in another agreed stop, a stop that is
// closed or withdrawn, and, where a version is named, one that was changed since it was looked at.
Result<StopView> agree_stop(OpenShop& shop, std::string_view machine, const StopEdit& edit, Instant now);
Result<StopView> change_stop(OpenShop& shop, std::string_view stop, const StopChange& edit, Instant now);
Result<StopView> withdraw_stop(OpenShop& shop, std::string_view stop, const StopWithdraw& edit, Instant now);
// Ends a stop: each task that was done has its entry "task done" at the counters of the moment when it was, as
// mark_done makes it; the others are in no stop any more. All of it in one transaction.
Result<StopView> close_stop(OpenShop& shop, std::string_view stop, const StopClose& edit, Instant now);
enum class StopsShown { agreed, closed, withdrawn, all };  // closed, withdrawn: the latest 200
BOOST_DESCRIBE_ENUM(StopsShown, agreed, closed, withdrawn, all)
struct StopsQuery {
  std::optional<std::string> machine = {};
  StopsShown shown = StopsShown::agreed;
};
// Agreed ones by when they begin, then the others, the latest first.
Result<StopsView> show_stops(const OpenShop& shop, const StopsQuery& query);
// Everything that the job card of a stop shows.
Result<StopCardView> show_stop(const OpenShop& shop, std::string_view stop, Instant now);

// The logbook, the latest first. Refuses (bad_input) a kind that is none, days that end before they begin, a count out
// of range; list_logbook (too_large) more than `entries_listed_max`.
Result<LogbookView> show_logbook(const OpenShop& shop, const LogbookQuery& query);
inline constexpr int entries_listed_max = 200'000;
Result<std::vector<EntryView>> list_logbook(const OpenShop& shop, const LogbookQuery& query);
// Is it as it was written? See record/verify.h.
Result<record::Verdict> prove_logbook(const OpenShop& shop);
// Says what is right beside an entry that is not. It changes nothing but that a stray waits no longer.
Result<EntryView> correct_entry(OpenShop& shop, std::string_view entry, const CorrectionEdit& edit, Instant now);

// The key figures of a month, with the month before beside it and with what they rest on: of all machines, of one, or
// of those of a kind. Errors: bad_input (no month), not_found (not begun yet, or over before the shop began; a machine
// or kind that is not there).
struct MonthQuery {
  std::string month = {};  // 2026-11
  std::optional<std::string> machine = {};
  std::optional<std::string> kind = {};
};
Result<MonthView> show_month(const OpenShop& shop, const MonthQuery& query, Instant now);

// The machine's plan: other places for its points; the order in which they are walked past (none: computed).
Result<EntryView> move_points(OpenShop& shop, std::string_view machine, const PointsEdit& edit, Instant now);
Result<EntryView> change_walk(OpenShop& shop, std::string_view machine, const WalkOrderEdit& edit, Instant now);

// Photos, which entries name by id and SHA-256. The same bytes again change nothing; other bytes under the id are a
// conflict. Refuses (bad_input) what is no JPEG, PNG or WebP or another of them than it says, too_large beyond
// `photo_bytes_max`.
inline constexpr std::size_t photo_bytes_max = 1024 * 1024;
Result<PhotoView> keep_photo(OpenShop& shop, const PhotoEdit& edit);
Result<Photo> find_photo(const OpenShop& shop, std::string_view id);

}  // namespace hw::service
