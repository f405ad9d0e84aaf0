#pragma once
// The counting of one machine while the server runs: the live count, and what of it still has to be stored.

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "libs/values/zone.h"
#include "src/counters/counter_key.h"
#include "src/counters/machine_model.h"
#include "src/counters/observation.h"
#include "src/service/store.h"

namespace hw::service {

// One counter at one moment, in its unit; hours counters in hours.
struct CounterNow {
  counters::CounterKey key;
  double counted = 0;
  double filled = 0;
  double unknown_h = 0;
  double today = 0;  // counted and filled since local midnight
  double today_unknown_h = 0;
};

// What the machine does: "cutting", "running", "spindle turning", "standing", "off", "not known".
struct Doing {
  std::string state = "not known";
  std::optional<Instant> since;
};

// Not for two threads at once. Until a model has come it counts nothing.
class MachineCount {
 public:
  explicit MachineCount(Zone zone = Zone::utc());
  ~MachineCount();
  MachineCount(MachineCount&&) noexcept;
  MachineCount& operator=(MachineCount&&) noexcept;

  // Goes on where the record ends. Refuses (corrupt) a record that does not read.
  Result<void> restore(const CountingRecord& record);
  // What the machine's agent says that it has. Another model than before: counters go on by meaning.
  void set_model(const counters::MachineModel& model);
  const counters::MachineModel* model() const;

  // Observations in order of arrival.
  void take(std::span<const counters::Observation> observations);
  // Until then the last values hold.
  void alive_until(Instant time);

  // Held values count up to `now`, or to the feed's last sign of life and the limit of silence beyond it.
  std::vector<CounterNow> totals(Instant now) const;
  Doing doing(Instant now) const;
  std::optional<Instant> counting_since() const;

  // What has to be stored since the last saved(); nothing when nothing has.
  std::optional<CountingStep::Machine> unsaved(const std::string& machine) const;
  void saved(const CountingStep::Machine& part);

  // Counts anew from the record where something came too late to be counted in its place. Call it with all saved.
  Result<void> recount_late(Store& store, const std::string& machine);

 private:
  struct Counting;
  Zone zone_;
  std::unique_ptr<Counting> counting_;
};

}  // namespace hw::service
