#include "src/feeds/file_run.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include "src/feeds/device_model.h"
#include "tests/places/places.h"

namespace hw::feeds {
namespace {

const std::string recordings = in_source("tests/recordings/");

// Documents of one agent with one machine: one execution observation for each sequence.
struct Doc {
  std::uint64_t instance = 1;
  std::uint64_t first = 1;
  std::vector<std::uint64_t> sequences;
  std::uint64_t next = 0;
  std::string created = "2026-03-02T06:00:00Z";
};

std::string print_document(const Doc& doc) {
  std::string text = fmt::format(
      R"(<MTConnectStreams><Header instanceId="{}" firstSequence="{}" nextSequence="{}" creationTime="{}"/><Streams>
      <DeviceStream name="mill" uuid="u"><ComponentStream component="Path"><Events>)",
      doc.instance, doc.first, doc.next, doc.created);
  for (const std::uint64_t n : doc.sequences) {
    text +=
        fmt::format(R"(<Execution dataItemId="ex" timestamp="2026-03-02T05:{:02}:{:02}Z" sequence="{}">{}</Execution>)",
                    n / 60 % 60, n % 60, n, n % 2 == 0 ? "ACTIVE" : "READY");
  }
  return text + "</Events></ComponentStream></DeviceStream></Streams></MTConnectStreams>";
}

class FileRunTest : public testing::Test {
 protected:
  void SetUp() override { std::filesystem::create_directories(folder); }
  void TearDown() override { std::filesystem::remove_all(folder); }

