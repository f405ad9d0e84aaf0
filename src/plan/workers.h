#pragma once
// Work shared out to a fixed number of threads. The caller owns the threads; what is computed depends on how many parts
// there are, never on which of them is ready first.

#include <cstddef>
#include <functional>

namespace hw::plan {

// Calls work(0) to work(parts - 1), at the same time where parts > 1, and comes back when all are done.
void share_out(std::size_t parts, const std::function<void(std::size_t part)>& work);

// The i-th of `parts` nearly equal runs of `count` things.
struct Run {
  std::size_t begin = 0;
  std::size_t end = 0;
};
inline Run run_of(std::size_t part, std::size_t parts, std::size_t count) {
  return {count * part / parts, count * (part + 1) / parts};
}

}  // namespace hw::plan
