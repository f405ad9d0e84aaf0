#include "src/service/isolation_text.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

catalogue::Isolation both_lists() {
  using catalogue::EnergySource;
  return {{{"main-switch", "Main switch", "Hauptschalter", EnergySource::electrical, "There", "Dort", "Off.", "Aus.", 9,
            15.0},
           {"prop", "Prop", "Stütze", EnergySource::gravity, "There", "Dort", "In.", "Hinein.", {}, {}}},
          {{EnergySource::spring, "Springs", "Federn", "Leave.", "Lassen.", "Closed.", "Zu.", {}}}};
}

TEST(IsolationText, ReadsBackAsItWasWritten) {
  const auto isolation = both_lists();
  const auto back = isolation_of(text_of(isolation));
  ASSERT_TRUE(back.has_value()) << back.error().message;
  EXPECT_EQ(*back, isolation);
}

TEST(IsolationText, WhatCannotBeIsRefusedByItsPlaceAndField) {
  auto text = text_of(both_lists());
  text.points[1].energy = "weight";
  EXPECT_NE(isolation_of(text).error().message.find("points[1]"), std::string::npos);
  text = text_of(both_lists());
  text.stored[0].verify_de = "";
  const auto refused = isolation_of(text);
  EXPECT_NE(refused.error().message.find("stored[0]"), std::string::npos);
  EXPECT_NE(refused.error().message.find("verify_de"), std::string::npos);
}

}  // namespace
}  // namespace hw::service
