#pragma once
// The published cases of tests/published, as tests ask for them: inputs, expected outputs and tolerances by name.
// Source and convention stand beside each case in its file.

#include <string>
#include <string_view>
#include <vector>

#include <boost/json.hpp>

namespace hw::tests {

using boost::json::value;

class PublishedCases {
 public:
  // "t4_charts.json"
  explicit PublishedCases(const std::string& file);

  // Throws std::runtime_error where there is no such case.
  const value& one(std::string_view id) const;
  const value& input(std::string_view id) const { return one(id).at("input"); }
  const value& expected(std::string_view id) const { return one(id).at("expected"); }

 private:
  value cases_;
};

double number(const value& tree);
std::vector<double> numbers(const value& list);

enum class ToleranceKind { absolute, relative };
struct Tolerance {
  ToleranceKind kind;
  double size;
};

// Every number, text and null of `expected` stands in `actual` at the same place, within the tolerance; `actual` may
// have more. Failures name the place.
void expect_alike(const value& actual, const value& expected, const Tolerance& tolerance, const std::string& place);

}  // namespace hw::tests
