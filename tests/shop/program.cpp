#include "tests/shop/program.h"

#include <csignal>
#include <fstream>
#include <sstream>
#include <utility>

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include "libs/sql/test_folder.h"
#include "libs/values/assert.h"
#include "tests/places/places.h"

namespace hw::shop {
namespace {

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

// In the child: becomes the program.
[[noreturn]] void become(const std::vector<std::string>& words, int output, int errors) {
  ::dup2(output, STDOUT_FILENO);
  ::dup2(errors, STDERR_FILENO);
  std::string program = in_build("hourwright");
  std::vector<std::string> texts = words;
  std::vector<char*> pointers{program.data()};
  for (std::string& text : texts) pointers.push_back(text.data());
  pointers.push_back(nullptr);
  ::setenv("HOURWRIGHT_SHARE", in_source().c_str(), 1);
  ::execv(program.c_str(), pointers.data());
  ::_exit(127);
}

int wait_for(pid_t process) {
  int status = 0;
  HW_ASSERT(::waitpid(process, &status, 0) == process, "the program is our child");
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

Ended run(const std::vector<std::string>& words) {
  const sql::TestFolder folder;
  const auto open = [&](const char* name) {
    return ::open((folder.path() / name).c_str(), O_CREAT | O_WRONLY | O_CLOEXEC, 0600);
  };
  const int output = open("output"), errors = open("errors");
  const pid_t process = ::fork();
  HW_ASSERT(process >= 0, "a process can be made");
  if (process == 0) become(words, output, errors);
  ::close(output);
  ::close(errors);
  Ended run;
  run.exit_status = wait_for(process);
  run.output = text_of(folder.path() / "output");
  run.errors = text_of(folder.path() / "errors");
  return run;
}

RunningProgram::RunningProgram(const std::vector<std::string>& words) {
  int ends[2];
  HW_ASSERT(::pipe2(ends, O_CLOEXEC) == 0, "a pipe can be made");
  process_ = ::fork();
  HW_ASSERT(process_ >= 0, "a process can be made");
  if (process_ == 0) become(words, ends[1], STDERR_FILENO);
  ::close(ends[1]);
  output_ = ends[0];
}

RunningProgram::~RunningProgram() {
  if (process_ > 0) end();
  ::close(output_);
}

std::string RunningProgram::read_line() {
  std::string line;
  char c = 0;
  while (::read(output_, &c, 1) == 1 && c != '\n') line += c;
  return line;
}

int RunningProgram::end() {
  ::kill(process_, SIGTERM);
  return wait_for(std::exchange(process_, -1));
}

}  // namespace hw::shop
