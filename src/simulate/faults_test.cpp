#include "src/simulate/faults.h"

#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

constexpr const char* document = "<?xml version=\"1.0\"?>\n<A><Header x=\"1\"/><B/></A>\n";

std::string drain(FaultyBytes& bytes) {
  std::string all;
  for (bool is_last = false; !is_last;) {
    is_last = bytes.closed();
    all += bytes.take();
  }
  return all;
}

TEST(Faults, NoneLeavesTheDocumentAsItIs) {
  FaultyBytes bytes(spoil(document, {}));
  EXPECT_EQ(drain(bytes), document);
}

TEST(Faults, HalfADocumentIsHalfADocument) {
  const FaultyBody body = spoil(document, {.breaks_off = true});
  EXPECT_TRUE(body.ends_connection);
  EXPECT_EQ(body.head, std::string(document).substr(0, std::string(document).size() / 2));
}

TEST(Faults, AGigabyteIsOneValueInManyPieces) {
  const FaultyBody body = spoil(document, {.says_gigabyte = true});
  EXPECT_EQ(body.filler.size() * body.fills, 1'000'000'000U);
  EXPECT_EQ(body.head, "<?xml version=\"1.0\"?>\n<A><Header x=\"1\"/><Extra>");
  EXPECT_EQ(body.tail, "</Extra><B/></A>\n");
}

TEST(Faults, FillersComeBetweenHeadAndTail) {
  FaultyBytes bytes({"a", "bc", 3, "d", false});
  EXPECT_EQ(drain(bytes), "abcbcbcd");
}

}  // namespace
}  // namespace hw::simulate
