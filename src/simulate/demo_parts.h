#pragma once
// The parts that the demo's stores keep: an invented shop's numbers, places, suppliers and prices, of the order that
// such parts cost (from memory).

#include <array>
#include <cstddef>
#include <string_view>

namespace hw::simulate {

inline constexpr std::array<std::string_view, 4> demo_suppliers = {"Filterhof Wendlage", "Schmierlager Osterwehr",
                                                                   "Maschinenteile Quellmoor", "Elektro Sandrup"};

struct DemoPart {
  std::string_view number;
  std::string_view title;  // as tasks call it
  std::string_view unit;
  std::string_view place;
  std::size_t supplier = 0;  // of demo_suppliers
  double price = 0;
  double stock = 0;  // at the beginning
  double pack = 0;   // 0: one by one
  double lead_days = 0;
  int shelf_life_days = 0;  // 0: it keeps
};

inline constexpr std::array demo_parts = {
    DemoPart{"F-101", "Return filter", "piece", "A1-1", 0, 38, 7, 0, 4},
    DemoPart{"F-102", "Pressure filter", "piece", "A1-2", 0, 64, 2, 0, 6},
    DemoPart{"F-103", "Oil filter", "piece", "A1-3", 0, 22, 4, 2, 4},
    DemoPart{"F-104", "Mist filter", "piece", "A2-1", 0, 145, 2, 0, 8},
    DemoPart{"F-105", "Mist main filter", "piece", "A2-2", 0, 210, 1, 0, 8},
    DemoPart{"F-106", "Mist after filter", "piece", "A2-3", 0, 96, 2, 0, 8},
    DemoPart{"F-107", "Air filter element", "piece", "A1-4", 0, 18, 5, 0, 4},
    DemoPart{"F-108", "Air filter set", "set", "A1-5", 0, 55, 2, 0, 5},
    DemoPart{"F-109", "Fine filter element", "piece", "A1-6", 0, 72, 2, 0, 6},
    DemoPart{"F-110", "Chiller filter", "piece", "A2-4", 0, 26, 3, 0, 5},
    DemoPart{"F-111", "Chiller oil filter", "piece", "A2-5", 0, 31, 3, 0, 5},
    DemoPart{"F-112", "Filter bag", "piece", "A3-1", 0, 9.5, 30, 10, 5},
    DemoPart{"F-113", "Filter paper roll", "roll", "A3-2", 0, 48, 6, 2, 5},
    DemoPart{"F-114", "Filter band", "roll", "A3-3", 0, 52, 2, 0, 6},
    DemoPart{"F-115", "Suction strainer", "piece", "A3-4", 0, 29, 3, 0, 6},
    DemoPart{"F-116", "Tank breather", "piece", "A3-5", 0, 17, 4, 0, 4},
    DemoPart{"F-117", "Cabinet filter mat", "piece", "A4-1", 0, 4.2, 120, 20, 4},
    DemoPart{"L-201", "Way oil", "l", "B1-1", 1, 5.4, 420, 20, 3, 1800},
    DemoPart{"L-202", "Slide oil", "l", "B1-2", 1, 6.1, 260, 20, 3, 1800},
    DemoPart{"L-203", "Hydraulic oil", "l", "B1-3", 1, 4.3, 640, 20, 3, 1800},
    DemoPart{"L-204", "Spindle oil", "l", "B1-4", 1, 9.8, 60, 20, 4, 1800},
    DemoPart{"L-205", "Gear oil", "l", "B1-5", 1, 7.2, 60, 20, 4, 1800},
    DemoPart{"L-206", "Chain oil", "l", "B1-6", 1, 8.4, 15, 5, 4, 1800},
    DemoPart{"L-207", "Bearing grease", "kg", "B2-1", 1, 21, 12, 1, 4, 1100},
    DemoPart{"L-208", "Chuck grease", "kg", "B2-2", 1, 34, 14, 1, 4, 1100},
    DemoPart{"L-209", "Multi-purpose grease", "kg", "B2-3", 1, 12, 6, 0.4, 3, 1100},
    DemoPart{"L-210", "Clamp grease", "kg", "B2-4", 1, 41, 3, 0.5, 5, 1100},
    DemoPart{"L-211", "Centre grease", "kg", "B2-5", 1, 29, 3, 0.5, 5, 1100},
    DemoPart{"L-212", "Coolant concentrate", "l", "B3-1", 1, 7.9, 400, 200, 5, 365},
    DemoPart{"L-213", "System cleaner", "l", "B3-2", 1, 6.6, 120, 20, 5, 730},
    DemoPart{"L-214", "Cooling water additive", "l", "B3-3", 1, 11, 15, 5, 5, 730},
    DemoPart{"S-301", "Way wiper set", "set", "C1-1", 2, 185, 2, 0, 9},
    DemoPart{"S-302", "Slide wiper set", "set", "C1-2", 2, 160, 2, 0, 9},
    DemoPart{"S-303", "Wiper set", "set", "C1-3", 2, 130, 1, 0, 9},
    DemoPart{"S-304", "Bellows and wiper set", "set", "C1-4", 2, 340, 1, 0, 14},
    DemoPart{"S-305", "Rotary union seal kit", "set", "C2-1", 2, 118, 3, 0, 8, 1800},
    DemoPart{"S-306", "Feed-through seal kit", "set", "C2-2", 2, 96, 1, 0, 10, 1800},
    DemoPart{"S-307", "Clamping cylinder seal kit", "set", "C2-3", 2, 74, 1, 0, 10, 1800},
    DemoPart{"S-308", "B axis seal", "set", "C2-4", 2, 155, 1, 0, 12, 1800},
    DemoPart{"S-309", "Bowl seal", "piece", "C2-5", 2, 24, 2, 0, 8, 1800},
    DemoPart{"M-401", "Disc spring pack", "set", "C3-1", 2, 390, 1, 0, 15},
    DemoPart{"M-402", "Flat belt", "piece", "C3-2", 2, 68, 2, 0, 7},
    DemoPart{"M-403", "Chuck bolts", "piece", "C3-3", 2, 2.4, 48, 12, 5},
    DemoPart{"M-404", "Steady shoe", "piece", "C3-4", 2, 47, 4, 0, 8},
    DemoPart{"M-405", "Spindle bearing set", "set", "C4-1", 2, 2350, 1, 0, 28},
    DemoPart{"M-406", "Internal spindle cartridge", "piece", "C4-2", 2, 4100, 1, 0, 35},
    DemoPart{"M-407", "Dryer insert", "piece", "C3-5", 2, 83, 2, 0, 7},
    DemoPart{"E-501", "Cabinet fan", "piece", "D1-1", 3, 44, 4, 0, 5},
    DemoPart{"E-502", "Backup battery", "piece", "D1-2", 3, 27, 8, 0, 4, 1460},
    DemoPart{"E-503", "Probe battery", "piece", "D1-3", 3, 8.5, 4, 2, 4, 1460},
    DemoPart{"E-504", "pH test strip", "piece", "D1-4", 1, 0.18, 900, 100, 4, 540},
};

}  // namespace hw::simulate
