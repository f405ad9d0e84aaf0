// A shop moved into a database on a server by the program as a shell calls it, and by one that is killed meanwhile.

#include <cstdlib>

#include "src/storage/copying.h"
#include "src/storage/database_place.h"
#include "src/storage/moving.h"
#include "src/storage/record_digest.h"
#include "tests/copies/copied_shop.h"
#include "tests/places/places.h"
#include "tests/shop/program.h"

namespace hw::shop {
namespace {

namespace fs = std::filesystem;

class CopyTo : public testing::Test {
 protected:
  CopyTo() {
    Scene scene;
    fill(scene);
    const fs::path copy = place.path() / "filled.copy";
    must(storage::make_copy(scene.folder(), copy, scene.now));
    must(storage::restore_copy(copy, data));
  }
  static std::string digest_of_record(const storage::DatabasePlace& place) {
    const auto db = std::move(*storage::open_database(place, sql::Access::read));
    const auto digest = storage::record_digest(*db);
    EXPECT_TRUE(digest) << digest.error().message;
    return digest ? digest->sha256 : "";
  }
  std::vector<std::string> words() const {
    return {"copy-to", "--data", data.string(), "--database", server.address()};
  }
  // Whether it came to its end before the time was over.
  bool runs_to_its_end_within(double seconds) const {
    std::string command = fmt::format("timeout -s KILL {} '{}'", seconds, in_build("hourwright"));
    for (const std::string& word : words()) command += fmt::format(" '{}'", word);
    return std::system((command + " >/dev/null 2>&1").c_str()) == 0;
  }

  sql::TestFolder place;
  fs::path data = place.path() / "data";
  TestDatabase server;
};

TEST_F(CopyTo, MovesWhatIsInTheFileAndTheServerGoesOnThere) {
  const std::string before = digest_of_record({data});
  auto called = words();
  called.push_back("--json");
  const Ended moved = run(called);
  ASSERT_EQ(moved.exit_status, 0) << moved.errors;
  EXPECT_NE(moved.output.find(fmt::format("\"sha256\":\"{}\"", before)), std::string::npos) << moved.output;
  EXPECT_EQ(digest_of_record(*storage::place_of(data)), before);
  EXPECT_EQ(run({"logbook", "verify", "--data", data.string()}).exit_status, 0);
  EXPECT_EQ(run(called).exit_status, 1) << "it lies there already";
  const fs::path copy = place.path() / "shop.copy", back = place.path() / "back";
  ASSERT_EQ(run({"backup", copy.string(), "--data", data.string()}).exit_status, 0);
  ASSERT_EQ(run({"restore", copy.string(), "--data", back.string()}).exit_status, 0);
  EXPECT_EQ(digest_of_record({back}), before) << "a copy is the way back";
}

TEST_F(CopyTo, SurvivesAKillAtAnyTime) {
  const std::string before = digest_of_record({data});
  int killed = 0;
  double seconds = 0.01;
  for (; !runs_to_its_end_within(seconds); seconds *= 1.25) {
    ASSERT_LT(++killed, 60);
    const bool is_in_file = fs::exists(data / "hourwright.db");
    if (is_in_file) {
      EXPECT_EQ(digest_of_record({data}), before) << "killed after " << seconds << " s";
    }
    if (is_in_file && storage::place_of(data)) {
      EXPECT_EQ(run({"logbook", "verify", "--data", data.string()}).exit_status, 0);
    }
  }
  EXPECT_GT(killed, 3);
  EXPECT_EQ(digest_of_record(*storage::place_of(data)), before);
  EXPECT_FALSE(fs::exists(data / "hourwright.db"));
  EXPECT_TRUE(fs::exists(data / storage::moved_file));
}

}  // namespace
}  // namespace hw::shop
