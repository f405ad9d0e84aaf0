// Every kept input through its target. What once ended the program lies among them under a name that says what it was.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "fuzz/targets.h"
#include "tests/places/places.h"

namespace hw::fuzz {
namespace {

const std::filesystem::path corpus = in_source("fuzz/corpus");

std::string bytes_of(const std::filesystem::path& file) {
  std::ostringstream out;
  out << std::ifstream(file, std::ios::binary).rdbuf();
  return out.str();
}

class Replay : public testing::TestWithParam<Target> {};

TEST_P(Replay, EveryKeptInputIsReadOrRefused) {
  int inputs = 0;
  for (const auto& file : std::filesystem::directory_iterator(corpus / GetParam().name)) {
    SCOPED_TRACE(file.path().string());
    GetParam().run(bytes_of(file.path()));
    ++inputs;
  }
  GetParam().run("");
  EXPECT_GT(inputs, 0);
}

INSTANTIATE_TEST_SUITE_P(Fuzz, Replay, testing::ValuesIn(targets().begin(), targets().end()),
                         [](const auto& target) { return std::string(target.param.name); });

TEST(Corpus, HasAFolderForEveryTargetAndNoOther) {
  for (const auto& folder : std::filesystem::directory_iterator(corpus)) {
    const std::string name = folder.path().filename();
    const auto is_it = [&](const Target& target) { return target.name == name; };
    EXPECT_TRUE(std::any_of(targets().begin(), targets().end(), is_it)) << name << " is no target's";
  }
}

}  // namespace
}  // namespace hw::fuzz
