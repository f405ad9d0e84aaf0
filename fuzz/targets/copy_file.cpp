// The file of a copy, as `restore` and `backup verify` read it. The first byte says what follows:
//
//   f   the file as it is
//   s   all of it but its seal, which is made here: or nothing behind the seal would ever be read
//   d   damage to the database of a small shop, four bytes each: where (three bytes, little-endian, modulo its length)
//       and which byte is written there; its copy's head and seal are made to fit
//
// It is refused, and nothing is left; or all is restored that its head lists. What was restored is opened, or refused.

#include "src/storage/copy_file.h"

#include <fstream>
#include <sstream>

#include "fuzz/small_shop.h"
#include "fuzz/targets.h"
#include "libs/sql/storage_failed.h"
#include "libs/values/assert.h"
#include "libs/values/sha256.h"
#include "src/service/open_shop.h"
#include "src/storage/copied_database.h"
#include "src/storage/copying.h"
#include "src/storage/open_store.h"

namespace hw::fuzz {
namespace {

namespace fs = std::filesystem;

void write_file(const fs::path& file, std::string_view bytes) {
  std::ofstream(file, std::ios::binary).write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

// A database that a copy was made of, and what the copy's head says of it.
struct Original {
  std::string bytes;
  copies::CopyHead head;
};

const Original& original() {
  static const Original made = [] {
    const SmallShop shop;
    const fs::path snapshot = shop.folder() / "snapshot.db";
    HW_ASSERT(storage::take_snapshot({shop.folder()}, snapshot), "a snapshot can be taken");
    std::ostringstream bytes;
    bytes << std::ifstream(snapshot, std::ios::binary).rdbuf();
    const auto content = storage::read_content(snapshot);
    HW_ASSERT(content, "a snapshot can be read");
    copies::CopyHead head;
    head.schema = content->schema;
    head.plant = content->plant;
    head.entries = content->logbook.entries;
    head.head = content->logbook.head;
    return Original{bytes.str(), head};
  }();
  return made;
}

std::string damaged(std::string bytes, std::string_view damage) {
  for (; damage.size() >= 4; damage.remove_prefix(4)) {
    const auto number = [&](std::size_t at) { return std::size_t{static_cast<unsigned char>(damage[at])}; };
    bytes[(number(0) | number(1) << 8U | number(2) << 16U) % bytes.size()] = damage[3];
  }
  return bytes;
}

void write_copy_of_damaged(const fs::path& folder, std::string_view damage) {
  const fs::path database = folder / "damaged.db";
  write_file(database, damaged(original().bytes, damage));
  copies::CopyHead head = original().head;
  const auto described = storage::describe_file(database, "hourwright.db");
  HW_ASSERT(described, "a file that was just written can be read");
  head.files = {*described};
  auto out = formats::NewFile::begin(folder / "shop.copy");
  HW_ASSERT(out && storage::write_copy(*out, head, {database}) && out->close() && out->keep(), "a copy can be written");
  fs::remove(database);
}

void write_input(const fs::path& folder, char form, std::string_view input) {
  if (form == 'd') return write_copy_of_damaged(folder, input);
  const std::string seal = form == 's' ? print_hex(sha256(input)) + "\n" : "";
  write_file(folder / "shop.copy", std::string(input) + seal);
}

void expect_nothing_but_the_copy(const fs::path& folder) {
  for (const auto& one : fs::directory_iterator(folder)) {
    HW_ASSERT(one.path().filename() == "shop.copy", "a copy that was refused leaves nothing");
  }
}

void expect_whole(const fs::path& data, const copies::CopyHead& head) {
  for (const copies::CopiedFile& file : head.files) {
    HW_ASSERT(fs::file_size(data / file.name) == file.bytes, "a copy is restored whole");
  }
}

void open_restored(const fs::path& data) try {
  const auto store = storage::open_store(data);
  if (store) service::OpenShop::open(**store);
} catch (const sql::StorageFailed&) {  // a damaged page, where a refusal has nobody to go to
}

}  // namespace

void copy_file(std::string_view input) {
  if (input.empty()) return;
  const sql::TestFolder folder;
  const fs::path file = folder.path() / "shop.copy";
  const fs::path data = folder.path() / "data";
  write_input(folder.path(), input.front(), input.substr(1));
  const auto checked = storage::check_copy(file);
  expect_nothing_but_the_copy(folder.path());
  const auto restored = storage::restore_copy(file, data);
  HW_ASSERT(checked.has_value() == restored.has_value(), "a copy that is found good can be restored, and no other");
  if (!restored) return expect_nothing_but_the_copy(folder.path());
  expect_whole(data, restored->copy);
  open_restored(data);
}

}  // namespace hw::fuzz
