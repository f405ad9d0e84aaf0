// The built program called with what it has to refuse: one clear sentence on standard error, the exit status of its
// kind, and nothing harmed.

#include <algorithm>
#include <fstream>

#include <gtest/gtest.h>

#include "libs/http/loopback_test.h"
#include "libs/sql/test_folder.h"
#include "tests/shop/let_in.h"
#include "tests/shop/program.h"

namespace hw::shop {
namespace {

constexpr std::string_view small_shop = R"(format = "hourwright-shop-1"
cell = [ { key = "c", title = "Cell" } ]
[plant]
name = "Small plant"
zone = "Europe/Berlin"
[[machine]]
key = "m1"
name = "Lathe 1"
kind = "lathe"
cell = "c"
)";

class BadCall : public testing::Test {
 protected:
  std::string in_folder(std::string_view name) const { return (folder.path() / name).string(); }
  std::string shop_file(std::string text = std::string{small_shop}) const {
    std::ofstream(in_folder("shop.toml")) << text;
    return in_folder("shop.toml");
  }
  std::string with(std::string_view from, std::string_view to) const {
    std::string text{small_shop};
    text.replace(text.find(from), from.size(), to);
    return shop_file(text);
  }
  std::string founded() const {
    const Ended made = run({"found", "--data", in_folder("data"), "--shop", shop_file()});
    EXPECT_EQ(made.exit_status, 0) << made.errors;
    EXPECT_EQ(made.output, in_folder("data") + ": Small plant with 1 machines\n");
    return in_folder("data");
  }
  static void expect_refused(const Ended& run, int exit_status, std::initializer_list<std::string_view> says) {
    EXPECT_EQ(run.exit_status, exit_status) << run.errors;
    EXPECT_EQ(run.output, "");
    EXPECT_TRUE(run.errors.starts_with("hourwright: ")) << run.errors;
    EXPECT_EQ(std::count(run.errors.begin(), run.errors.end(), '\n'), 1) << run.errors;
    for (const auto part : says) EXPECT_NE(run.errors.find(part), std::string::npos) << run.errors;
  }

