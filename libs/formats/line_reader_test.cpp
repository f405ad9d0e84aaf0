#include "libs/formats/line_reader.h"

#include <random>
#include <vector>

#include <gtest/gtest.h>

namespace hw::formats {
namespace {

// Gives a few bytes at a time, as many as the seed says.
class Bitwise : public ByteSource {
 public:
  Bitwise(std::string_view text, unsigned seed) : left_(text), random_(seed) {}
  Result<std::size_t> read(std::span<char> into) override {
    const std::size_t length = std::min({left_.size(), into.size(), std::size_t{1} + random_() % 7});
    left_.copy(into.data(), length);
    left_.remove_prefix(length);
    return length;
  }
  const std::string& name() const override { return name_; }

 private:
  std::string_view left_;
  std::mt19937 random_;
  std::string name_ = "bits";
};

class Broken : public ByteSource {
 public:
  Result<std::size_t> read(std::span<char> into) override {
    if (std::exchange(is_read_, true)) return refuse(ErrorCode::bad_input, "the cable is out");
    return std::string_view("one\ntw").copy(into.data(), into.size());
  }
  const std::string& name() const override { return name_; }

 private:
  std::string name_ = "broken";
  bool is_read_ = false;
};

std::vector<std::string> all_lines(LineReader& lines) {
  std::vector<std::string> all;
  for (std::string_view line; lines.next(line);) all.emplace_back(line);
  return all;
}

TEST(LineReader, LfAndCrlfAreCutAndTheLastLineNeedsNoEnding) {
  const std::vector<std::pair<std::string, std::vector<std::string>>> cases = {
      {"", {}},
      {"\n", {""}},
      {"a", {"a"}},
      {"a\n", {"a"}},
      {"a\r\nb\n\nc", {"a", "b", "", "c"}},
      {"\r\n\r\n", {"", ""}},
      {"a\rb\n", {"a\rb"}},
      {"end\r", {"end\r"}},
  };
  for (const auto& [text, expected] : cases) {
    LineReader over_memory(text);
    EXPECT_EQ(all_lines(over_memory), expected) << text;
    EXPECT_EQ(over_memory.line_number(), expected.size());
    Bitwise source(text, 1);
    LineReader over_source(source);
    EXPECT_EQ(all_lines(over_source), expected) << text;
    EXPECT_TRUE(over_source.outcome().has_value());
  }
}

TEST(LineReader, LinesAcrossBlocksComeWhole) {
  std::mt19937 random(20260302);
  std::string text;
  std::vector<std::string> expected;
  for (int i = 0; i < 3000; ++i) {
    expected.emplace_back(random() % (i % 100 == 0 ? 200'000 : 300), static_cast<char>('a' + i % 26));
    text += expected.back() + (i % 3 == 0 ? "\r\n" : "\n");
  }
  auto source = memory_source(text);
  LineReader lines(*source);
  EXPECT_TRUE(all_lines(lines) == expected);
  Bitwise slow(text, 7);
  LineReader slow_lines(slow);
  EXPECT_TRUE(all_lines(slow_lines) == expected);
}

TEST(LineReader, OverMemoryNothingIsCopied) {
  const std::string text = "first\nsecond\n";
  LineReader lines(text);
  std::string_view line;
  ASSERT_TRUE(lines.next(line));
  EXPECT_EQ(line.data(), text.data());
}

TEST(LineReader, ALineBeyondTheLimitIsRefusedByItsNumber) {
  const std::string text = "short\n" + std::string(11, 'x') + "\nshort\n";
  for (const bool with_end : {true, false}) {
    auto source = memory_source(std::string_view(text).substr(0, with_end ? text.size() : 17), "log");
    LineReader lines(*source, 10);
    EXPECT_EQ(all_lines(lines), std::vector<std::string>{"short"});
    ASSERT_FALSE(lines.outcome().has_value());
    EXPECT_EQ(lines.outcome().error(), (Error{ErrorCode::too_large, "log, line 2: longer than 10 bytes"}));
    std::string_view line;
    EXPECT_FALSE(lines.next(line));
  }
  LineReader exact(std::string_view("0123456789\n"), 10);
  EXPECT_EQ(all_lines(exact), std::vector<std::string>{"0123456789"});
}

TEST(LineReader, AnEndlessLineIsRefusedInBoundedMemory) {
  class Endless : public ByteSource {
   public:
    Result<std::size_t> read(std::span<char> into) override {
      std::fill(into.begin(), into.end(), 'x');
      given += into.size();
      return into.size();
    }
    const std::string& name() const override { return name_; }
    std::size_t given = 0;

   private:
    std::string name_ = "endless";
  } source;
  LineReader lines(source);
  std::string_view line;
  EXPECT_FALSE(lines.next(line));
  EXPECT_EQ(lines.outcome().error().code, ErrorCode::too_large);
  EXPECT_LT(source.given, 8U << 20);
}

TEST(LineReader, AFailingSourceIsTheOutcomeAndItsHalfLineIsNotGiven) {
  Broken source;
  LineReader lines(source);
  EXPECT_EQ(all_lines(lines), std::vector<std::string>{"one"});
  ASSERT_FALSE(lines.outcome().has_value());
  EXPECT_EQ(lines.outcome().error().message, "the cable is out");
}

}  // namespace
}  // namespace hw::formats
