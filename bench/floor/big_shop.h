#pragma once
// A shop of 200 machines with more than 40 tasks each, fed by twenty simulated agents of ten machines in full work.

#include <filesystem>
#include <memory>
#include <vector>

#include "src/simulate/agent_server.h"
#include "src/simulate/floor.h"

namespace hw::bench {

class BigShop {
 public:
  static constexpr int agents_count = 20, machines_each = 10;

  // The agents run from now on.
  BigShop();
  // Founds the shop in a new folder by `hourwright found`; `program` is that program, `share` where library/ lies.
  void found(const std::filesystem::path& program, const std::filesystem::path& data) const;

 private:
  struct Cell {
    std::unique_ptr<simulate::Floor> floor;
    std::unique_ptr<simulate::AgentServer> agent;
  };
  std::vector<Cell> cells_;
};

}  // namespace hw::bench
