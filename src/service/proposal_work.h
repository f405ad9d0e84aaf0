#pragma once
// One proposal while it is worked on and after.

#include <atomic>
#include <set>
#include <string>
#include <vector>

#include "src/proposal/proposed.h"
#include "src/service/proposal_views.h"
#include "src/service/stop_steps.h"

namespace hw::service {

enum class ProposalState { running, ready, cancelled, failed };
BOOST_DESCRIBE_ENUM(ProposalState, running, ready, cancelled, failed)

struct ProposalWork {
  std::string id;
  std::string by;
  Instant asked_at;
  proposal::What what = proposal::What::all;
  int weeks = 0;
  double seconds = 0;
  proposal::Moving moving = proposal::Moving::fixed;
  std::string currency;
  // Told between the threads.
  std::atomic<bool> is_cancelled = false;
  std::atomic<double> share = 0;
  // Guarded by whoever keeps it.
  ProposalState state = ProposalState::running;
  std::optional<proposal::Proposed> proposed;
  std::string says;
  std::set<std::string> accepted;  // keys of differences
  std::vector<std::string> last_accepted;
  std::vector<StopStep> way_back;  // how the last acceptance is taken back; their entries have no ids yet
  std::string undone_by;           // the id of the signature that took back the one before ...
  std::vector<StopStep> undone;    // ... and what it did
};

ProposalView view_of(const ProposalWork& work);

}  // namespace hw::service
