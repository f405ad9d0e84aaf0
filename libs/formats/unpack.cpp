// gzip (RFC 1952) by zlib, xz by liblzma, recognised by the first bytes: 1f 8b; fd 37 7a 58 5a 00.

#include <algorithm>
#include <new>
#include <vector>

#include <lzma.h>
#include <zlib.h>

#include "libs/formats/byte_source.h"
#include "libs/values/assert.h"

namespace hw::formats {
namespace {

constexpr std::size_t input_bytes = 128 << 10;
constexpr std::uint64_t xz_memory_max = 256 << 20;  // xz -9 asks for 65 MiB to unpack
constexpr std::string_view gzip_magic("\x1f\x8b", 2);
constexpr std::string_view xz_magic("\xfd\x37\x7a\x58\x5a\x00", 6);

// What is read but not yet used of a source whose first bytes were looked at.
class Input {
 public:
  explicit Input(std::unique_ptr<ByteSource> source) : source_(std::move(source)), buffer_(input_bytes) {}

  // Reads until at least so many bytes lie here, or the source ends.
  Result<void> want(std::size_t bytes) {
    while (!is_ended_ && end_ - begin_ < bytes) {
      if (begin_ == end_) begin_ = end_ = 0;
      const auto got = source_->read(std::span(buffer_).subspan(end_));
      if (!got) return refuse(got.error());
      end_ += *got;
      is_ended_ = *got == 0;
    }
    return {};
  }
  std::string_view bytes() const { return {buffer_.data() + begin_, end_ - begin_}; }
  void use(std::size_t count) {
    begin_ += count;
    offset_ += count;
  }
  bool is_ended() const { return is_ended_; }
  std::uint64_t offset() const { return offset_; }  // of the first unused byte in the source
  ByteSource& source() { return *source_; }
  const std::string& name() const { return source_->name(); }

 private:
  std::unique_ptr<ByteSource> source_;
  std::vector<char> buffer_;
  std::size_t begin_ = 0;
  std::size_t end_ = 0;
  std::uint64_t offset_ = 0;
  bool is_ended_ = false;
};

class PlainSource : public ByteSource {
 public:
  explicit PlainSource(Input input) : input_(std::move(input)) {}

  Result<std::size_t> read(std::span<char> into) override {
    if (input_.bytes().empty()) return input_.source().read(into);
    const std::size_t length = std::min(into.size(), input_.bytes().size());
    std::copy_n(input_.bytes().data(), length, into.data());
    input_.use(length);
    return length;
  }
  const std::string& name() const override { return input_.name(); }

 private:
  Input input_;
};

class GzipSource : public ByteSource {
 public:
  explicit GzipSource(Input input) : input_(std::move(input)) {
    constexpr int gzip_only = 16;
    const int status = inflateInit2(&stream_, MAX_WBITS + gzip_only);
    if (status == Z_MEM_ERROR) throw std::bad_alloc();
    HW_ASSERT(status == Z_OK, "zlib starts");
  }
  GzipSource(const GzipSource&) = delete;
  ~GzipSource() override { inflateEnd(&stream_); }

  Result<std::size_t> read(std::span<char> into) override {
    HW_ASSERT(!into.empty(), "there is room to read into");
    while (!is_done_) {
      if (auto more = input_.want(1); !more) return refuse(more.error());
      if (input_.bytes().empty()) {
        return refuse(ErrorCode::bad_input, "{}: cut off: the gzip data ends at byte {} in the middle of a member",
                      name(), input_.offset());
      }
      auto got = inflate_into(into);
      if (!got || *got > 0) return got;
    }
    return 0;
  }
  const std::string& name() const override { return input_.name(); }

 private:
  Result<std::size_t> inflate_into(std::span<char> into) {
    const std::string_view bytes = input_.bytes();
    const std::size_t room = std::min(into.size(), std::size_t{1} << 30);
    stream_.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
    stream_.avail_in = static_cast<uInt>(bytes.size());
    stream_.next_out = reinterpret_cast<Bytef*>(into.data());
    stream_.avail_out = static_cast<uInt>(room);
    const int status = inflate(&stream_, Z_NO_FLUSH);
    if (status == Z_MEM_ERROR) throw std::bad_alloc();
    input_.use(bytes.size() - stream_.avail_in);
    if (status == Z_STREAM_END) {
      if (auto next = begin_next_member(); !next) return refuse(next.error());
    } else if (status != Z_OK && status != Z_BUF_ERROR) {
      return refuse(ErrorCode::bad_input, "{}: damaged: the gzip data is wrong at byte {} ({})", name(),
                    input_.offset(), stream_.msg == nullptr ? "unknown" : stream_.msg);
    }
    return room - stream_.avail_out;
  }