  sql::TestFolder folder;
};

// Where the server says that it is: "Hourwright is at http://127.0.0.1:40123/".
std::uint16_t port_of(const std::string& line) {
  const auto colon = line.rfind(':');
  return colon == std::string::npos ? std::uint16_t{0} : static_cast<std::uint16_t>(std::stoi(line.substr(colon + 1)));
}

TEST_F(BadCall, APortInUseIsNamed) {
  const std::string data = founded();
  RunningProgram first({"serve", "--data", data, "--listen", "127.0.0.1:0"});
  const std::uint16_t port = port_of(first.read_line());
  ASSERT_NE(port, 0);
  std::filesystem::create_directory(in_folder("other"));
  const Ended other = run({"found", "--data", in_folder("other"), "--shop", shop_file()});
  ASSERT_EQ(other.exit_status, 0);
  const std::string listen = "127.0.0.1:" + std::to_string(port);
  expect_refused(run({"serve", "--data", in_folder("other"), "--listen", listen}), 1, {std::to_string(port), "in use"});
  EXPECT_EQ(first.end(), 0);
}

TEST_F(BadCall, AFolderThatAnotherServerHasIsNamedAndTheOtherGoesOn) {
  const std::string data = founded();
  RunningProgram first({"serve", "--data", data, "--listen", "127.0.0.1:0"});
  const std::uint16_t port = port_of(first.read_line());
  ASSERT_NE(port, 0);
  expect_refused(run({"serve", "--data", data, "--listen", "127.0.0.1:0"}), 1, {data});
  expect_refused(run({"found", "--data", data, "--shop", shop_file()}), 1, {data});
  http::RawClient client(port);
  client.send("GET /api/shop HTTP/1.1\r\nHost: localhost\r\n" + let_in(data) + "Connection: close\r\n\r\n");
  EXPECT_NE(client.read_all().find("Small plant"), std::string::npos);
  EXPECT_EQ(first.end(), 0);
}

TEST_F(BadCall, AShopIsFoundedOnce) {
  const std::string data = founded();
  expect_refused(run({"found", "--data", data, "--shop", shop_file()}), 1, {data, "Small plant"});
}

TEST_F(BadCall, AFolderInAMissingFolderIsNotMade) {
  const std::string data = in_folder("missing/data");
  expect_refused(run({"found", "--data", data, "--shop", shop_file()}), 1, {data, in_folder("missing")});
  expect_refused(run({"serve", "--data", data}), 1, {data, "hourwright found"});
  EXPECT_FALSE(std::filesystem::exists(in_folder("missing")));
}

TEST_F(BadCall, AFolderWithoutAShopIsNotServedAndStaysEmpty) {
  expect_refused(run({"serve", "--data", folder.path().string()}), 1, {folder.path().string(), "no shop"});
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST_F(BadCall, AMistakeInTheShopsFileIsNamedByFileLineAndField) {
  const auto found = [&](const std::string& file) {
    return run({"found", "--data", in_folder("data"), "--shop", file});
  };
  const std::string file = in_folder("shop.toml");
  expect_refused(found(with("Europe/Berlin", "Europe/Nowhere")), 1, {file, "line 5", "zone", "Europe/Nowhere"});
  expect_refused(found(with("cell = \"c\"", "cell = \"d\"")), 1, {file, "m1", "\"d\""});
  expect_refused(found(with("kind = \"lathe\"", "knd = \"lathe\"")), 1, {file, "machine 1", "line 6", "kind"});
  expect_refused(found(with("kind = \"lathe\"", "kind = \"loom\"")), 1, {"m1", "loom"});
  expect_refused(found(with("[plant]", "[plant")), 1, {file, "line 3"});
  expect_refused(found(with("cell = \"c\"", "cell = \"c\"\nagent = \"ftp://10.0.0.7\"")), 1, {"m1", "ftp://10.0.0.7"});
  expect_refused(found(with("cell = \"c\"", "cell = \"c\"\nfills = { operatng = \"t\" }")), 1, {"m1", "operatng"});
  expect_refused(found(in_folder("none.toml")), 1, {in_folder("none.toml")});
  expect_refused(found(folder.path().string()), 1, {folder.path().string()});
  EXPECT_FALSE(std::filesystem::exists(in_folder("data")));
}

TEST_F(BadCall, ADamagedDatabaseEndsWithASentence) {
  const std::string data = founded();
  {
    std::fstream file(data + "/hourwright.db", std::ios::in | std::ios::out | std::ios::binary);
    file.seekp(4096);
    file << std::string(40 * 4096, '\x5a');
  }
  const Ended served = run({"serve", "--data", data, "--listen", "127.0.0.1:0"});
  expect_refused(served, 1, {"hourwright.db"});
}

TEST_F(BadCall, WrongUsageExitsWith2) {
  expect_refused(run({"serve"}), 2, {"--data"});
  expect_refused(run({"found", "--data", in_folder("data")}), 2, {"--shop"});
  expect_refused(run({"serve", "--data", in_folder("data"), "--colour"}), 2, {"--colour"});
  expect_refused(run({"serve", "--data", in_folder("data"), "--listen", "0.0.0.0:8470"}), 2, {"--name"});
  expect_refused(run({"demo", "--listen", "8470"}), 2, {"127.0.0.1:8470"});
  expect_refused(run({"mend"}), 2, {"mend"});
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST_F(BadCall, HelpIsNoRefusal) {
  const Ended help = run({"help", "--json"});
  EXPECT_EQ(help.exit_status, 0);
  EXPECT_NE(help.output.find("\"serve\""), std::string::npos);
  EXPECT_EQ(help.errors, "");
}

}  // namespace
}  // namespace hw::shop
