#pragma once
// A server on a shop of one machine, to be ill-treated.

#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "tests/abuse/raw_line.h"
#include "tests/faults/server_process.h"
#include "tests/faults/shop_folder.h"
#include "tests/shop/let_in.h"

namespace hw::abuse {

class AbusedShop : public testing::Test {
 protected:
  AbusedShop() : data(folder.path() / "data") {
    faults::found_shop(data, {{"m1", "feed-1", "http://127.0.0.1:9"}});
    lets_in = shop::let_in(data);
    server.emplace(data);
    EXPECT_TRUE(server->is_up()) << server->said();
  }

  std::uint16_t port() const { return server->port(); }
  // Somebody else is answered meanwhile.
  void expect_served() const { EXPECT_EQ(ask(port(), request("GET", "/api/floor")), 200) << server->said(); }

  sql::TestFolder folder;
  std::filesystem::path data;
  std::optional<faults::ServerProcess> server;
};

// A number that a longer run makes larger.
int amount_of(const char* setting, int usual);

}  // namespace hw::abuse
