#pragma once
// One thing that was looked at: what /readyz and `hourwright doctor` answer.

#include <string>

#include <boost/describe/class.hpp>

namespace hw::service {

struct Check {
  std::string name;
  std::string result;  // pass, warn, fail
  std::string detail;  // and, where it did not pass, what to do
};
BOOST_DESCRIBE_STRUCT(Check, (), (name, result, detail))

}  // namespace hw::service
