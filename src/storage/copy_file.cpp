#include "src/storage/copy_file.h"

#include <algorithm>
#include <functional>

#include "libs/formats/byte_source.h"
#include "libs/formats/gzip_writer.h"
#include "libs/values/sha256.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;
using copies::CopiedFile;
using copies::CopyHead;
using formats::ByteSource;

using TakeBlock = std::function<Result<void>(std::string_view)>;

constexpr std::size_t block_bytes = 256 << 10;

// So many bytes of the source, or fewer where it ends.
Result<std::uint64_t> read_blocks(ByteSource& source, std::uint64_t bytes, const TakeBlock& take) {
  std::string block(block_bytes, '\0');
  std::uint64_t left = bytes;
  while (left > 0) {
    HW_TAKE(got, source.read({block.data(), static_cast<std::size_t>(std::min<std::uint64_t>(left, block.size()))}));
    if (got == 0) break;
    left -= got;
    HW_TRY(take(std::string_view(block).substr(0, got)));
  }
  return bytes - left;
}

tl::unexpected<Error> refuse_altered(const fs::path& file) {
  return refuse(ErrorCode::corrupt, "{}: is not as it was written: it was altered, or it is cut off; take another copy",
                file.string());
}

// What stands between head and seal.
class BodySource : public ByteSource {
 public:
  BodySource(std::unique_ptr<ByteSource> whole, std::uint64_t bytes) : whole_(std::move(whole)), left_(bytes) {}
  Result<std::size_t> read(std::span<char> into) override {
    if (left_ == 0) return std::size_t{0};
    HW_TAKE(got, whole_->read(into.first(static_cast<std::size_t>(std::min<std::uint64_t>(left_, into.size())))));
    left_ -= got;
    return got;
  }
  const std::string& name() const override { return whole_->name(); }

 private:
  std::unique_ptr<ByteSource> whole_;
  std::uint64_t left_;
};

struct Parts {
  copies::HeadRead head;
  std::uint64_t body_bytes = 0;
};

Result<Parts> parts_of(const fs::path& file) {
  HW_TAKE(source, formats::open_file(file.string()));
  std::string begin;
  HW_TRY(read_blocks(*source, copies::head_bytes_max, [&](std::string_view block) -> Result<void> {
    begin += block;
    return {};
  }));
  auto head = copies::parse_head(begin);
  if (!head) return refuse(head.error().at(file.string()));
  std::error_code error;
  const std::uint64_t bytes = fs::file_size(file, error);
  if (error || bytes < head->bytes + copies::seal_bytes) return refuse_altered(file);
  return Parts{std::move(*head), bytes - head->bytes - copies::seal_bytes};
}

// The body's source, unpacked; limited to what the head says, so that a bomb bursts early.
Result<std::unique_ptr<ByteSource>> open_body(const fs::path& file, const Parts& parts) {
  std::uint64_t bytes = 0;
  for (const CopiedFile& one : parts.head.head.files) bytes += one.bytes;
  HW_TAKE(whole, formats::open_file(file.string()));
  HW_TRY(read_blocks(*whole, parts.head.bytes, [](std::string_view) -> Result<void> { return {}; }));
  return formats::unpacked(std::make_unique<BodySource>(std::move(whole), parts.body_bytes), bytes);
}

Result<void> unpack_file(ByteSource& body, const CopiedFile& file, const fs::path& folder) {
  HW_TAKE(out, formats::NewFile::begin(folder / file.name));
  Sha256Stream digest;
  HW_TAKE(bytes, read_blocks(body, file.bytes, [&](std::string_view block) {
            digest.add(block);
            return out.add(block);
          }));
  if (bytes != file.bytes || print_hex(digest.end()) != file.sha256) {
    return refuse(ErrorCode::corrupt, "what unpacks as {} is not what was packed", file.name);
  }
  HW_TRY(out.close());
  return out.keep();
}

}  // namespace

Result<CopiedFile> describe_file(const fs::path& file, std::string name) {
  HW_TAKE(source, formats::open_file(file.string()));
  Sha256Stream digest;
  HW_TAKE(bytes, read_blocks(*source, formats::no_byte_limit, [&](std::string_view block) -> Result<void> {
            digest.add(block);
            return {};
          }));
  return CopiedFile{std::move(name), bytes, print_hex(digest.end())};
}

Result<void> write_copy(formats::NewFile& out, const CopyHead& head, const std::vector<fs::path>& files) {
  Sha256Stream seal;
  const auto add = [&](std::string_view bytes) {
    seal.add(bytes);
    return out.add(bytes);
  };
  HW_TRY(add(copies::print_head(head)));
  formats::GzipWriter body(add);
  for (const fs::path& file : files) {
    HW_TAKE(source, formats::open_file(file.string()));
    HW_TRY(read_blocks(*source, formats::no_byte_limit, [&](std::string_view block) { return body.add(block); }));
  }
  HW_TRY(body.end());
  return out.add(print_hex(seal.end()) + "\n");
}

Result<CopyHead> read_copy_head(const fs::path& file) {
  HW_TAKE(parts, parts_of(file));
  return std::move(parts.head.head);
}

Result<CopyHead> check_seal(const fs::path& file) {
  HW_TAKE(parts, parts_of(file));
  HW_TAKE(source, formats::open_file(file.string()));
  Sha256Stream digest;
  HW_TRY(read_blocks(*source, parts.head.bytes + parts.body_bytes, [&](std::string_view block) -> Result<void> {
    digest.add(block);
    return {};
  }));
  HW_TAKE(seal, formats::read_all(*source, copies::seal_bytes));
  if (seal != print_hex(digest.end()) + "\n") return refuse_altered(file);
  return std::move(parts.head.head);
}

Result<void> unpack_copy(const fs::path& file, const fs::path& folder) {
  HW_TAKE(parts, parts_of(file));
  HW_TAKE(body, open_body(file, parts));
  for (const CopiedFile& one : parts.head.head.files) {
    const fs::path into = (folder / one.name).parent_path();
    std::error_code error;
    fs::create_directory(into, error);
    fs::permissions(into, fs::perms::owner_all, error);
    if (auto unpacked = unpack_file(*body, one, folder); !unpacked) return refuse(unpacked.error().at(file.string()));
  }
  HW_TAKE(more, formats::read_all(*body, 0));
  if (!more.empty()) return refuse_altered(file);
  return formats::settle_folder(folder);
}

}  // namespace hw::storage
