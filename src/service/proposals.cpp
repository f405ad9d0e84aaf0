#include "src/service/proposals.h"

#include <chrono>

#include <sys/resource.h>

#include "libs/sql/storage_failed.h"
#include "src/service/look_ahead.h"
#include "src/service/proposal_work.h"

namespace hw::service {
namespace {

constexpr int weeks_usual = 12, weeks_min = 4, weeks_max = 26;
constexpr double seconds_usual = 20, seconds_min = 1, seconds_max = 300;
constexpr double effort_share = 0.9;  // of the time; the clock ends it on slow computers
constexpr int behind_others = 10;     // nice value: the server answers first

Result<proposal::Moving> moving_of(const ProposalEdit& edit) {
  const std::string word = edit.moving.value_or("fixed");
  if (word == "fixed") return proposal::Moving::fixed;
  if (word == "priced") return proposal::Moving::priced;
  return refuse(ErrorCode::bad_input, "moving: \"{}\" is neither fixed nor priced", word.substr(0, 60));
}

Result<proposal::What> what_of(const ProposalEdit& edit) {
  const std::string word = edit.what.value_or("all");
  if (word == "all") return proposal::What::all;
  if (word == "services") return proposal::What::services;
  return refuse(ErrorCode::bad_input, "what: \"{}\" is neither all nor services", word.substr(0, 60));
}

// Services are spread over a year, whatever else is planned for how long.
Result<int> weeks_of(const ProposalEdit& edit, proposal::What what) {
  if (what == proposal::What::services) {
    const int weeks = edit.weeks.value_or(proposal::services_weeks);
    if (weeks == proposal::services_weeks) return weeks;
    return refuse(ErrorCode::bad_input, "weeks: services are spread over {}, not {}; leave it out",
                  proposal::services_weeks, weeks);
  }
  const int weeks = edit.weeks.value_or(weeks_usual);
  if (weeks >= weeks_min && weeks <= weeks_max) return weeks;
  return refuse(ErrorCode::bad_input, "weeks: {} must be {} to {}", weeks, weeks_min, weeks_max);
}

Result<void> check(const ProposalEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  const double seconds = edit.seconds.value_or(seconds_usual);
  if (!(seconds >= seconds_min && seconds <= seconds_max)) {
    return refuse(ErrorCode::bad_input, "seconds: {} must be {} to {}", seconds, seconds_min, seconds_max);
  }
  return {};
}

// Its share of the time that is used, for whoever works; the end where it is cancelled.
std::function<double()> clock_of(const std::shared_ptr<ProposalWork>& work) {
  const auto began = std::chrono::steady_clock::now();
  return [work, began] {
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
    work->share = std::min(1.0, seconds / work->seconds);
    return work->is_cancelled ? 1.0 : seconds / work->seconds;
  };
}

Result<proposal::Proposed> work_out(const std::shared_ptr<ProposalWork>& work, const OpenShop& shop,
                                    UseForecasts& forecasts) {
  try {
    HW_TAKE(ahead, look_ahead(shop, forecasts, std::nullopt, work->asked_at));
    proposal::ProposedOptions options;
    options.what = work->what;
    options.days = work->weeks * 7;
    options.moving = work->moving;
    options.effort_s = work->seconds * effort_share;
    options.time_used = clock_of(work);
    options.is_unwanted = [work] { return work->is_cancelled.load(); };
    return propose(ahead, options);
  } catch (const sql::StorageFailed& failed) {
    return refuse(failed.error());
  }
}

}  // namespace

Proposals::~Proposals() {
  if (work_) work_->is_cancelled = true;
  if (thread_.joinable()) thread_.join();
}

Result<ProposalView> Proposals::begin(const ProposalEdit& edit, Instant now) {
  HW_TRY(check(edit));
  HW_TAKE(moving, moving_of(edit));
  HW_TAKE(what, what_of(edit));
  HW_TAKE(weeks, weeks_of(edit, what));
  std::unique_lock turn(mutex_);
  if (work_ && work_->id == edit.id) return view_of(*work_);
  if (work_ && work_->is_cancelled && thread_.joinable()) end_cancelled(turn);
  if (work_ && work_->state == ProposalState::running) {
    return refuse(ErrorCode::conflict, Saying{"proposal-running", {{"by", work_->by}}},
                  "a proposal that {} asked for is being worked on; it can be cancelled", work_->by);
  }
  if (thread_.joinable()) thread_.join();  // it is over
  work_ = std::make_shared<ProposalWork>();
  work_->id = edit.id;
  work_->by = edit.by;
  work_->asked_at = now;
  work_->what = what;
  work_->weeks = weeks;
  work_->seconds = edit.seconds.value_or(seconds_usual);
  work_->moving = moving;
  work_->currency = shop_.record().stopping.currency;
  thread_ = std::thread([this, work = work_] { run(work); });
  return view_of(*work_);
}

// What was cancelled needs the lock to end.
void Proposals::end_cancelled(std::unique_lock<std::mutex>& turn) {
  std::thread ending = std::move(thread_);
  turn.unlock();
  ending.join();
  turn.lock();
}

void Proposals::run(const std::shared_ptr<ProposalWork>& work) {
  ::setpriority(PRIO_PROCESS, 0, behind_others);  // of this thread alone, on Linux; where it fails nothing is lost
  auto proposed = work_out(work, shop_, forecasts_);
  const std::lock_guard turn(mutex_);
  work->share = 1;
  if (work->is_cancelled) {
    work->state = ProposalState::cancelled;
  } else if (proposed) {
    work->proposed = std::move(*proposed);
    work->state = ProposalState::ready;
  } else {
    work->says = proposed.error().message;
    work->state = ProposalState::failed;
  }
}

Result<std::shared_ptr<ProposalWork>> Proposals::find(std::string_view id) const {
  if (work_ && work_->id == id) return work_;
  return refuse(ErrorCode::not_found, Saying{"no-proposal"}, "there is no proposal {} (any more); propose anew",
                id.substr(0, 40));
}

Result<ProposalView> Proposals::latest() const {
  const std::lock_guard turn(mutex_);
  if (work_) return view_of(*work_);
  return refuse(ErrorCode::not_found, Saying{"no-proposal"}, "there is no proposal yet");
}

Result<ProposalView> Proposals::cancel(std::string_view id, const Signature& signature) {
  HW_TRY(check_signature(signature.id, signature.by));
  const std::lock_guard turn(mutex_);
  HW_TAKE(work, find(id));
  if (work->state == ProposalState::running) work->is_cancelled = true;
  return view_of(*work);
}

void Proposals::wait() {
  std::thread running;
  {
    const std::lock_guard turn(mutex_);
    running = std::move(thread_);
  }
  if (running.joinable()) running.join();
}

}  // namespace hw::service
