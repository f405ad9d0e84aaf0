#include "tests/faults/own_postgres.h"

#include <cstdlib>
#include <fstream>

#include <fmt/format.h>

#include "libs/sql/postgres.h"
#include "libs/values/assert.h"
#include "tests/places/places.h"
#include "tests/postgres/test_database.h"

namespace hw::faults {

OwnPostgres::OwnPostgres(std::filesystem::path folder) : folder_(std::move(folder)) {
  run("begin");
  std::ifstream file(folder_ / "address");
  std::string owners;
  std::getline(file, owners);
  const auto server = sql::open_postgres(owners, sql::Access::write, {});
  HW_ASSERT(server, "the server that was started answers");
  const auto made = (*server)->run_script("create database shops owner shop template template0");
  HW_ASSERT(made, made.error().message.c_str());
  address_ = address_for_shop(owners, "shops");
}

OwnPostgres::~OwnPostgres() { run("end"); }

void OwnPostgres::kill_and_start() const { run("again"); }

void OwnPostgres::run(const std::string& what) const {
  const std::string command =
      fmt::format("'{}' {} '{}'", in_source("tests/postgres/private.sh"), what, folder_.string());
  const int status = std::system(command.c_str());
  HW_ASSERT(status == 0, "a PostgreSQL of the test's own can be started, killed and ended");
}

}  // namespace hw::faults
