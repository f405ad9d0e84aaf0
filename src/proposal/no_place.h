#pragma once
// Tasks that no plan can hold, and why.

#include <string>
#include <vector>

#include "libs/values/sentence.h"
#include "src/plan/propose.h"
#include "src/proposal/stop_instance.h"

namespace hw::proposal {

struct WithoutPlace {
  std::string machine;
  std::string task;            // of the instance
  Sentence says;               // whether other work stands in its way, or its limits themselves
  std::vector<Sentence> ways;  // each alone would do, by the least that helps; empty: none was found or looked for
};

// Takes the tasks out that find no place even if nothing else were to be done: with them no plan keeps all limits, and
// no cost or bound would mean anything.
std::vector<WithoutPlace> take_out_impossible(const ShopAhead& shop, plan::Instance& instance);

// Those of a plan that found no place beside the other work.
std::vector<WithoutPlace> explain_left(const ShopAhead& shop, const plan::Instance& instance, const plan::Model& model,
                                       const plan::Proposal& proposal);

}  // namespace hw::proposal
