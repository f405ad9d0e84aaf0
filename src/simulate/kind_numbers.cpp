#include "src/simulate/kind_numbers.h"

#include <array>

namespace hw::simulate {

namespace {

constexpr std::array<KindNumbers, kinds> table{{
    // vertical mill
    {{3, 7}, {25, 150}, {1500, 9000}, {5000, 40000}, 400000, 7000, {60, 240}, {20, 60}, {8, 40}, 0, 2, false},
    // horizontal mill: pallets, so that it works on for a while alone
    {{6, 14}, {25, 160}, {1200, 8000}, {6000, 50000}, 600000, 6000, {25, 70}, {25, 80}, {6, 30}, 120, 2, false},
    // five-axis mill
    {{5, 12}, {40, 260}, {2500, 16000}, {4000, 45000}, 500000, 6500, {120, 420}, {40, 110}, {2, 12}, 45, 2, false},
    // lathe
    {{3, 6}, {12, 70}, {600, 3200}, {2000, 14000}, 300000, 2500, {12, 60}, {20, 60}, {30, 120}, 0, 2, false},
    // mill-turn
    {{5, 10}, {15, 90}, {600, 3500}, {2000, 16000}, 350000, 3500, {20, 90}, {40, 100}, {15, 60}, 60, 2, false},
    // surface grinder
    {{1, 2}, {240, 900}, {1400, 2200}, {80000, 300000}, 300000, 12000, {180, 600}, {15, 45}, {4, 16}, 0, 1, true},
    // cylindrical grinder
    {{2, 4}, {60, 240}, {1200, 2000}, {500, 6000}, 150000, 8000, {60, 180}, {20, 60}, {10, 40}, 0, 2, true},
}};

}  // namespace

const KindNumbers& numbers_of(Kind kind) { return table.at(static_cast<std::size_t>(kind)); }

}  // namespace hw::simulate
