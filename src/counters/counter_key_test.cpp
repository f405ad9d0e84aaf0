#include "src/counters/counter_key.h"

#include <gtest/gtest.h>

namespace hw::counters {
namespace {

TEST(CounterKey, ParsesWhatItPrints) {
  for (std::size_t n = 0; n < counter_kinds; ++n) {
    const auto kind = static_cast<CounterKind>(n);
    const bool of_machine = n < machine_counters;
    const CounterKey key{kind, of_machine ? "" : "Main spindle 1"};
    const auto parsed = parse_counter_key(print(key));
    ASSERT_TRUE(parsed) << parsed.error().message;
    EXPECT_EQ(*parsed, key);
  }
  EXPECT_EQ(print({CounterKind::spindle, "S1"}), "spindle S1");
  EXPECT_EQ(*parse_counter_key("spindle S1"), (CounterKey{CounterKind::spindle, "S1"}));
}

TEST(CounterKey, RefusesWhatNamesNoCounter) {
  for (const char* text : {"", "hours", "operating exec", "operating ", "travel", "travel ", "count", " spindle"}) {
    EXPECT_FALSE(parse_counter_key(text)) << text;
  }
}

TEST(CounterKey, EveryKindHasAUnitAndADefinition) {
  EXPECT_EQ(unit_of(CounterKind::cutting), "h");
  EXPECT_EQ(unit_of(CounterKind::revolutions), "rev");
  EXPECT_EQ(unit_of(CounterKind::travel), "m");
  EXPECT_EQ(unit_of(CounterKind::own), "h");
  EXPECT_TRUE(is_amount(CounterKind::own));
  EXPECT_FALSE(is_amount(CounterKind::operating));
  EXPECT_EQ(unit_of(CounterKind::count), "1");
  for (std::size_t n = 0; n < counter_kinds; ++n) EXPECT_FALSE(definition_of(static_cast<CounterKind>(n)).empty());
}

}  // namespace
}  // namespace hw::counters
