#pragma once
// Proposals of stops: worked on beside the server's other work, one at a time, kept in memory alone. They change
// nothing until a person accepts; what was accepted are entries like any others.

#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include "src/service/proposal_work.h"
#include "src/service/use_forecasts.h"

namespace hw::service {

// What a stop would cost on a day and in a shift. Errors: not_found, bad_input as of proposal::estimate_stop.
Result<StopEstimateView> try_stop(const OpenShop& shop, UseForecasts& forecasts, const StopTryView& wanted,
                                  Instant now);

// For several threads at once.
class Proposals {
 public:
  Proposals(OpenShop& shop, UseForecasts& forecasts) : shop_(shop), forecasts_(forecasts) {}
  ~Proposals();  // ends the work that runs

  // Begins the work. The same id again is the same proposal. Errors: bad_input (weeks outside 4 to 26, of
  // services other than 52, seconds outside 1 to 300, words that are none for what and moving), conflict while another
  // one runs.
  Result<ProposalView> begin(const ProposalEdit& edit, Instant now);
  // The latest one. Errors: not_found where there was none since the server began.
  Result<ProposalView> latest() const;
  // Ends the work of one that runs; nothing is kept of it. One that is over stays as it is. Errors: not_found.
  Result<ProposalView> cancel(std::string_view id, const Signature& signature);
  // Agrees, moves, changes and withdraws the stops of these differences, in one transaction; the same id again gives
  // the same answer. Errors beside those of stop_steps.h: bad_input (no difference, one twice or one that is not
  // there), conflict (not ready, accepted already).
  Result<AcceptedView> accept(std::string_view id, const AcceptEdit& edit, Instant now);
  // Takes back the last acceptance: what was agreed is withdrawn, what was changed is as before, what was withdrawn is
  // agreed anew. Errors: conflict where nothing was accepted, or somebody has changed one of these stops since.
  Result<AcceptedView> undo(std::string_view id, const Signature& signature, Instant now);
  // Waits until the one that runs is over.
  void wait();

 private:
  Result<std::shared_ptr<ProposalWork>> find(std::string_view id) const;
  void end_cancelled(std::unique_lock<std::mutex>& turn);
  void run(const std::shared_ptr<ProposalWork>& work);

  OpenShop& shop_;
  UseForecasts& forecasts_;
  mutable std::mutex mutex_;
  std::shared_ptr<ProposalWork> work_;
  std::thread thread_;
};

}  // namespace hw::service
