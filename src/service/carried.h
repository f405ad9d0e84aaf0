#pragma once
// What was counted under earlier models of a machine. When its agent says that the machine has other items than before,
// the count begins anew with the new model, and what the old one had is carried on under the same counters' names.

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include <boost/describe.hpp>

#include "libs/values/instant.h"
#include "libs/values/local_date.h"

namespace hw::service {

struct CarriedAmount {
  std::int64_t counted_ns = 0;
  std::int64_t unknown_ns = 0;
  std::int64_t filled_ns = 0;
  double amount = 0;
};
BOOST_DESCRIBE_STRUCT(CarriedAmount, (), (counted_ns, unknown_ns, filled_ns, amount))

struct Carried {
  std::optional<Instant> since;                 // when counting began, under the first model
  std::map<std::string, CarriedAmount> totals;  // by the counter's key
  std::optional<LocalDate> day;                 // the day on which the model changed last ...
  std::map<std::string, CarriedAmount> of_day;  // ... and what had been counted on it by then
};
BOOST_DESCRIBE_STRUCT(Carried, (), (since, totals, day, of_day))

// A machine's stored state: what is carried, and the live count's own record behind it.
//   state = length of the JSON in decimal, ':', JSON of Carried, of late_from and of the length of `relevant`,
//           relevant, live
struct MachineState {
  Carried carried;
  std::optional<Instant> late_from;  // something came too late to be counted in its place, and waits for a recount
  std::string relevant;              // counters::RelevantOnly::save()
  std::string live;                  // counters::LiveCount::save()
};
std::string print(const MachineState& state);
// Refuses (corrupt) what is not of that form.
Result<MachineState> parse_machine_state(std::string_view text);

}  // namespace hw::service
