#pragma once
// What the demo's gauges show, walk after walk.

#include <map>
#include <string>

#include "src/catalogue/task.h"
#include "src/simulate/dice.h"

namespace hw::simulate {

class DemoGauges {
 public:
  // `does_fall`: pressures with a lower warning limit come down half of the way to it by the end, as behind a filter
  // that clogs.
  DemoGauges(Dice dice, bool does_fall) : dice_(dice), does_fall_(does_fall) {}

  // The next value of a check's reading, in its unit. `share` of the time is over, 0 to 1.
  double next(const std::string& check, const catalogue::TaskReading& reading, double share);

 private:
  Dice dice_;
  bool does_fall_;
  std::map<std::string, double> wandered_;  // by check, as a share of its value
};

}  // namespace hw::simulate
