#pragma once
// A disk in memory: files by name, a record of what was done to them, and operations that fail when they are told to.
// For one thread.

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hw::power {

// What lies on a disk: bytes by the name of the file.
using Image = std::map<std::string, std::string>;

// One change of a disk, or a moment from which earlier ones are safe. A file is known by the number that it got when it
// was made: another file of the same name has another.
struct Operation {
  enum class Kind { make, remove, write, truncate, sync, sync_folder };
  Kind kind;
  int file = 0;            // none for sync_folder
  std::string name = {};   // make
  std::size_t offset = 0;  // write: of the first byte; truncate: the length from then on
  std::string bytes = {};  // write
};

// What can fail.
enum class Access { open, read, write, truncate, sync };
inline constexpr std::array<Access, 5> accesses{Access::open, Access::read, Access::write, Access::truncate,
                                                Access::sync};
std::string_view print(Access access);

enum class Failing { once, for_ever };
enum class Failure { broken, full };  // an input/output error; no room

struct Fault {
  Access access = Access::write;
  int number = 1;  // which of its kind, from 1, counted from fail()
  Failing failing = Failing::once;
  Failure failure = Failure::broken;
};

struct File {
  int number = 0;  // 0: it has no name, and nothing of it is recorded
  std::string bytes;
};

class Disk {
 public:
  explicit Disk(const Image& image = {});

  // The file; made where it is missing and `makes`; null: it is not there.
  std::shared_ptr<File> open(const std::string& name, bool makes);
  bool has(const std::string& name) const { return files_.contains(name); }
  void remove(const std::string& name);  // it has to be there
  void write(File& file, std::size_t offset, std::string_view bytes);
  void truncate(File& file, std::size_t length);
  void sync(const File& file);
  void sync_folder();

  Image image() const;
  // The files at the time of the call have the numbers 1, 2, ... in the order of their names.
  void begin_record();
  const std::vector<Operation>& record() const { return record_; }

  // From now on. Nothing: everything works again.
  void fail(std::optional<Fault> fault);
  // Called before each access: how it has to fail; counts it.
  std::optional<Failure> meet(Access access);
  // How many there were of a kind since fail().
  int met(Access access) const { return met_[static_cast<std::size_t>(access)]; }
  bool has_failed() const { return has_failed_; }

 private:
  void note(Operation operation);

  std::map<std::string, std::shared_ptr<File>> files_;
  int files_made_ = 0;
  bool is_recording_ = false;
  std::vector<Operation> record_;
  std::optional<Fault> fault_;
  std::array<int, accesses.size()> met_{};
  bool has_failed_ = false;
};

}  // namespace hw::power
