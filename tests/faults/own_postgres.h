#pragma once
// A PostgreSQL of one test's own, which it may kill.

#include <filesystem>
#include <string>

namespace hw::faults {

class OwnPostgres {
 public:
  explicit OwnPostgres(std::filesystem::path folder);
  ~OwnPostgres();
  OwnPostgres(const OwnPostgres&) = delete;
  OwnPostgres& operator=(const OwnPostgres&) = delete;

  // Of an empty database whose owner is no superuser.
  const std::string& address() const { return address_; }
  // Killed in the middle of whatever it does, and there again when it returns.
  void kill_and_start() const;

 private:
  void run(const std::string& what) const;

  std::filesystem::path folder_;
  std::string address_;
};

}  // namespace hw::faults