  Result<void> begin_next_member() {
    if (auto more = input_.want(gzip_magic.size()); !more) return more;
    is_done_ = input_.bytes().empty();
    if (is_done_) return {};
    if (!input_.bytes().starts_with(gzip_magic)) {
      return refuse(ErrorCode::bad_input, "{}: damaged: after the gzip data follows something else at byte {}", name(),
                    input_.offset());
    }
    HW_ASSERT(inflateReset(&stream_) == Z_OK, "zlib starts again");
    return {};
  }

  Input input_;
  z_stream stream_{};
  bool is_done_ = false;
};

class XzSource : public ByteSource {
 public:
  explicit XzSource(Input input) : input_(std::move(input)) {
    const lzma_ret status = lzma_stream_decoder(&stream_, xz_memory_max, LZMA_CONCATENATED);
    if (status == LZMA_MEM_ERROR) throw std::bad_alloc();
    HW_ASSERT(status == LZMA_OK, "liblzma starts");
  }
  XzSource(const XzSource&) = delete;
  ~XzSource() override { lzma_end(&stream_); }

  Result<std::size_t> read(std::span<char> into) override {
    HW_ASSERT(!into.empty(), "there is room to read into");
    while (!is_done_) {
      if (auto more = input_.want(1); !more) return refuse(more.error());
      auto got = decode_into(into);
      if (!got || *got > 0) return got;
    }
    return 0;
  }
  const std::string& name() const override { return input_.name(); }

 private:
  Result<std::size_t> decode_into(std::span<char> into) {
    const std::string_view bytes = input_.bytes();
    stream_.next_in = reinterpret_cast<const std::uint8_t*>(bytes.data());
    stream_.avail_in = bytes.size();
    stream_.next_out = reinterpret_cast<std::uint8_t*>(into.data());
    stream_.avail_out = into.size();
    const lzma_ret status = lzma_code(&stream_, input_.is_ended() ? LZMA_FINISH : LZMA_RUN);
    if (status == LZMA_MEM_ERROR) throw std::bad_alloc();
    input_.use(bytes.size() - stream_.avail_in);
    is_done_ = status == LZMA_STREAM_END;
    if (status != LZMA_OK && !is_done_) return refuse(trouble(status));
    return into.size() - stream_.avail_out;
  }

  Error trouble(lzma_ret status) const {
    const auto say = [this](ErrorCode code, std::string_view what) {
      return Error{code, fmt::format("{}: {} at byte {}", name(), what, input_.offset())};
    };
    if (status == LZMA_BUF_ERROR) return say(ErrorCode::bad_input, "cut off: the xz data ends in the middle");
    if (status == LZMA_OPTIONS_ERROR) return say(ErrorCode::unsupported, "xz data of a kind that is not known here");
    if (status == LZMA_MEMLIMIT_ERROR) return say(ErrorCode::too_large, "xz data that needs over 256 MiB to unpack");
    HW_ASSERT(status == LZMA_DATA_ERROR || status == LZMA_FORMAT_ERROR, "liblzma is used as it is meant");
    return say(ErrorCode::bad_input, "damaged: the xz data is wrong");
  }

  Input input_;
  lzma_stream stream_ = LZMA_STREAM_INIT;
  bool is_done_ = false;
};

class LimitedSource : public ByteSource {
 public:
  LimitedSource(std::unique_ptr<ByteSource> source, std::uint64_t bytes_max)
      : source_(std::move(source)), left_(bytes_max), bytes_max_(bytes_max) {}

  Result<std::size_t> read(std::span<char> into) override {
    auto got = source_->read(into);
    if (!got) return got;
    if (*got > left_) return refuse(ErrorCode::too_large, "{}: longer than {} bytes, unpacked", name(), bytes_max_);
    left_ -= *got;
    return got;
  }
  const std::string& name() const override { return source_->name(); }

 private:
  std::unique_ptr<ByteSource> source_;
  std::uint64_t left_;
  std::uint64_t bytes_max_;
};

std::unique_ptr<ByteSource> unpack_by_magic(Input input) {
  if (input.bytes().starts_with(gzip_magic)) return std::make_unique<GzipSource>(std::move(input));
  if (input.bytes().starts_with(xz_magic)) return std::make_unique<XzSource>(std::move(input));
  return std::make_unique<PlainSource>(std::move(input));
}

}  // namespace

Result<std::unique_ptr<ByteSource>> unpacked(std::unique_ptr<ByteSource> packed, std::uint64_t bytes_max) {
  Input input(std::move(packed));
  if (auto looked = input.want(xz_magic.size()); !looked) return refuse(looked.error());
  auto source = unpack_by_magic(std::move(input));
  if (bytes_max == no_byte_limit) return source;
  return std::make_unique<LimitedSource>(std::move(source), bytes_max);
}

}  // namespace hw::formats
