#include "src/plan/workers.h"

#include <thread>
#include <vector>

namespace hw::plan {

void share_out(std::size_t parts, const std::function<void(std::size_t part)>& work) {
  std::vector<std::thread> others;
  for (std::size_t part = 1; part < parts; ++part) others.emplace_back(work, part);
  work(0);
  for (std::thread& other : others) other.join();
}

}  // namespace hw::plan
