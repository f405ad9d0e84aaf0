// Each target over each small kept input, with each of its requests for memory refused in turn: it ends with
// std::bad_alloc or as it would have ended, never with another refusal, a crash, or memory that is not given back.

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <new>
#include <sstream>

#include <gtest/gtest.h>

#include "fuzz/failing_memory.h"
#include "fuzz/targets.h"
#include "tests/places/places.h"

namespace hw::fuzz {
namespace {

constexpr std::size_t input_bytes_max = 4096;

// How many of an input's requests are refused, spread evenly over them; HOURWRIGHT_REFUSALS=100000 refuses each.
std::uint64_t refusals_max() {
  const char* said = std::getenv("HOURWRIGHT_REFUSALS");
  return said == nullptr ? 40 : std::strtoull(said, nullptr, 10);
}

std::vector<std::filesystem::path> small_inputs(std::string_view target) {
  std::vector<std::filesystem::path> inputs;
  for (const auto& file :
       std::filesystem::directory_iterator(std::filesystem::path(in_source("fuzz/corpus")) / target)) {
    if (file.file_size() <= input_bytes_max) inputs.push_back(file.path());
  }
  std::sort(inputs.begin(), inputs.end());
  return inputs;
}

// How many requests it made; `held` is what it did not give back.
std::uint64_t run(const Target& target, std::string_view input, std::uint64_t fails_at, RunsOut how,
                  std::int64_t& held) {
  const std::int64_t before = pieces_held();
  std::uint64_t requests = 0;
  {
    const FailingMemory memory(fails_at, how);
    try {
      target.run(input);
    } catch (const std::bad_alloc&) {
    }
    requests = memory.requests();
  }
  held = pieces_held() - before;
  return requests;
}

// What such a run loses each time. What it holds only once is the C library's, which keeps its time zone and had given
// it back in the run before.
std::int64_t lost(const Target& target, std::string_view input, std::uint64_t fails_at, RunsOut how) {
  std::int64_t held = 0;
  for (int times = 0; times < 3; ++times) {
    run(target, input, fails_at, how, held);
    if (held <= 0) return 0;
  }
  return held;
}

// libzip 1.7.3 loses one piece of its own where it runs out of memory while it opens a file of an archive.
std::int64_t lost_by_libraries(std::string_view target) {
  return target == "sheet" || target == "workbook_parts" ? 1 : 0;
}

class OutOfMemory : public testing::TestWithParam<Target> {};

TEST_P(OutOfMemory, EndsCleanlyWhereverMemoryRunsOut) {
  std::int64_t held = 0;
  for (const auto& file : small_inputs(GetParam().name)) {
    std::ostringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    const std::string input = text.str();
    run(GetParam(), input, 0, RunsOut::once, held);  // what is made once and stays
    const std::uint64_t requests = run(GetParam(), input, 0, RunsOut::once, held);
    ASSERT_EQ(held, 0) << file;
    const std::uint64_t step = std::max<std::uint64_t>(1, requests / refusals_max());
    for (std::uint64_t fails_at = 1; fails_at <= requests; fails_at += step) {
      for (const RunsOut how : {RunsOut::once, RunsOut::for_good}) {
        ASSERT_LE(lost(GetParam(), input, fails_at, how), lost_by_libraries(GetParam().name))
            << file << ": lost where request " << fails_at << " of " << requests << " fails";
      }
    }
  }
}

std::vector<Target> readers_only() {
  std::vector<Target> chosen(targets().begin(), targets().end());
  const auto is_none = [](const Target& target) {
    return target.name == "outbox"          // its shop stays
           || target.name == "copy_file"    // so does its original, and it asserts that two readings agree
           || target.name == "shop_files";  // toml++ ends the program; it reads before anything is kept
  };
  std::erase_if(chosen, is_none);
  return chosen;
}

INSTANTIATE_TEST_SUITE_P(Fuzz, OutOfMemory, testing::ValuesIn(readers_only()),
                         [](const auto& target) { return std::string(target.param.name); });

}  // namespace
}  // namespace hw::fuzz