  std::string file(const std::string& name, std::string_view text) {
    std::ofstream(folder / name, std::ios::binary) << text;
    return (folder / name).string();
  }
  std::string file(const std::string& name, const Doc& doc) { return file(name, print_document(doc)); }
  Result<FileRun> read(const std::vector<std::string>& files, const FileRunSettings& settings = {}) const {
    return read_files(files, machines, settings);
  }
  std::string refusal(const std::vector<std::string>& files, const FileRunSettings& settings = {}) const {
    const auto run = read(files, settings);
    EXPECT_FALSE(run.has_value());
    return run ? "" : run.error().message;
  }
  // The seconds of the observations in order of arrival, and the gaps.
  static std::string order(const FileRun& run) {
    std::string text;
    for (const auto& observation : run.machines.at(0).observations) {
      text += fmt::format("{} ", observation.at.ns / 1'000'000'000 % 3600);
    }
    for (const Gap& gap : run.machines.at(0).gaps)
      text += fmt::format("gap {}-{} ", gap.sequence_begin, gap.sequence_end);
    return text;
  }

  std::filesystem::path folder =
      std::filesystem::temp_directory_path() /
      fmt::format("hw_file_run_{}", testing::UnitTest::GetInstance()->random_seed() + ::getpid());
  std::vector<counters::MachineModel> machines =
      read_devices(R"(<MTConnectDevices><Header/><Devices><Device id="d" name="mill" uuid="u"><DataItems>
      <DataItem id="ex" name="exec" category="EVENT" type="EXECUTION"/></DataItems></Device></Devices></MTConnectDevices>)")
          ->machines;
};

TEST_F(FileRunTest, ChainInAnyOrderOfFilesIsOneStream) {
  const std::string a = file("a.xml", Doc{.sequences = {3, 1, 2}, .next = 4});
  const std::string b = file("b.xml", Doc{.sequences = {4, 5}, .next = 6});
  const std::string c = file("c.xml", Doc{.sequences = {7, 6}, .next = 8});
  for (const auto& files : {std::vector{a, b, c}, std::vector{c, a, b}, std::vector{b, c, a}}) {
    const auto run = read(files);
    ASSERT_TRUE(run.has_value());
    EXPECT_EQ(order(*run), "1 2 3 4 5 6 7 ");
  }
}

// Trap 11 of mtconnect.md and convention 3 of counting.md.
TEST_F(FileRunTest, DocumentAskedTwiceCountsOnce) {
  const std::string a = file("a.xml", Doc{.sequences = {1, 2, 3}, .next = 4});
  const std::string b = file("b.xml", Doc{.sequences = {3, 4, 5}, .next = 6});
  const auto run = read({a, b, a});
  ASSERT_TRUE(run.has_value());
  EXPECT_EQ(order(*run), "1 2 3 4 5 ");
  EXPECT_EQ(run->observations, 9U);
}

// Trap 12 of mtconnect.md.
TEST_F(FileRunTest, DocumentThatStartsPastTheNextSequenceIsAGap) {
  const std::string a = file("a.xml", Doc{.sequences = {1, 2, 3}, .next = 4});
  const std::string b = file("b.xml", Doc{.sequences = {9, 10}, .next = 11});
  const auto run = read({b, a});
  ASSERT_TRUE(run.has_value());
  EXPECT_EQ(order(*run), "1 2 3 9 10 gap 4-9 ");
  EXPECT_EQ(print(run->machines[0].gaps[0].from.value()), "2026-03-02T05:00:03Z");
  EXPECT_EQ(print(run->machines[0].gaps[0].to.value()), "2026-03-02T05:00:09Z");
}

TEST_F(FileRunTest, HolesOfAFilteredStreamAreNoGaps) {
  const std::string a = file("a.xml", Doc{.sequences = {1, 5}, .next = 9});
  const std::string b = file("b.xml", Doc{.sequences = {12, 15}, .next = 20});
  EXPECT_EQ(order(*read({a, b})), "1 5 12 15 ");
  const std::string c = file("c.xml", Doc{.first = 30, .sequences = {33}, .next = 40});
  EXPECT_EQ(order(*read({a, b, c})), "1 5 12 15 33 gap 20-30 ");
}

// Trap 10 of mtconnect.md: a `current` tells old values again.
TEST_F(FileRunTest, CurrentBetweenSamplesAddsNothingTwiceAndHidesNoGap) {
  const std::string a = file("a.xml", Doc{.sequences = {1, 2, 3}, .next = 4});
  const std::string current = file("c.xml", Doc{.sequences = {2, 8}, .next = 9});
  const std::string b = file("b.xml", Doc{.sequences = {4, 5, 6, 7, 8}, .next = 9});
  EXPECT_EQ(order(*read({a, current, b})), "1 2 3 4 5 6 7 8 ");
  const std::string d = file("d.xml", Doc{.sequences = {9, 10}, .next = 11});
  EXPECT_EQ(order(*read({a, current, d})), "1 2 3 8 9 10 gap 4-9 ");
  EXPECT_EQ(order(*read({current, d})), "2 8 9 10 ");
}

TEST_F(FileRunTest, AnotherInstanceIsARestart) {
  const std::string a =
      file("a.xml", Doc{.instance = 7, .sequences = {1, 2}, .next = 3, .created = "2026-03-02T06:00:00Z"});
  const std::string b =
      file("b.xml", Doc{.instance = 5, .sequences = {1, 2}, .next = 3, .created = "2026-03-02T08:00:00Z"});
  const auto run = read({b, a});
  ASSERT_TRUE(run.has_value());
  EXPECT_EQ(run->machines[0].observations.size(), 4U);
  ASSERT_EQ(run->machines[0].restarts.size(), 1U);
  EXPECT_EQ(run->machines[0].restarts[0].instance_before, 7U);
  EXPECT_EQ(run->machines[0].restarts[0].instance_after, 5U);
  EXPECT_EQ(print(run->machines[0].restarts[0].at.value()), "2026-03-02T08:00:00Z");
  EXPECT_TRUE(run->machines[0].gaps.empty());
}

TEST_F(FileRunTest, RecordedResponseIsReadPartByPart) {
  const std::string one = print_document({.sequences = {1, 2}, .next = 3}),
                    two = print_document({.sequences = {}, .next = 3});
  const std::string error =
      R"(<MTConnectError><Header instanceId="1"/><Errors><Error errorCode="OUT_OF_RANGE">gone</Error>
      </Errors></MTConnectError>)";
  const auto part = [](const std::string& body) {
    return fmt::format("--b1\r\nContent-type: text/xml\r\nContent-length: {}\r\n\r\n{}\r\n", body.size(), body);
  };
  const std::string parts = part(one) + part(two) + part(print_document({.sequences = {3}, .next = 4}));
  const std::string head = "HTTP/1.1 200 OK\r\nContent-Type: multipart/x-mixed-replace;boundary=b1\r\n\r\n";
  EXPECT_EQ(order(*read({file("a.http", head + parts)})), "1 2 3 ");
  EXPECT_EQ(order(*read({file("b.http", parts)})), "1 2 3 ");
  const auto with_error = read({file("c.http", head + parts + part(error))});
  ASSERT_TRUE(with_error.has_value());
  EXPECT_EQ(order(*with_error), "1 2 3 ");
  ASSERT_EQ(with_error->notes.size(), 1U);
  EXPECT_NE(with_error->notes[0].text.find("OUT_OF_RANGE: gone"), std::string::npos);
}

TEST_F(FileRunTest, RecordingThatWasBrokenOffKeepsItsWholeParts) {
  const std::string body = print_document({.sequences = {1, 2}, .next = 3});
  const std::string part =
      fmt::format("--b1\r\nContent-type: text/xml\r\nContent-length: {}\r\n\r\n{}\r\n", body.size(), body);
  const auto run = read({file("a.http", part + part.substr(0, part.size() / 2))});
  ASSERT_TRUE(run.has_value()) << run.error().message;
  EXPECT_EQ(order(*run), "1 2 ");
  EXPECT_EQ(run->notes.size(), 1U);
  EXPECT_FALSE(read({file("b.http", part.substr(0, part.size() / 2))}).has_value());
}

TEST_F(FileRunTest, LogsAreReadInOrderOfTimeWhateverTheirOrder) {
  const std::string day_1 = file("1.shdr", "2026-03-02T05:00:01Z|exec|ACTIVE\n2026-03-02T05:00:05Z|exec|UNAVAILABLE\n");
  const std::string day_2 = file("2.log", "2026-03-02T05:00:09Z|exec|READY\nbad\n");
  const auto run = read({day_2, day_1});
  ASSERT_TRUE(run.has_value());
  EXPECT_EQ(order(*run), "1 5 9 ");
  EXPECT_EQ(run->bad_lines, 1U);
  EXPECT_EQ(run->observations, 3U);
}

TEST_F(FileRunTest, RecordedDocumentsFollowEachOtherWithoutAGap) {
  const auto models = read_devices_file(recordings + "feeds_devices.xml")->machines;
  const std::vector<std::string> files = {recordings + "feeds_streams_2.xml", recordings + "feeds_streams_1.xml"};
  const auto run = read_files(files, models, {});
  ASSERT_TRUE(run.has_value()) << run.error().message;
  EXPECT_EQ(run->observations, 250U);
  EXPECT_EQ(run->bad_lines, 0U);
  EXPECT_TRUE(run->machines[0].gaps.empty());
  EXPECT_TRUE(run->machines[0].restarts.empty());
}

// Trap 2 of mtconnect.md: the agent's own UNAVAILABLEs, four months later, stand where the agent saw them.
TEST_F(FileRunTest, RecordedReplayKeepsTheAgentsOwnUnavailablesInItsOrder) {
  const auto models = read_devices_file(recordings + "feeds_devices.xml")->machines;
  const std::vector<std::string> files = {recordings + "feeds_streams_1.xml", recordings + "feeds_streams_2.xml"};
  const auto run = read_files(files, models, {});
  ASSERT_TRUE(run.has_value());
  const auto& observations = run->machines[0].observations;
  const Instant replayed_at = parse_instant("2016-09-28T00:00:00Z").value();
  const auto is_replays = [&](const auto& observation) { return observation.at > replayed_at; };
  const auto first = std::find_if(observations.begin(), observations.end(), is_replays);
  ASSERT_NE(first, observations.end());
  EXPECT_TRUE(std::any_of(first, observations.end(), [&](const auto& o) { return !is_replays(o); }));
  EXPECT_TRUE(std::all_of(observations.begin(), observations.end(),
                          [&](const auto& o) { return !is_replays(o) || counters::is_unknown(o.value); }));
}

TEST_F(FileRunTest, RecordedLogAndDocumentsOfTheSameTimeSayTheSame) {
  const auto models = read_devices_file(recordings + "feeds_devices.xml")->machines;
  const auto said = [&](const std::vector<std::string>& files) {
    const auto run = read_files(files, models, {});
    std::vector<std::string> lines;
    const Instant begin = parse_instant("2016-05-23T13:23:10Z").value(),
                  end = parse_instant("2016-05-23T13:23:46Z").value();
    for (const auto& o : run.value().machines[0].observations) {
      if (o.at >= begin && o.at < end) lines.push_back(fmt::format("{} {} {}", o.at.ns, o.item, o.value));
    }
    std::sort(lines.begin(), lines.end());
    return lines;
  };
  const auto from_log = said({recordings + "feeds_lathe-l.shdr"});
  EXPECT_GT(from_log.size(), 100U);
  EXPECT_EQ(from_log, said({recordings + "feeds_streams_1.xml", recordings + "feeds_streams_2.xml"}));
}

TEST_F(FileRunTest, OnlyTheDeviceThatWasAskedForIsRead) {
  machines.push_back(machines[0]);
  machines[1].name = "lathe";
  machines[1].uuid = "u2";
  const std::string log = file("a.shdr", "2026-03-02T05:00:01Z|exec|ACTIVE|mill:exec|READY\n");
  const auto run = read({log}, {.device = "lathe", .aliases = {}});
  ASSERT_TRUE(run.has_value());
  EXPECT_TRUE(run->machines[0].observations.empty());
  EXPECT_EQ(run->machines[1].observations.size(), 1U);
  const std::string bare = file("b.shdr", "2026-03-02T05:00:01Z|exec|ACTIVE\n");
  EXPECT_NE(refusal({bare}).find("name one with --device: mill, lathe"), std::string::npos);
  EXPECT_NE(refusal({bare}, {.device = "saw", .aliases = {}}).find("no device \"saw\""), std::string::npos);
}

TEST_F(FileRunTest, OddWordsAreNotedOnceAndAliasesMakeThemKnown) {
  const std::string log = file("a.shdr", "2026-03-02T05:00:01Z|exec|EXECUTING\n2026-03-02T05:00:02Z|exec|EXECUTING\n");
  const auto run = read({log});
  ASSERT_TRUE(run.has_value());
  ASSERT_EQ(run->notes.size(), 1U);
  EXPECT_EQ(run->notes[0].machine, "mill");
  const auto aliased = read({log}, {.device = "", .aliases = {{"EXECUTING", "ACTIVE"}}});
  EXPECT_TRUE(aliased->notes.empty());
  EXPECT_EQ(aliased->machines[0].observations[0].value, 1.0);
}

TEST_F(FileRunTest, RefusalsNameFileAndPlace) {
  EXPECT_NE(refusal({"/nowhere/a.xml"}).find("/nowhere/a.xml"), std::string::npos);
  EXPECT_NE(
      refusal({file("cut.xml", print_document({.sequences = {}, .next = 3}).substr(0, 150))}).find("cut.xml, line 2"),
      std::string::npos);
  EXPECT_NE(refusal({file("a.json", "{\"a\": 1}\n")}).find("a.json: neither a Streams document"), std::string::npos);
  EXPECT_NE(refusal({file("b.gz", "\x1f\x8b\x08 damaged")}).find("b.gz"), std::string::npos);
  EXPECT_NE(refusal({recordings + "feeds_devices.xml"}).find("MTConnectDevices"), std::string::npos);
  EXPECT_NE(refusal({file("e.http", "HTTP/1.1 404 Not Found\r\nContent-Length: 0\r\n\r\n")}).find("e.http"),
            std::string::npos);
}

TEST_F(FileRunTest, EmptyFileIsNoted) {
  const auto run = read({file("empty.shdr", "")});
  ASSERT_TRUE(run.has_value());
  ASSERT_EQ(run->notes.size(), 1U);
  EXPECT_NE(run->notes[0].text.find("empty.shdr is empty"), std::string::npos);
}

}  // namespace
}  // namespace hw::feeds
