#pragma once
// A line between two places on this computer that can be cut: what is on its way then is lost.

#include <atomic>
#include <cstdint>
#include <mutex>
#include <set>
#include <thread>
#include <vector>

namespace hw::faults {

class Link {
 public:
  // Takes connections at a port of its own and passes on what comes, both ways, to `to`.
  explicit Link(std::uint16_t to);
  ~Link();
  Link(const Link&) = delete;
  Link& operator=(const Link&) = delete;

  std::uint16_t port() const { return port_; }
  void lead_to(std::uint16_t to) { to_ = to; }
  // Every connection is reset, and new ones are as soon as they come, until it is mended.
  void cut();
  void mend() { is_cut_ = false; }
  // How many bytes went up so far.
  std::uint64_t bytes_up() const { return bytes_up_; }

 private:
  void accept_all();
  void carry(int client);

  std::atomic<std::uint16_t> to_;
  std::atomic<bool> is_cut_ = false;
  std::atomic<bool> is_ending_ = false;
  std::atomic<std::uint64_t> bytes_up_ = 0;
  int listener_ = -1;
  std::uint16_t port_ = 0;
  std::mutex mutex_;
  std::set<int> open_;                 // guarded by mutex_
  std::vector<std::thread> carrying_;  // the accepting thread's own
  std::thread accepting_;
};

}  // namespace hw::faults
