#include "src/terminal/share_folder.h"

#include <cstdlib>

#include <gtest/gtest.h>

#include "tests/places/places.h"

namespace hw::terminal {
namespace {

// Puts a variable of the environment back as it was.
class Environment : public testing::Test {
 protected:
  ~Environment() override { ::unsetenv("HOURWRIGHT_SHARE"); }
};

TEST_F(Environment, TheVariableNamesTheFolder) {
  ::setenv("HOURWRIGHT_SHARE", in_source().c_str(), 1);
  EXPECT_EQ(share_folder(), std::filesystem::path{in_source()});
}

TEST_F(Environment, AFolderWithoutTheLibraryIsRefusedByName) {
  ::setenv("HOURWRIGHT_SHARE", "/nowhere", 1);
  const auto folder = share_folder();
  ASSERT_FALSE(folder);
  EXPECT_EQ(folder.error().code, ErrorCode::not_found);
  EXPECT_NE(folder.error().message.find("/nowhere"), std::string::npos);
}

}  // namespace
}  // namespace hw::terminal
