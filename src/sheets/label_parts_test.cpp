#include "src/sheets/label_parts.h"

#include <gtest/gtest.h>

namespace hw::sheets {
namespace {

using formats::MmBox;

constexpr double rounding_mm = 1e-9;

bool overlap(const MmBox& a, const MmBox& b) {
  return a.left_mm < b.right_mm() - rounding_mm && b.left_mm < a.right_mm() - rounding_mm &&
         a.top_mm < b.bottom_mm() - rounding_mm && b.top_mm < a.bottom_mm() - rounding_mm;
}

TEST(LabelParts, NoPartTouchesAnotherOrTheEdgeOnLabelsOfAnyShape) {
  for (const double width_mm : {20.0, 40.0, 64.0, 105.0, 400.0}) {
    for (const double height_mm : {20.0, 29.0, 34.0, 50.0, 150.0, 400.0}) {
      const MmBox label{7, 12.5, width_mm, height_mm};
      const LabelParts parts = place_parts(label);
      const std::vector<MmBox> all{parts.qr,       parts.name.box, parts.key.box,
                                   parts.kind.box, parts.cell.box, parts.address.box};
      for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_GE(all[i].left_mm, label.left_mm + 1 - rounding_mm);
        EXPECT_GE(all[i].top_mm, label.top_mm + 1 - rounding_mm);
        EXPECT_LE(all[i].right_mm(), label.right_mm() - 1 + rounding_mm);
        EXPECT_LE(all[i].bottom_mm(), label.bottom_mm() - 1 + rounding_mm);
        EXPECT_GT(all[i].width_mm, 0);
        EXPECT_GT(all[i].height_mm, 0);
        for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(overlap(all[i], all[j])) << width_mm << " " << height_mm;
      }
      EXPECT_DOUBLE_EQ(parts.qr.width_mm, parts.qr.height_mm);
    }
  }
}

TEST(LabelParts, TheWordsStandBesideTheCodeOrBelowItWhereTheLabelIsTall) {
  const LabelParts wide = place_parts({0, 0, 64, 34});
  EXPECT_GE(wide.name.box.left_mm, wide.qr.right_mm());
  const LabelParts tall = place_parts({0, 0, 50, 80});
  EXPECT_GE(tall.name.box.top_mm, tall.qr.bottom_mm());
  EXPECT_DOUBLE_EQ(tall.qr.left_mm + tall.qr.width_mm / 2, 25);
}

// 64 x 34 mm: 1.36 mm all round, 2 lines of 2.38 mm letters for the address.
TEST(LabelParts, TheStandardLabelsCodeIsAsLargeAsTheHeightAllows) {
  const LabelParts parts = place_parts({0, 0, 64, 34});
  EXPECT_NEAR(parts.qr.left_mm, 1.36, 1e-9);
  EXPECT_NEAR(parts.address.box.height_mm, 2 * 1.25 * 2.38, 1e-9);
  EXPECT_NEAR(parts.qr.width_mm, 34 - 2 * 1.36 - 2 * 1.25 * 2.38, 1e-9);
}

}  // namespace
}  // namespace hw::sheets
