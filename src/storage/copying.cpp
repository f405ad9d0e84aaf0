#include "src/storage/copying.h"

#include "libs/certificates/tls_folder.h"
#include "libs/formats/new_file.h"
#include "libs/sql/folder.h"
#include "src/service/version.h"
#include "src/storage/copied_database.h"
#include "src/storage/copy_file.h"
#include "src/storage/open_store.h"
#include "src/storage/work_folder.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;
using copies::CopyHead;
using copies::CopyReport;

constexpr std::uint64_t spare_bytes = 16'000'000;

fs::path database_of(const fs::path& folder) { return folder / database_file; }

std::uint64_t file_bytes(const fs::path& file) {
  std::error_code error;
  const std::uint64_t bytes = fs::file_size(file, error);
  return error ? 0 : bytes;
}

fs::path folder_of(const fs::path& file) { return fs::absolute(file).parent_path(); }

// The files that go into a copy, the database's snapshot first.
struct Chosen {
  CopyHead head;
  std::vector<fs::path> files;
};

Result<void> choose(Chosen& chosen, const fs::path& file, std::string name) {
  HW_TAKE(described, describe_file(file, std::move(name)));
  chosen.head.files.push_back(std::move(described));
  chosen.files.push_back(file);
  return {};
}

Result<Chosen> choose_all(const fs::path& data, const fs::path& snapshot, Instant now) {
  Chosen chosen;
  HW_TAKE(content, read_content(snapshot));
  chosen.head = {content.schema,
                 service::program_version,
                 content.plant,
                 now,
                 content.logbook.entries,
                 content.logbook.head,
                 static_cast<int>(content.logbook.breaks.size()),
                 {}};
  HW_TRY(choose(chosen, snapshot, database_file));
  const certificates::TlsFolder tls{data / "tls"};
  std::error_code error;
  for (const fs::path& file : {tls.authority_file(), tls.server_file()}) {
    if (fs::is_regular_file(file, error)) HW_TRY(choose(chosen, file, "tls/" + file.filename().string()));
  }
  return chosen;
}

// The database holds what the head says, as the database itself and the logbook's chain say.
Result<void> check_unpacked(const fs::path& folder, const CopyHead& head) {
  HW_TRY(check_integrity(database_of(folder)));
  HW_TAKE(content, read_content(database_of(folder)));
  const bool is_the_same = content.schema == head.schema && content.logbook.entries == head.entries &&
                           content.logbook.head == head.head &&
                           static_cast<int>(content.logbook.breaks.size()) == head.breaks;
  if (is_the_same) return {};
  return refuse(ErrorCode::corrupt, "its database is not what its head says: {} entries to {}, not {} to {}",
                content.logbook.entries, content.logbook.head, head.entries, head.head);
}

Result<void> check_version(const CopyHead& head) {
  if (head.schema <= known_schema()) return {};
  return refuse(ErrorCode::unsupported,
                "it was made by a newer version of this program ({}, tables of version {}; this one knows up to {}): "
                "use that version",
                head.program, head.schema, known_schema());
}

std::uint64_t unpacked_bytes(const CopyHead& head) {
  std::uint64_t bytes = spare_bytes;
  for (const auto& file : head.files) bytes += file.bytes;
  return bytes;
}

// Unpacks a copy into a folder and checks it there.
Result<CopyHead> unpack_checked(const fs::path& file, const fs::path& folder) {
  HW_TAKE(head, check_seal(file));
  if (auto known = check_version(head); !known) return refuse(known.error().at(file.string()));
  HW_TRY(check_room(folder, unpacked_bytes(head), "unpacking the copy"));
  HW_TRY(unpack_copy(file, folder));
  if (auto checked = check_unpacked(folder, head); !checked) return refuse(checked.error().at(file.string()));
  return std::move(head);
}

Result<WorkFolder> work_for(const fs::path& file) {
  auto work = WorkFolder::make(work_beside(file));
  if (work) return work;
  std::error_code error;
  return WorkFolder::make(work_beside(fs::temp_directory_path(error) / file.filename()));
}

}  // namespace

Result<CopyReport> make_copy(const fs::path& data, const fs::path& file, Instant now) {
  HW_TRY(find_store(data));
  HW_TAKE(place, place_of(data));
  HW_TAKE(out, formats::NewFile::begin(file));
  const fs::path database = database_of(data);
  const std::uint64_t bytes = file_bytes(database) + file_bytes(database.string() + "-wal");
  HW_TRY(check_room(folder_of(file), 2 * bytes + spare_bytes, "a copy"));
  {
    HW_TAKE(work, WorkFolder::make(work_beside(file)));
    const fs::path snapshot = work.path() / "snapshot.db";
    HW_TRY(take_snapshot(place, snapshot));
    HW_TAKE(chosen, choose_all(data, snapshot, now));
    HW_TRY(write_copy(out, chosen.head, chosen.files));
  }
  HW_TRY(out.close());
  HW_TAKE(checked, check_copy(out.path()));
  HW_TRY(out.keep());
  return CopyReport{file.string(), checked.bytes, std::move(checked.copy)};
}

Result<CopyReport> check_copy(const fs::path& file) {
  HW_TRY(read_copy_head(file));  // before any work: is it a copy at all?
  HW_TAKE(work, work_for(file));
  HW_TAKE(head, unpack_checked(file, work.path()));
  return CopyReport{file.string(), file_bytes(file), std::move(head)};
}

Result<CopyReport> restore_copy(const fs::path& file, const fs::path& data) {
  HW_TRY(check_is_new(data));
  HW_TRY(read_copy_head(file));
  HW_TAKE(work, WorkFolder::make(work_beside(data)));
  HW_TRY(sql::check_local_file_system(work.path()));
  HW_TAKE(head, unpack_checked(file, work.path()));
  std::error_code error;
  fs::rename(work.path(), data, error);  // also over an empty folder
  if (error) {
    return refuse(ErrorCode::disk_full,
                  "{}: the copy was unpacked and is good, but cannot take this place: {}; name a "
                  "folder that is not there yet",
                  data.string(), error.message());
  }
  work.release();
  HW_TRY(formats::settle_folder(folder_of(data)));
  return CopyReport{file.string(), file_bytes(file), std::move(head)};
}

}  // namespace hw::storage
