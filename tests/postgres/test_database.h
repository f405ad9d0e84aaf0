#pragma once
// A database of one test's own, empty, on a private PostgreSQL: that which ctest has started for all tests, else one
// that lasts as long as this process.

#include <string>

namespace hw {

// Whether this run of the tests is the one on PostgreSQL: HOURWRIGHT_ON=postgres.
bool on_postgres();

// The address of a database that belongs to the role `shop`, on the private server whose owner's address it is.
std::string address_for_shop(std::string owners_address, std::string_view database);

class TestDatabase {
 public:
  TestDatabase();
  ~TestDatabase();  // gone with all that is in it, whoever is connected
  TestDatabase(const TestDatabase&) = delete;
  TestDatabase& operator=(const TestDatabase&) = delete;

  // For its owner, who is no superuser, as a program should be.
  const std::string& address() const { return address_; }
  // The same for another database of that server.
  static std::string address_of(std::string_view database);
  // Ends all that are connected to it, and waits until they are; other tests' databases go on.
  void end_connections() const;
  // As the server's owner, in its own database: for what a test does to the others.
  static void run(const std::string& sql);

 private:
  std::string name_;
  std::string address_;
};

}  // namespace hw
