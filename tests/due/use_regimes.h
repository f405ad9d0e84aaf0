#pragma once
// Invented histories of use and what came after them: ten kinds of machine life, each with a wide spread of numbers
// (history 3 to 800 days, left half a day's to 400 days' use, amounts from 0.1 to a million a day). All from a seed.

#include <array>
#include <cstdint>
#include <string_view>

#include "src/due/daily_use.h"

namespace hw::tests {

enum class Regime {
  steady,
  drifting,
  stepping,
  seasonal,
  intermittent,
  standing,
  batch,
  weekend_work,
  holes,
  new_machine
};
inline constexpr std::array<Regime, 10> regimes = {
    Regime::steady,   Regime::drifting, Regime::stepping,     Regime::seasonal, Regime::intermittent,
    Regime::standing, Regime::batch,    Regime::weekend_work, Regime::holes,    Regime::new_machine};

std::string_view word_of(Regime regime);

struct RegimeCase {
  due::UseHistory history;
  double left = 0;
  int outcome_days = 0;  // from the start; due::horizon_days where it is not reached within ten years
};

RegimeCase make_case(Regime regime, std::uint64_t seed);

}  // namespace hw::tests
