#pragma once
// What people enter about a machine's plan, in the fields of api/openapi.yaml.

#include <string>
#include <vector>

#include "src/service/edits.h"
#include "src/service/entry_body.h"

namespace hw::service {

struct PointsEdit {
  std::string id;
  std::string by;
  std::vector<PointPlace> points;
};
BOOST_DESCRIBE_STRUCT(PointsEdit, (), (id, by, points))

struct WalkOrderEdit {
  std::string id;
  std::string by;
  std::vector<int> points;  // each once, in walking order; none: computed from their places
};
BOOST_DESCRIBE_STRUCT(WalkOrderEdit, (), (id, by, points))

}  // namespace hw::service
