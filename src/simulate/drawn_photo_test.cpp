#include "src/simulate/drawn_photo.h"

#include <gtest/gtest.h>

#include "libs/values/sha256.h"
#include "src/service/photo_type.h"

namespace hw::simulate {
namespace {

// The outside judge is Python's zlib (3.11), where the file stands:
//   python3 -c "import zlib,struct; f=b'\0\x10\x20\0\x30\x40'; c=lambda t,b: struct.pack('>I',len(b))+t+b+
//   struct.pack('>I',zlib.crc32(t+b)); print((b'\x89PNG\r\n\x1a\n'+c(b'IHDR',struct.pack('>IIBBBBB',2,2,8,0,0,0,0))+
//   c(b'IDAT',zlib.compress(f,0))+c(b'IEND',b'')).hex())"
TEST(DrawnPhoto, MatchesPublished_PythonZlib) {
  const std::string png = print_png({2, 2, {0x10, 0x20, 0x30, 0x40}});
  std::string hex;
  for (const char byte : png) {
    constexpr const char* digits = "0123456789abcdef";
    hex += digits[static_cast<unsigned char>(byte) >> 4];
    hex += digits[static_cast<unsigned char>(byte) & 15];
  }
  EXPECT_EQ(hex,
            "89504e470d0a1a0a0000000d494844520000000200000002080000000057dd52f800000011494441547801010600f9ff0010200030"
            "40017600a19f7086e40000000049454e44ae426082");
}

TEST(DrawnPhoto, IsAPhotoThatIsKeptAndTheSameEveryTime) {
  const std::string png = print_png(draw_leak());
  EXPECT_EQ(service::photo_type_of(png), "image/png");
  EXPECT_LT(png.size(), 20'000u);
  EXPECT_EQ(print_hex(sha256(png)), print_hex(sha256(print_png(draw_leak()))));
}

}  // namespace
}  // namespace hw::simulate
