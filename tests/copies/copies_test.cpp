// Copies of a shop whose server runs: made, checked, restored.

#include <fstream>
#include <set>

#include "libs/formats/new_file.h"
#include "src/storage/copy_file.h"
#include "src/storage/copying.h"
#include "src/storage/open_store.h"
#include "src/storage/work_folder.h"
#include "tests/copies/copied_shop.h"

namespace hw::shop {
namespace {

namespace fs = std::filesystem;

std::set<std::string> names_in(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& one : fs::directory_iterator(folder)) names.insert(one.path().filename().string());
  return names;
}

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

void write(const fs::path& file, std::string_view bytes) {
  std::ofstream(file, std::ios::binary).write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

class Copies : public testing::Test {
 protected:
  Copies() {
    fill(scene);
    copied = must(storage::make_copy(scene.folder(), file, scene.now));
  }
  Error refusal(const Result<copies::CopyReport>& result) const {
    EXPECT_FALSE(result);
    return result ? Error{} : result.error();
  }

  Scene scene;
  sql::TestFolder place;
  fs::path file = place.path() / "shop.copy";
  copies::CopyReport copied;
};

TEST_F(Copies, RestoredIsWhatWasCopiedBesideTheRunningServer) {
  EXPECT_EQ(copied.copy.plant, "Test plant");
  EXPECT_EQ(copied.copy.breaks, 0);
  EXPECT_EQ(names_in(place.path()), std::set<std::string>{"shop.copy"}) << "nothing of the work is left";
  EXPECT_EQ(fs::status(file).permissions(), fs::perms::owner_read | fs::perms::owner_write);
  EXPECT_EQ(must(storage::check_copy(file)).copy, copied.copy);
  const std::string then = whole_digest(scene.folder());
  must(scene.done("grease", 50));  // the copy is of the moment when it was made

  const fs::path data = place.path() / "restored";
  must(storage::restore_copy(file, data));
  EXPECT_EQ(names_in(data), (std::set<std::string>{"hourwright.db", "tls"}));
  EXPECT_EQ(names_in(data / "tls"), std::set<std::string>{"server.pem"});
  EXPECT_EQ(bytes_of(data / "tls" / "server.pem"), bytes_of(scene.folder() / "tls" / "server.pem"));
  EXPECT_EQ(whole_digest(data), then);
  const auto verdict = must(storage::verify_logbook(data, copied.copy.head));
  EXPECT_TRUE(verdict.breaks.empty()) << verdict.breaks.front().says;
  EXPECT_EQ(verdict.entries, copied.copy.entries);
  const auto store = must(storage::open_store(data));
  EXPECT_TRUE(service::OpenShop::open(*store)) << "it can be served";
}

TEST_F(Copies, NoOtherFileAndNoOtherShopIsWrittenOver) {
  const std::string before = bytes_of(file);
  EXPECT_EQ(refusal(storage::make_copy(scene.folder(), file, scene.now)).code, ErrorCode::conflict);
  EXPECT_EQ(bytes_of(file), before);
  EXPECT_EQ(refusal(storage::restore_copy(file, scene.folder())).code, ErrorCode::conflict);
  EXPECT_EQ(refusal(storage::restore_copy(file, place.path() / "none" / "data")).code, ErrorCode::not_found);
  EXPECT_EQ(refusal(storage::make_copy(place.path(), place.path() / "b", scene.now)).code, ErrorCode::not_found);
  fs::create_directory(place.path() / "empty");
  EXPECT_TRUE(storage::restore_copy(file, place.path() / "empty"));
}

// Every part is met: head, seal, and the gzip between them with its own head and end.
TEST_F(Copies, AByteThatWasAlteredAnywhereIsFound) {
  const std::string good = bytes_of(file);
  const std::size_t body = must(storage::read_copy_head(file)).files.size() > 0 ? good.find("\n", 20) + 1 : 0;
  std::set<std::size_t> places;
  for (std::size_t i = 0; i < 24; ++i) places.insert({i, body + i, good.size() - 1 - i, good.size() - 66 - i});
  for (std::size_t i = 0; i < 150; ++i) places.insert(i * 7919 * good.size() / 150 % good.size());
  const fs::path altered = place.path() / "altered.copy";
  for (const std::size_t at : places) {
    std::string bytes = good;
    bytes[at] = static_cast<char>(bytes[at] ^ (at % 2 == 0 ? 0x01 : 0x80));
    write(altered, bytes);
    const Error error = refusal(storage::check_copy(altered));
    EXPECT_NE(error.message.find("altered.copy"), std::string::npos) << at << ": " << error.message;
  }
}

TEST_F(Copies, OneThatIsCutOffOrNoCopyIsRefusedAndRestoresNothing) {
  const std::string good = bytes_of(file);
  const fs::path bad = place.path() / "bad.copy", data = place.path() / "data";
  const std::size_t lengths[] = {0, 5, 18, 19, 100, 1000, good.size() / 2, good.size() - 66, good.size() - 1};
  for (const std::size_t length : lengths) {
    write(bad, std::string_view(good).substr(0, length));
    EXPECT_FALSE(storage::check_copy(bad)) << length;
    EXPECT_FALSE(storage::restore_copy(bad, data)) << length;
    EXPECT_FALSE(fs::exists(data));
  }
  for (const std::string& other : {std::string(5000, 'x'), good + "more", bytes_of(scene.folder() / "tls" / "notes")}) {
    write(bad, other);
    EXPECT_FALSE(storage::check_copy(bad));
  }
  std::string newer = good;
  newer.replace(newer.find(" 1\n"), 2, " 2");
  write(bad, newer);
  EXPECT_EQ(refusal(storage::check_copy(bad)).code, ErrorCode::unsupported);
  EXPECT_EQ(names_in(place.path()), (std::set<std::string>{"bad.copy", "shop.copy"}));
}

// Sealed rightly, and yet not what its head says: as if the program that made it had been at fault.
TEST_F(Copies, ASealedCopyIsHeldAgainstItsOwnHead) {
  sql::TestFolder unpacked;
  must(storage::unpack_copy(file, unpacked.path()));
  const auto reseal = [&](copies::CopyHead head, const char* name) {
    auto made = formats::NewFile::begin(place.path() / name);
    formats::NewFile& out = *made;
    must(storage::write_copy(out, head, {unpacked.path() / "hourwright.db", unpacked.path() / "tls" / "server.pem"}));
    must(out.close());
    must(out.keep());
    return storage::check_copy(place.path() / name);
  };
  copies::CopyHead head = copied.copy;
  EXPECT_TRUE(reseal(head, "same"));
  head.entries += 1;
  EXPECT_EQ(refusal(reseal(head, "entries")).code, ErrorCode::corrupt);
  head = copied.copy;
  head.files[1].sha256[0] = head.files[1].sha256[0] == 'a' ? 'b' : 'a';
  EXPECT_EQ(refusal(reseal(head, "hash")).code, ErrorCode::corrupt);
  head = copied.copy;
  head.files[0].bytes -= 1;
  EXPECT_EQ(refusal(reseal(head, "length")).code, ErrorCode::corrupt);
  head = copied.copy;
  head.schema = 99;
  EXPECT_EQ(refusal(reseal(head, "newer")).code, ErrorCode::unsupported);
}

TEST_F(Copies, ALogbookThatWasAlteredIsCopiedAsItIsAndSaidToBe) {
  meddle(scene.folder(), "drop trigger entry_stays; update entry set says = 'another' where ordinal = 2");
  const auto broken = must(storage::make_copy(scene.folder(), place.path() / "broken.copy", scene.now));
  EXPECT_EQ(broken.copy.breaks, 1);
  EXPECT_TRUE(storage::check_copy(place.path() / "broken.copy")) << "it is a good copy of a broken logbook";
}

TEST_F(Copies, ADamagedDatabaseMakesNoCopy) {
  scene.end_and_reopen();
  sql::TestFolder damaged;
  fs::copy(scene.folder() / "hourwright.db", damaged.path() / "hourwright.db");
  std::string bytes = bytes_of(damaged.path() / "hourwright.db");
  for (std::size_t page = 3; page * 4096 < bytes.size(); ++page) bytes.replace(page * 4096, 512, 512, 'x');
  write(damaged.path() / "hourwright.db", bytes);
  const Error error = refusal(storage::make_copy(damaged.path(), place.path() / "damaged.copy", scene.now));
  EXPECT_EQ(error.code, ErrorCode::corrupt) << error.message;
  EXPECT_EQ(names_in(place.path()), std::set<std::string>{"shop.copy"});
}

TEST(Room, TooLittleIsSaidWithBothNumbers) {
  const auto room = storage::check_room("/tmp", 4'000'000'000'000'000, "a copy");
  ASSERT_FALSE(room);
  EXPECT_EQ(room.error().code, ErrorCode::disk_full);
  EXPECT_NE(room.error().message.find("a copy needs 4000000000 MB free"), std::string::npos) << room.error().message;
  EXPECT_TRUE(storage::check_room("/tmp", 1, "a copy"));
}

}  // namespace
}  // namespace hw::shop
