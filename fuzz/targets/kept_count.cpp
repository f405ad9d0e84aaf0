// What counting keeps in the database, after whatever has happened to the disk: a count's record, or a piece of the log
// of observations. It is refused; or it is read, and written again the same. (The log's check sum is made to fit, or
// nothing would ever be read.)

#include <bit>
#include <cstring>

#include "fuzz/lathe.h"
#include "fuzz/targets.h"
#include "libs/values/assert.h"
#include "src/counters/packed.h"
#include "src/counters/state_archive.h"
#include "src/service/carried.h"

namespace hw::fuzz {
namespace {

void read_record(std::string_view input) {
  const auto state = service::parse_machine_state(input);
  if (!state) return;
  const auto count = counters::LiveCount::restore(lathe()[0], counting_settings(), state->live);
  if (!count) return;
  const auto again = counters::LiveCount::restore(lathe()[0], counting_settings(), count->save());
  HW_ASSERT(again && again->save() == count->save(), "a count is restored as it was saved");
  expect_no_more_than_time(*count, count_end);
}

std::string sealed(std::string_view bytes) {
  std::string payload(bytes);
  const std::uint64_t check_sum = counters::checksum_of(bytes);
  payload.resize(bytes.size() + sizeof check_sum);
  std::memcpy(payload.data() + bytes.size(), &check_sum, sizeof check_sum);
  return payload;
}

void read_log(std::string_view input) {
  const auto observations = counters::unpack(sealed(input));
  if (!observations) return;
  const auto again = counters::unpack(counters::pack(*observations));
  HW_ASSERT(again && again->size() == observations->size(), "a piece of the log is read back as it was written");
  for (std::size_t i = 0; i < again->size(); ++i) {
    const counters::Observation &one = (*observations)[i], &other = (*again)[i];
    HW_ASSERT(one.at == other.at && one.item == other.item && counters::is_same(one.value, other.value),
              "an observation is read back as it was written");
  }
}

}  // namespace

void kept_count(std::string_view input) {
  read_record(input);
  read_log(input);
}

}  // namespace hw::fuzz
