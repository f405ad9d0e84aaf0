#include "src/service/carried.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

MachineState full_state() {
  MachineState state;
  state.carried.since = Instant{1'772'431'200'123'456'789};
  state.carried.totals["operating"] = {9'007'199'254'740'993, 2, 3, 1.0 / 3};
  state.carried.day = LocalDate::of(2026, 3, 2);
  state.carried.of_day["operating"] = {1, 0, 0, 0};
  state.late_from = Instant{5};
  state.relevant = std::string("r\0x", 3);
  state.live = std::string("7:{}\0record", 11);
  return state;
}

TEST(MachineState, ComesBackBitByBit) {
  const auto read = parse_machine_state(print(full_state()));
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(print(*read), print(full_state()));
  EXPECT_EQ(read->live, full_state().live);
  EXPECT_EQ(read->relevant, full_state().relevant);
  EXPECT_EQ(read->carried.since, full_state().carried.since);
  EXPECT_EQ(read->carried.totals.at("operating").counted_ns, 9'007'199'254'740'993);
  EXPECT_EQ(read->late_from, Instant{5});
  EXPECT_FALSE(parse_machine_state(print(MachineState{}))->carried.since);
}

TEST(MachineState, WhatIsNotOfThatFormIsDamaged) {
  const std::string whole = print(full_state());
  const std::size_t head = whole.find('{') + static_cast<std::size_t>(std::stoul(whole));
  for (std::size_t length = 0; length < head + full_state().relevant.size(); ++length) {
    const auto read = parse_machine_state(whole.substr(0, length));
    ASSERT_FALSE(read) << length;
    EXPECT_EQ(read.error().code, ErrorCode::corrupt);
  }
  for (const char* text : {"x", ":", "-1:", "2:[]", "99999999999999999999:{}", "18446744073709551615:{}", "2:{}"}) {
    EXPECT_FALSE(parse_machine_state(text)) << text;
  }
}

}  // namespace
}  // namespace hw::service
