#include "src/life/part_lives.h"

namespace hw::life {
namespace {

Observed life_ended(const Doing& doing, double began_at) {
  const double age = doing.at - began_at;
  if (doing.found != Found::failed) return {.lower = age};
  if (doing.failed_at && *doing.failed_at > began_at && *doing.failed_at <= doing.at) {
    const double failed = *doing.failed_at - began_at;
    return {.lower = failed, .upper = failed};
  }
  return {.lower = doing.is_planned ? 0 : age, .upper = age};
}

}  // namespace

PartLives part_lives(std::span<const Doing> doings, std::optional<double> now) {
  PartLives out;
  for (std::size_t i = 0; i < doings.size(); ++i) {
    if (i == 0) {
      out.left_out.push_back({i, LeftOut::age_unknown});
    } else if (!(doings[i].at > doings[i - 1].at)) {
      out.left_out.push_back({i, LeftOut::no_use});
    } else if (doings[i].found == Found::unsaid) {
      out.left_out.push_back({i, LeftOut::not_said});
    } else {
      out.lives.push_back({i, life_ended(doings[i], doings[i - 1].at)});
    }
  }
  if (now && !doings.empty() && *now > doings.back().at) {
    out.lives.push_back({doings.size(), {.lower = *now - doings.back().at}});
  }
  return out;
}

}  // namespace hw::life
