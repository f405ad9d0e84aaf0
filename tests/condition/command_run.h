#pragma once
// A command called on text that lies in a file, its JSON answer read.

#include <initializer_list>
#include <string>

#include <boost/json.hpp>

namespace hw::tests {

// Writes `text` to a file of its own, calls `hourwright WORDS --json FILE` and reads what it prints. A refusal fails
// the test and gives null.
boost::json::value answer_of(std::initializer_list<std::string> words, const std::string& text);

// The same without a file.
boost::json::value answer_without_file(std::initializer_list<std::string> words);

// A table with these columns, all of one length.
struct NamedColumn {
  std::string name;
  boost::json::value values;
};
std::string table_of(std::initializer_list<NamedColumn> columns);

}  // namespace hw::tests
