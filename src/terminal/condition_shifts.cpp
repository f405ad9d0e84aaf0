#include "src/terminal/condition_shifts.h"

namespace hw::terminal {

Result<void> check_file_or_shifts(const ConditionCall& call, std::string_view command) {
  if (call.file.empty() != call.shifts.empty()) return {};
  return refuse(ErrorCode::wrong_usage, "{}: either a file with a column x or --shift", command);
}

}  // namespace hw::terminal
