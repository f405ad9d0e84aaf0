#pragma once
// hourwright doctor: everything that a person would look at, each with what to do (docs/operations/troubles.md).

#include "src/terminal/command_line.h"
#include "src/terminal/doctor_checks.h"

namespace hw::terminal {

void add_doctor_command(CLI::App& app, const Entrances& entrances, Answer& answer);

struct DoctorSaid {
  bool well = true;  // nothing failed
  std::vector<service::Check> checks;
};
BOOST_DESCRIBE_STRUCT(DoctorSaid, (), (well, checks))

// Looks at all of it; changes nothing.
DoctorSaid look_over(const DoctorCall& call, const service::Examined& examined, Instant now);

}  // namespace hw::terminal
