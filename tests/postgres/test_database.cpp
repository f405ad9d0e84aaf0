#include "tests/postgres/test_database.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>

#include <fmt/format.h>
#include <unistd.h>

#include "libs/sql/postgres.h"
#include "libs/values/assert.h"
#include "tests/places/places.h"

namespace hw {
namespace {

std::string address_in(const std::string& folder) {
  std::ifstream file(folder + "/address");
  std::string address;
  std::getline(file, address);
  return address;
}

bool answers(const std::string& address) {
  return !address.empty() && sql::open_postgres(address, sql::Access::write, {}).has_value();
}

// Started where ctest has started none; ended with the process.
class PrivateServer {
 public:
  PrivateServer() : address_(address_in(in_build("postgres"))) {
    if (answers(address_)) return;
    folder_ = (std::filesystem::temp_directory_path() / fmt::format("hw_own_postgres_{}", ::getpid())).string();
    run("begin");
    address_ = address_in(folder_);
  }
  ~PrivateServer() {
    if (folder_.empty()) return;
    run("end");
    std::filesystem::remove_all(folder_);
  }
  PrivateServer(const PrivateServer&) = delete;
  PrivateServer& operator=(const PrivateServer&) = delete;
  const std::string& address() const { return address_; }

 private:
  void run(std::string_view what) const {
    const std::string command = fmt::format("'{}' {} '{}'", in_source("tests/postgres/private.sh"), what, folder_);
    const int status = std::system(command.c_str());
    HW_ASSERT(status == 0, "a PostgreSQL of the tests' own can be started and ended");
  }

  std::string address_, folder_;
};

const std::string& server_address() {
  static const PrivateServer server;
  return server.address();
}

}  // namespace

bool on_postgres() {
  const char* engine = std::getenv("HOURWRIGHT_ON");
  return engine != nullptr && std::string_view(engine) == "postgres";
}

std::string address_for_shop(std::string owners_address, std::string_view database) {
  const auto put = [&](std::string_view from, const std::string& to) {
    owners_address.replace(owners_address.find(from), from.size(), to);
  };
  put("///postgres?", fmt::format("///{}?", database));
  put("user=hourwright", "user=shop");
  return owners_address;
}

std::string TestDatabase::address_of(std::string_view database) { return address_for_shop(server_address(), database); }

void TestDatabase::run(const std::string& sql) {
  const auto server = sql::open_postgres(server_address(), sql::Access::write, {});
  HW_ASSERT(server, server.error().message.c_str());
  const auto done = (*server)->run_script(sql);
  HW_ASSERT(done, done.error().message.c_str());
}

void TestDatabase::end_connections() const {
  run(fmt::format("select pg_terminate_backend(pid, 10000) from pg_stat_activity where datname = '{}'", name_));
}

TestDatabase::TestDatabase() {
  static int made = 0;
  name_ = fmt::format("test_{}_{}", ::getpid(), ++made);
  run(fmt::format("create database {} owner shop template template0", name_));
  address_ = address_of(name_);
}

TestDatabase::~TestDatabase() { run(fmt::format("drop database {} with (force)", name_)); }

}  // namespace hw
