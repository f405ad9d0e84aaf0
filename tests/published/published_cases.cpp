#include "tests/published/published_cases.h"

#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include <boost/json.hpp>
#include <gtest/gtest.h>

#include "libs/formats/json.h"
#include "tests/places/places.h"

namespace hw::tests {

PublishedCases::PublishedCases(const std::string& file) {
  std::ifstream stream(in_source("tests/published/") + file);
  std::stringstream text;
  text << stream.rdbuf();
  all_ = boost::json::parse(text.str()).at("cases");
}

const value& PublishedCases::one(std::string_view id) const {
  for (const value& each : all_.as_array()) {
    if (each.at("id").as_string() == id) return each;
  }
  throw std::runtime_error("no case " + std::string(id));
}

double PublishedCases::tolerance(std::string_view id, std::string_view name) const {
  return number(one(id).at("tolerance").at(name));
}

double number(const value& number) { return number.to_number<double>(); }

std::vector<double> numbers(const value& list) {
  if (!list.is_array()) return {number(list)};
  std::vector<double> numbers;
  for (const value& one : list.as_array()) numbers.push_back(number(one));
  return numbers;
}

}  // namespace hw::tests
