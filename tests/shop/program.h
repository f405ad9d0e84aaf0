#pragma once
// The built program as a shell calls it.

#include <string>
#include <vector>

#include <sys/types.h>

namespace hw::shop {

struct Ended {
  int exit_status = -1;  // -1: it was ended by a signal
  std::string output;
  std::string errors;
};

// One call to its end.
Ended run(const std::vector<std::string>& words);

// A call that goes on: a server. It is ended, and waited for, when it goes out of scope.
class RunningProgram {
 public:
  explicit RunningProgram(const std::vector<std::string>& words);
  ~RunningProgram();
  RunningProgram(const RunningProgram&) = delete;

  // What it prints next on standard output, a line without its end; empty when it has ended.
  std::string read_line();
  // Asks it to end, and gives its exit status.
  int end();

 private:
  pid_t process_ = -1;
  int output_ = -1;
};

}  // namespace hw::shop
