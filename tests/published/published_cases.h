#pragma once
// The cases of a file of tests/published. Source, tolerance and how each was confirmed stand beside the numbers there.

#include <string>
#include <string_view>
#include <vector>

#include <boost/json/value.hpp>

namespace hw::tests {

using boost::json::value;

class PublishedCases {
 public:
  explicit PublishedCases(const std::string& file);

  // Throws std::runtime_error where there is no such case.
  const value& one(std::string_view id) const;
  const value& input(std::string_view id) const { return one(id).at("input"); }
  const value& expected(std::string_view id) const { return one(id).at("expected"); }
  double tolerance(std::string_view id, std::string_view name) const;

 private:
  value all_;
};

double number(const value& number);
std::vector<double> numbers(const value& list);  // or of one that stands alone

}  // namespace hw::tests
