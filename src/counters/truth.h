#pragma once
// Three values: a feed that is silent makes a state unknown, never no.

#include <array>
#include <cstddef>
#include <cstdint>

namespace hw::counters {

enum class Truth : std::uint8_t { no, yes, unknown };

inline constexpr std::size_t truths = 3;

constexpr std::size_t index_of(Truth truth) { return static_cast<std::size_t>(truth); }

}  // namespace hw::counters
