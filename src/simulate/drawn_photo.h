#pragma once
// A small picture for the demo, drawn by rule: what stands in for a photo taken at a machine.

#include <cstdint>
#include <string>
#include <vector>

namespace hw::simulate {

// A picture in shades of grey, row by row from the top, one byte a dot: 0 is black.
struct GreyPicture {
  std::uint32_t width = 0;
  std::uint32_t height = 0;
  std::vector<std::uint8_t> dots;
};

// A tank's wall with a drop running down from its seam, and the puddle below.
GreyPicture draw_leak();

// The picture as PNG (W3C PNG, third edition): signature, IHDR, one IDAT of stored deflate blocks (RFC 1951, 3.2.4) in
// a zlib stream (RFC 1950), IEND.
std::string print_png(const GreyPicture& picture);

}  // namespace hw::simulate
