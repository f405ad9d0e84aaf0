#pragma once
// What every counter of every machine will be used: learned once from its days, kept until its past changes.
//
// A counter's history is how much it rose on each local day before today, filled time included, as its tasks count it.
// A day is unknown, not zero, when nobody knows more of it than usual: its unknown time exceeds the counter's median by
// more than four hours. (Where an agent goes off with its machine every night, every night is unknown, and the counter
// will go on without it.) Days on which the program did not run have no row and are unknown too.
//
// A history of less than `lending_days` known days is helped out by the machines of the same kind: those of the same
// cell, where there are some, else all.

#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "src/due/use_forecast.h"
#include "src/service/open_shop.h"

namespace hw::service {

inline constexpr int history_days = 800;
inline constexpr int lending_days = 28;

// A counter as it stands at the beginning of a local day.
struct CounterUse {
  due::UseHistory history;                   // `start` is that day; in the terms of an ordinary day (use_change.h)
  std::vector<due::UseDay> counted;          // the same days as they were counted
  std::optional<due::UseForecast> forecast;  // nothing: see `refused`
  std::optional<Error> refused;              // why there is none
  std::vector<std::string> lent_by;          // keys of the machines that helped out
};

// The rise of a counter on each day of `days`, without those that are unknown; `is_amount`: it counts no hours.
std::vector<due::UseDay> known_use(const std::vector<DayRecord>& days, bool is_amount);

// For several threads at once. Holds no lock of the shop when it is called.
class UseForecasts {
 public:
  explicit UseForecasts(const OpenShop& shop) : shop_(shop) {}

  // Errors: not_found where there is no such machine, bad_input where `counter` is no counter's key.
  Result<std::shared_ptr<const CounterUse>> of(std::string_view machine, const std::string& counter, Instant now);
  // How often a history was learned from since the beginning: what did not change is not learned again.
  std::size_t learned() const;

 private:
  struct Kept {
    std::shared_ptr<const CounterUse> use;
    std::uint64_t past_version = 0;
    std::uint64_t use_changes_version = 0;
    std::uint64_t counts_version = 0;
    bool is_past_told = false;  // the feed had told the whole past when it was read
  };
  bool is_fresh(const Kept& kept, const OpenMachine& machine, LocalDate today) const;
  Result<due::UseHistory> read_history(std::string_view machine, const std::string& counter, Instant now) const;
  Result<std::optional<due::LentUse>> lent_to(std::string_view machine, const std::string& counter, Instant now,
                                              std::vector<std::string>& lenders) const;
  Result<Kept> learn(const OpenMachine& machine, const std::string& counter, Instant now) const;

  const OpenShop& shop_;
  mutable std::mutex mutex_;
  std::map<std::pair<std::string, std::string>, Kept> kept_;
  std::size_t learned_ = 0;
};

}  // namespace hw::service
