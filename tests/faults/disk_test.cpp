// A disk that is full, may not be written to, or holds a damaged database.

#include <fstream>

#include <fcntl.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/mount.h>
#include <unistd.h>

#include "libs/sql/test_folder.h"
#include "src/simulate/agent_server.h"
#include "src/storage/open_store.h"
#include "tests/faults/batch_count.h"
#include "tests/faults/scene.h"
#include "tests/faults/server_process.h"
#include "tests/faults/shop_folder.h"

namespace hw::faults {
namespace {

// A small disk in memory, gone with the object. Only root can make one.
class SmallDisk {
 public:
  explicit SmallDisk(int mib) {
    const std::string options = fmt::format("size={}m", mib);
    is_there_ = ::mount("tmpfs", folder_.path().c_str(), "tmpfs", 0, options.c_str()) == 0;
  }
  ~SmallDisk() {
    if (is_there_) ::umount2(folder_.path().c_str(), MNT_DETACH);
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;

  bool is_there() const { return is_there_; }
  const std::filesystem::path& path() const { return folder_.path(); }
  void forbid_writing() const { ::mount("tmpfs", path().c_str(), "tmpfs", MS_REMOUNT | MS_RDONLY, nullptr); }

  // To the last byte, with a file that is not the program's.
  void fill() const {
    const int file = ::open(filler().c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    const std::string piece(4096, 'x');
    while (::write(file, piece.data(), piece.size()) > 0) {
    }
    ::close(file);
  }
  void make_room() const { std::filesystem::remove(filler()); }

 private:
  std::filesystem::path filler() const { return path() / "filler"; }
  sql::TestFolder folder_;
  bool is_there_ = false;
};

std::string entry_id(int number) { return fmt::format("019a0000-0000-7000-8000-{:012x}", number); }

std::string read_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::size_t lines_of(const std::string& text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

// The server does not start: exit status 1 and one sentence, which is handed back.
std::string refusal_at(const std::filesystem::path& folder) {
  ServerProcess server(folder);
  EXPECT_FALSE(server.is_up());
  EXPECT_EQ(server.exit_status(), 1);
  EXPECT_EQ(lines_of(server.said()), 1U) << server.said();
  return server.said();
}

class FullDisk : public ::testing::Test {
 protected:
  void SetUp() override {
    if (!disk.is_there()) GTEST_SKIP() << "a small disk can be mounted by root only: this is not tested here";
    agent =
        std::move(*simulate::AgentServer::open(simulate::replay(scene.machines, scene.arrivals, plan.per_second), {}));
    std::vector<ShopMachine> machines;
    for (const auto& machine : scene.machines) {
      machines.push_back({machine.entry.key, "feed-1", agent->url()});
      items += machine.model.items.size();
    }
    found_shop(folder, machines);
    ASSERT_TRUE(comes_true([&] { return agent->next_sequence() > items + scene.opening; }));
  }

  std::uint64_t read_until() const { return read_positions(folder)["feed-1"].next_sequence; }
  bool has_read_all() const {
    return agent->next_sequence() > items + scene.arrivals.size() && read_until() == agent->next_sequence();
  }

  static Heard mark_done(const ServerProcess& server, int number) {
    const std::string json = fmt::format(R"({{"id":"{}","by":"Ada"}})", entry_id(number));
    return server.post("/api/machines/m1/tasks/filter/done", json);
  }

  static void expect_it_says_so(const ServerProcess& server) {
    ASSERT_TRUE(comes_true([&] { return server.get("/readyz").status == 503; })) << server.said();
    const std::string ready = server.get("/readyz").body;
    EXPECT_NE(ready.find("what was counted is not stored"), std::string::npos) << ready;
    EXPECT_NE(server.said().find("what was counted is not stored, and stays in memory"), std::string::npos);
    EXPECT_EQ(server.get("/api/floor").status, 200);
    EXPECT_EQ(server.get("/healthz").status, 200);
  }

  // What still finds a place in the log is confirmed and has to be kept; what does not is refused.
  void send_entries(const ServerProcess& server) {
    for (int number = 1; number <= 200 && refused.size() < 2; ++number) {
      const Heard heard = mark_done(server, number);
      (heard.status == 200 ? confirmed : refused).push_back(number);
      if (heard.status == 200) continue;
      EXPECT_EQ(heard.status, 507) << heard.body;
      EXPECT_NE(heard.body.find("nothing was saved"), std::string::npos) << heard.body;
    }
    EXPECT_EQ(refused.size(), 2U);
  }

  void expect_all_is_kept() const {
    const KeptShop kept = read_shop(folder, scene.ends_at);
    expect_conserved(kept);
    for (std::uint32_t m = 0; m < scene.machines.size(); ++m) {
      SCOPED_TRACE(scene.machines[m].entry.key);
      expect_as_in_batch(scene, m, kept.machines.at(scene.machines[m].entry.key));
    }
    const auto store = std::move(*storage::open_store(folder));
    EXPECT_EQ(store->entries_of("m1", 1000)->size(), confirmed.size() + refused.size());
  }

  const SmallDisk disk{4};
  const std::filesystem::path folder = disk.path() / "data";
  const ScenePlan plan{
      .seed = 20260310, .begin = now(), .machines = 3, .lead_s = 2, .busy_s = 10, .tail_s = 1, .ahead_ms = 0};
  const Scene scene = make_scene(plan);
  std::unique_ptr<simulate::AgentServer> agent;
  std::size_t items = 0;
  std::vector<int> confirmed, refused;
};

TEST_F(FullDisk, IsSaidRefusesEntriesAndLosesNothing) {
  ServerProcess server(folder, {"--store-every", "0.1"});
  ASSERT_TRUE(server.is_up()) << server.said();
  ASSERT_TRUE(comes_true([&] { return read_until() > items + scene.opening + 200; })) << server.said();
  disk.fill();
  ASSERT_NO_FATAL_FAILURE(expect_it_says_so(server));
  send_entries(server);
  const std::uint64_t stored_while_full = read_until();
  ASSERT_TRUE(comes_true([&] { return agent->next_sequence() > stored_while_full + 300; }));

  disk.make_room();
  ASSERT_TRUE(comes_true([&] { return server.get("/readyz").status == 200; })) << server.said();
  EXPECT_NE(server.said().find("what was counted is stored again"), std::string::npos) << server.said();
  for (const int number : refused) EXPECT_EQ(mark_done(server, number).status, 200);
  ASSERT_TRUE(comes_true([&] { return has_read_all(); })) << server.said();
  ASSERT_EQ(server.stop(), 0) << server.said();
  expect_all_is_kept();
  std::cout << "seed " << plan.seed << ": " << confirmed.size() << " entries found room while counting did not, "
            << refused.size() << " were refused and came again\n";
}

TEST(ReadOnlyFolder, IsRefusedInASentence) {
  const SmallDisk disk(4);
  if (!disk.is_there()) GTEST_SKIP() << "a disk can be mounted by root only: this is not tested here";
  found_shop(disk.path() / "data", {{"m1", "feed-1", "http://127.0.0.1:1"}});
  disk.forbid_writing();
  const std::string says = refusal_at(disk.path() / "data");
  EXPECT_NE(says.find(disk.path().string()), std::string::npos) << says;
}

class DamagedDatabase : public ::testing::Test {
 protected:
  void SetUp() override {
    std::vector<ShopMachine> machines;
    for (int n = 1; n <= 40; ++n) machines.push_back({fmt::format("m{}", n), "feed-1", "http://127.0.0.1:1"});
    found_shop(data, machines);
    whole = read_file(file);
    ASSERT_GT(whole.size(), 100'000U);
  }
  void write(const std::string& bytes) const { std::ofstream(file, std::ios::binary) << bytes; }

  sql::TestFolder folder;
  const std::filesystem::path data = folder.path() / "data";
  const std::filesystem::path file = data / "hourwright.db";
  std::string whole;
};

TEST_F(DamagedDatabase, IsRefusedAtTheStartAndLeftAsItIs) {
  std::map<std::string, std::string> damages;
  damages["overwritten at the beginning"] = std::string(8192, 'x') + whole.substr(8192);
  damages["overwritten behind the first page"] = whole.substr(0, 4096) + std::string(whole.size() - 4096, '\xa5');
  damages["cut off in the middle"] = whole.substr(0, whole.size() / 2);
  damages["another file"] = "These are the minutes of the works council.\n" + std::string(10'000, '\n');
  for (const auto& [how, bytes] : damages) {
    SCOPED_TRACE(how);
    write(bytes);
    const std::string says = refusal_at(data);
    EXPECT_NE(says.find("hourwright.db"), std::string::npos) << says;
    EXPECT_TRUE(read_file(file) == bytes) << "the file is not what it was";
    std::cout << how << ": " << says;
  }
}

// Damage that the start does not come across: the server runs, and what does not read is refused.
TEST_F(DamagedDatabase, IsRefusedAtTheReadAndLeftAsItIs) {
  std::string bytes = whole;
  const std::string title = "Replace the coolant filter";
  const std::size_t at = bytes.rfind(title);
  ASSERT_NE(at, std::string::npos);
  const std::size_t page = at / 4096 * 4096;
  for (std::size_t n = 0; n < 8; ++n) bytes[page + n] = '\x7f';  // the page's own head
  write(bytes);
  ServerProcess server(data);
  if (!server.is_up()) {
    EXPECT_EQ(server.exit_status(), 1);
    EXPECT_EQ(lines_of(server.said()), 1U) << server.said();
  } else {
    EXPECT_GE(server.get("/api/machines/m40").status, 500);
    server.stop();
  }
  EXPECT_TRUE(read_file(file) == bytes) << "the file is not what it was";
  std::cout << server.said();
}

}  // namespace
}  // namespace hw::faults
