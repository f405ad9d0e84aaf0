#include "libs/formats/gzip_writer.h"

#include <zlib.h>

#include "libs/values/assert.h"

namespace hw::formats {
namespace {

constexpr std::size_t packed_bytes = 128 << 10;
constexpr std::size_t piece_bytes_max = 1 << 30;  // zlib counts a piece in 32 bits
constexpr int gzip_level = 6;                     // zlib's own choice between time and size
constexpr int gzip_form = 16;
constexpr int gzip_memory_level = 8;

}  // namespace

void GzipWriter::Close::operator()(z_stream_s* stream) const {
  deflateEnd(stream);
  delete stream;
}

GzipWriter::GzipWriter(Take take) : take_(std::move(take)), stream_(new z_stream_s{}), out_(packed_bytes, '\0') {
  const int status =
      deflateInit2(stream_.get(), gzip_level, Z_DEFLATED, MAX_WBITS + gzip_form, gzip_memory_level, Z_DEFAULT_STRATEGY);
  HW_ASSERT(status == Z_OK, "zlib starts");
}

Result<void> GzipWriter::pack(std::string_view bytes, int flush) {
  stream_->next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
  stream_->avail_in = static_cast<uInt>(bytes.size());
  do {
    stream_->next_out = reinterpret_cast<Bytef*>(out_.data());
    stream_->avail_out = static_cast<uInt>(out_.size());
    const int status = deflate(stream_.get(), flush);
    HW_ASSERT(status != Z_STREAM_ERROR, "zlib packs what it is given");
    HW_TRY(take_(std::string_view(out_).substr(0, out_.size() - stream_->avail_out)));
  } while (stream_->avail_out == 0);
  return {};
}

Result<void> GzipWriter::add(std::string_view bytes) {
  for (; !bytes.empty(); bytes.remove_prefix(std::min(bytes.size(), piece_bytes_max))) {
    HW_TRY(pack(bytes.substr(0, piece_bytes_max), Z_NO_FLUSH));
  }
  return {};
}

Result<void> GzipWriter::end() { return pack({}, Z_FINISH); }

}  // namespace hw::formats
