#include "src/web/join_views.h"

#include <cstdio>

#include <gtest/gtest.h>

namespace hw::web {
namespace {

// The modules that an SVG path of runs covers.
std::vector<std::pair<int, int>> modules_of(std::string_view path) {
  std::vector<std::pair<int, int>> modules;
  for (std::size_t at = 0; at < path.size(); at = path.find('z', at) + 1) {
    int column = 0, row = 0, length = 0, back = 0;
    EXPECT_EQ(std::sscanf(std::string{path.substr(at)}.c_str(), "M%d %dh%dv1h-%dz", &column, &row, &length, &back), 4);
    EXPECT_EQ(length, back);
    for (int i = 0; i < length; ++i) modules.emplace_back(row, column + i);
  }
  return modules;
}

TEST(JoinViews, ThePathOfACodeCoversItsDarkModulesAndNoOthers) {
  const auto code = *formats::encode_qr("http://shop.example:8470/join?code=K7RW3DXM", formats::QrLevel::medium);
  const QrView view = view_of(code);
  EXPECT_EQ(view.side, code.side_modules());
  const auto modules = modules_of(view.path);
  std::size_t dark = 0;
  for (int row = 0; row < view.side; ++row) {
    for (int column = 0; column < view.side; ++column) dark += code.is_dark(row, column);
  }
  EXPECT_EQ(modules.size(), dark);
  for (const auto& [row, column] : modules) EXPECT_TRUE(code.is_dark(row, column)) << row << " " << column;
}

TEST(JoinViews, TheCodesAddressIsWhereADeviceBegins) {
  Reach reach({*certificates::parse_host_name("shop.example")});
  reach.set_lines({8470, 0});
  const auto view = join_code_view({"id", "K7RW3DXM", "Ada", Instant{7}, {}}, reach);
  ASSERT_TRUE(view);
  EXPECT_EQ(view->address, "http://shop.example:8470/join?code=K7RW3DXM");
  EXPECT_EQ(view->valid_until, Instant{7});
}

TEST(JoinViews, AnAuthorityIsToldOnlyWhereItIsTheServersOwn) {
  Reach reach({});
  EXPECT_FALSE(authority_view(reach));
  certificates::Served served;
  reach.set_served(served);
  EXPECT_FALSE(authority_view(reach));
  served.authority = certificates::Certificate{};
  served.authority->title = "ours";
  reach.set_served(served);
  EXPECT_EQ(authority_view(reach)->title, "ours");
}

}  // namespace
}  // namespace hw::web
