#pragma once
// One machine's year (playing.h). Times are days from the beginning, with their fractions; it ends before `days`.

#include <cstdint>

#include "src/rehearsal/playing.h"

namespace hw::rehearsal {

class MachineYear {
 public:
  MachineYear(const Playing& playing, std::size_t machine, YearDesk& desk, Outcome& outcome,
              std::vector<Happening>* told);

  // Adds to the outcome.
  void play(std::uint64_t seed);

 private:
  void draw_use(std::uint64_t seed);
  void begin_tasks(std::uint64_t seed);
  void look_at_counters(double at);
  // When a counter has risen by that much in all, not before `from`; never where it does not in this year.
  double time_of(std::size_t counter, double total, double from) const;
  void find_due(std::size_t task, double at);
  void begin_anew(std::size_t task, double at);
  void draw_part(std::size_t task, double age, double at);
  bool is_near(std::size_t task, double at) const;
  void fail(std::size_t task, double at);
  void do_work(std::size_t task, double at);
  bool has_isolated_due(double at) const;
  void hold_stop(double at);
  void tell(Happening::What what, std::size_t task, double at);

  const Playing& playing_;
  const Playing::MachineTable& table_;
  const std::size_t machine_;
  const std::size_t days_;
  YearDesk& desk_;
  Outcome& outcome_;
  std::vector<Happening>* told_;
};

}  // namespace hw::rehearsal
