#pragma once
// The log-likelihood of lives under a Weibull distribution, on the scale of ages (the density of t, not of log t):
//
//   failed at t        log shape + z - H - log t        z = shape (log t - log scale), H = exp(z)
//   still good at t    -H
//   entered at t       +H
//   failed between     -H_1 + log(1 - exp(-(H_2 - H_1)))

#include <span>

#include "src/life/line.h"
#include "src/life/log_lives.h"
#include "src/life/weibull.h"

namespace hw::life {

class WeibullLikelihood {
 public:
  explicit WeibullLikelihood(std::span<const Observed> lives) { take(lives); }
  // Takes other lives; allocates only where they are more than before.
  void take(std::span<const Observed> lives) { lives_.take(lives); }

  Terms at(const Line& line) const;
  Terms operator()(const Line& line) const { return at(line); }
  // A line to begin at: the slope from the failures' spread, the level the best for it were all ages exact.
  Line start() const;
  const LogLives& lives() const { return lives_; }

  Weibull weibull(const Line& line) const;
  Line line(const Weibull& life) const;

 private:
  LogLives lives_;
};

}  // namespace hw::life
