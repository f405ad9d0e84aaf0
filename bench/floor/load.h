#pragma once
// Asks a server on this computer for one address, over and over, on kept connections.

#include <cstdint>
#include <string>
#include <vector>

namespace hw::bench {

struct Asked {
  std::uint16_t port = 0;
  std::string request;  // the whole head
  unsigned connections = 8;
  double seconds = 5;
};

// So many a second, whatever the answers take: each is due at its time, and its wait (ms) counts from there, so that a
// server that stalls is not asked less for it. Sorted.
std::vector<double> waits_at_rate(const Asked& asked, double per_second);

// As fast as the answers come: answers a second.
double most_per_second(const Asked& asked);

// The body of one answer.
std::string body_of(const Asked& asked);

}  // namespace hw::bench
