#include "tests/condition/command_run.h"

#include <fstream>

#include <unistd.h>

#include "src/terminal/called_test.h"

namespace hw::tests {
namespace {

boost::json::value read_answer(const terminal::Called& called) {
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  return called.exit_status == 0 ? boost::json::parse(called.output) : boost::json::value();
}

}  // namespace

boost::json::value answer_of(std::initializer_list<std::string> words, const std::string& text) {
  const std::string path = testing::TempDir() + "condition_published_" + std::to_string(::getpid());
  std::ofstream(path, std::ios::binary) << text;
  std::vector<std::string> all(words);
  all.insert(all.end(), {"--json", path});
  const boost::json::value answer = read_answer(terminal::call(all));
  ::unlink(path.c_str());
  return answer;
}

boost::json::value answer_without_file(std::initializer_list<std::string> words) {
  std::vector<std::string> all(words);
  all.emplace_back("--json");
  return read_answer(terminal::call(all));
}

std::string table_of(std::initializer_list<NamedColumn> columns) {
  std::string text;
  for (const NamedColumn& column : columns) text += (text.empty() ? "" : ",") + column.name;
  text += "\n";
  for (std::size_t row = 0; row < columns.begin()->values.as_array().size(); ++row) {
    std::string line;
    for (const NamedColumn& column : columns) {
      line += (line.empty() ? "" : ",") + boost::json::serialize(column.values.at(row));
    }
    text += line + "\n";
  }
  return text;
}

}  // namespace hw::tests
