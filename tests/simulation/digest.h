#pragma once
// What a shop ended as, without what depends on when and in which order things arrived.

#include <string>

#include "tests/shop/scene.h"

namespace hw::simulation {

struct Digest {
  std::string entries;  // one a line, by id
  std::string shown;    // rounds, tasks and findings, as JSON, and which photos are there
  bool operator==(const Digest&) const = default;
};
Digest digest_of(const shop::Scene& scene);

}  // namespace hw::simulation
