#pragma once
// hourwright life inspection: how often to look for defects that can be seen before they become breakdowns.
// hourwright life test: how often to test what fails without anybody noticing.

#include <optional>

#include "src/life/inspection.h"
#include "src/terminal/life_answer.h"

namespace hw::terminal {

struct LifeInspectionCall {
  life::DelayTime model;
  std::optional<double> every;  // judge this interval too
  bool is_json = false;
};
Answer inspect_life(const LifeInspectionCall& call);

struct LifeTestCall {
  life::Weibull life;
  std::optional<double> every;  // one of the two: the interval, or the share of time that is accepted
  std::optional<double> share;
  bool is_json = false;
};
Answer test_life(const LifeTestCall& call);

}  // namespace hw::terminal
