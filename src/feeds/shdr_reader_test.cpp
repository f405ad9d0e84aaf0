#include "src/feeds/shdr_reader.h"

#include <random>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "src/feeds/device_model.h"

namespace hw::feeds {
namespace {

using counters::is_unknown;

constexpr std::string_view model_text = R"(<MTConnectDevices><Header/><Devices>
  <Device id="d" name="mill" uuid="u1"><DataItems>
    <DataItem id="av" name="avail" category="EVENT" type="AVAILABILITY"/>
    <DataItem id="ex" name="exec" category="EVENT" type="EXECUTION"><Source>plc.state</Source></DataItem>
    <DataItem id="sp" name="Srpm" category="SAMPLE" type="ROTARY_VELOCITY" units="REVOLUTION/MINUTE"/>
    <DataItem id="fe" name="Fact" category="SAMPLE" type="PATH_FEEDRATE" units="MILLIMETER/SECOND"
      nativeUnits="MILLIMETER/MINUTE"/>
    <DataItem id="pr" name="prog" category="EVENT" type="PROGRAM"/>
    <DataItem id="ti" name="cut" category="SAMPLE" type="ACCUMULATED_TIME" units="SECOND"><ResetTrigger>DAY</ResetTrigger>
    </DataItem>
    <DataItem id="pp" name="pos" category="SAMPLE" type="PATH_POSITION" units="MILLIMETER_3D"/>
    <DataItem id="co" name="cond" category="CONDITION" type="SYSTEM"/>
    <DataItem id="me" name="msg" category="EVENT" type="MESSAGE"/>
    <DataItem id="ts" name="vib" category="SAMPLE" type="ACCELERATION" representation="TIME_SERIES"/>
    <DataItem id="ds" name="vars" category="EVENT" type="VARIABLE" representation="DATA_SET"/>
    <DataItem id="ac" name="asset_chg" category="EVENT" type="ASSET_CHANGED"/>
    <DataItem id="al" name="alarm" category="EVENT" type="ALARM"/>
  </DataItems></Device>
  <Device id="e" name="lathe" uuid="u2"><DataItems>
    <DataItem id="ex" name="exec" category="EVENT" type="EXECUTION"/></DataItems></Device>
</Devices></MTConnectDevices>)";

struct HeardLines : ShdrSink {
  explicit HeardLines(const std::vector<counters::MachineModel>& models) : machines(models) {}
  void observation(const Arrival& a) override {
    arrivals.push_back(a);
    const bool is_word = machines[a.machine].items[a.item].role == counters::Role::execution;
    const double shown = is_word && a.value < 0 ? 0 : a.value;  // words that are not ACTIVE have values below 0
    said += fmt::format("{}{}={}{} ", a.machine == 0 ? "" : machines[a.machine].name + ":",
                        machines[a.machine].items[a.item].label(),
                        is_unknown(a.value) ? "?" : fmt::format("{:g}", shown), a.reset ? "!" : "");
  }
  void odd_word(std::uint32_t, std::uint32_t, std::string_view word) override { odd.emplace_back(word); }
  void unknown_key(std::string_view key) override { unknown.emplace_back(key); }
  void bad_line(std::uint64_t line, std::string_view) override { bad.push_back(line); }
  std::string take() { return std::exchange(said, {}); }

  const std::vector<counters::MachineModel>& machines;
  std::vector<Arrival> arrivals;
  std::string said;
  std::vector<std::string> odd, unknown;
  std::vector<std::uint64_t> bad;
};

class ShdrReaderTest : public testing::Test {
 protected:
  std::vector<counters::MachineModel> machines = read_devices(model_text)->machines;
  ItemIndex index{machines};
  Vocabulary words;
  HeardLines heard{machines};
  ShdrReader reader{index, words, heard, 0};

  // What the pairs of one line bring, "Srpm=1200 exec=1 ".
  std::string said(std::string_view pairs) {
    reader.line(fmt::format("2026-03-02T05:00:00Z|{}", pairs));
    return heard.take();
  }
};

TEST_F(ShdrReaderTest, OneLineMayHaveManyPairs) {
  EXPECT_EQ(said("Srpm|1200|exec|ACTIVE|prog|O1234|avail|AVAILABLE"), "Srpm=1200 exec=1 avail=1 ");
  EXPECT_EQ(reader.observations(), 4U);
}

TEST_F(ShdrReaderTest, KeysAreNamesIdsOrSources) {
  EXPECT_EQ(said("ex|ACTIVE|plc.state|READY|exec|STOPPED"), "exec=1 exec=0 exec=0 ");
}

TEST_F(ShdrReaderTest, DevicePrefixSelectsTheMachine) {
  EXPECT_EQ(said("lathe:exec|ACTIVE|mill:exec|READY|u2:exec|READY"), "lathe:exec=1 exec=0 lathe:exec=0 ");
  EXPECT_EQ(said("nobody:exec|ACTIVE|Srpm|1"), "Srpm=1 ");
  EXPECT_EQ(heard.unknown, std::vector<std::string>{"nobody:exec"});
}

TEST_F(ShdrReaderTest, BlanksAndCarriageReturnsAreCut) {
  reader.line(" 2026-03-02T05:00:00Z | Srpm | 1200 |exec| ACTIVE\r");
  EXPECT_EQ(heard.take(), "Srpm=1200 exec=1 ");
}

TEST_F(ShdrReaderTest, QuotedValuesMayHoldEscapedPipes) {
  EXPECT_EQ(said(R"(prog|"a \| b \| c"|Srpm|5)"), "Srpm=5 ");
  EXPECT_EQ(said(R"(Srpm|"7"|exec|"ACTIVE")"), "Srpm=7 exec=1 ");
  EXPECT_EQ(said(R"(prog|"not closed|Srpm|5)"), "Srpm=5 ");
  EXPECT_EQ(said(R"(prog|"closed" early|Srpm|6)"), "Srpm=6 ");
  EXPECT_EQ(said(R"(Srpm|")"), "Srpm=? ");
}

TEST_F(ShdrReaderTest, FieldsBehindAKeyFollowItsItem) {
  EXPECT_EQ(said("cond|FAULT|101|1|HIGH|text|Srpm|1"), "Srpm=1 ");
  EXPECT_EQ(said("cond|Unavailable|||||Srpm|2"), "Srpm=2 ");
  EXPECT_EQ(said("msg|CODE|a text|Srpm|3"), "Srpm=3 ");
  EXPECT_EQ(said("vib|3|100|1 2 3|Srpm|4"), "Srpm=4 ");
  EXPECT_EQ(said("asset_chg|CuttingTool|T1|Srpm|5"), "Srpm=5 ");
  EXPECT_EQ(said("alarm|C|N|S|ACTIVE|text|Srpm|6"), "Srpm=6 ");
  EXPECT_EQ(said("vars|a=1 b=2 c=|Srpm|7"), "Srpm=7 ");
}

// Trap 20 of mtconnect.md: five fields, empty ones included, or the parser loses step.
TEST_F(ShdrReaderTest, ConditionsWithUnknownKeysAreSkippedWhole) {
  EXPECT_EQ(said("new_cond|WARNING|101||HIGH|Srpm|Srpm|8"), "Srpm=8 ");
  EXPECT_EQ(said("new_cond|Unavailable|||||Srpm|9"), "Srpm=9 ");
  EXPECT_EQ(said("new_key|UNAVAILABLE|Srpm|10"), "Srpm=10 ");
  EXPECT_EQ(said("new_key|5|Srpm|11"), "Srpm=11 ");
  EXPECT_EQ(said("new_cond|NORMAL|||"), "");
  EXPECT_EQ(heard.unknown, (std::vector<std::string>{"new_cond", "new_key"}));
}

TEST_F(ShdrReaderTest, DurationIsDropped) {
  reader.line("2026-03-02T05:00:00.5Z@12.25|Srpm|3");
  ASSERT_EQ(heard.arrivals.size(), 1U);
  EXPECT_EQ(print(heard.arrivals[0].at), "2026-03-02T05:00:00.5Z");
}

TEST_F(ShdrReaderTest, LineWithoutTimeIsBadInAFileAndOfItsArrivalLive) {
  reader.line("Srpm|5");
  reader.line("|Srpm|5");
  EXPECT_EQ(heard.bad, (std::vector<std::uint64_t>{1, 2}));
  const Instant now = parse_instant("2026-03-02T06:00:00Z").value();
  reader.line("Srpm|5|exec|ACTIVE", now);
  reader.line("|Srpm|6", now);
  ASSERT_EQ(heard.arrivals.size(), 3U);
  EXPECT_EQ(heard.arrivals[0].at, now);
  EXPECT_EQ(heard.take(), "Srpm=5 exec=1 Srpm=6 ");
}

TEST_F(ShdrReaderTest, TimeThatCannotBeIsBadEvenLive) {
  reader.line("2026-02-30T05:00:00Z|Srpm|5", Instant{1});
  reader.line("2026-03-02T25:00:00Z|Srpm|5", Instant{1});
  EXPECT_EQ(heard.bad.size(), 2U);
  EXPECT_TRUE(heard.arrivals.empty());
}

TEST_F(ShdrReaderTest, RelativeTimesCountFromTheFirstLine) {
  reader.line("* relativeTime: yes");
  const Instant now = parse_instant("2026-03-02T06:00:00Z").value();
  reader.line("1000|Srpm|1", now);
  reader.line("3500|Srpm|2", now + Duration::seconds(60));
  ASSERT_EQ(heard.arrivals.size(), 2U);
  EXPECT_EQ(heard.arrivals[0].at, now);
  EXPECT_EQ(heard.arrivals[1].at, now + Duration::millis(2500));
}

TEST_F(ShdrReaderTest, NativeUnitsAreConvertedUnlessTheAdapterDoesIt) {
  EXPECT_EQ(said("Fact|600"), "Fact=10 ");
  reader.line("* conversionRequired: no");
  EXPECT_EQ(said("Fact|600"), "Fact=600 ");
  reader.line("* conversionRequired: yes");
  EXPECT_EQ(said("Fact|600"), "Fact=10 ");
}

TEST_F(ShdrReaderTest, ProtocolLinesAreNoData) {
  reader.line("* PING");
  reader.line("* PONG 10000");
  reader.line("* shdrVersion: 2");
  reader.line("*");
  EXPECT_EQ(reader.heartbeat(), Duration::seconds(10));
  reader.line("* device: lathe");
  EXPECT_EQ(said("exec|ACTIVE"), "lathe:exec=1 ");
  EXPECT_TRUE(heard.bad.empty());
}

TEST_F(ShdrReaderTest, AssetsArePassedOver) {
  reader.line("2026-03-02T05:00:00Z|@ASSET@|T1|CuttingTool|--multiline--ABC");
  reader.line("<CuttingTool a=\"2026-03-02T05:00:00Z|Srpm|1\">");
  reader.line("");
  reader.line("--multiline--ABC");
  EXPECT_EQ(said("Srpm|2"), "Srpm=2 ");
  EXPECT_EQ(said("@ASSET@|T1|CuttingTool|<x/>"), "");
  EXPECT_EQ(said("@REMOVE_ASSET@|T1"), "");
  EXPECT_EQ(said("Srpm|3"), "Srpm=3 ");
  EXPECT_TRUE(heard.bad.empty());
}

TEST_F(ShdrReaderTest, AssetWhoseEndIsLostDoesNotSwallowTheLog) {
  reader.line("2026-03-02T05:00:00Z|@ASSET@|T1|CuttingTool|--multiline--ABC");
  reader.line("<CuttingTool>");
  EXPECT_EQ(said("Srpm|2"), "Srpm=2 ");
}

TEST_F(ShdrReaderTest, ResetsAreKeptForItemsThatHaveATrigger) {
  EXPECT_EQ(said("cut|0:DAY"), "cut=0! ");
  EXPECT_EQ(said("cut|12.5"), "cut=12.5 ");
  EXPECT_EQ(said("Srpm|0:DAY"), "Srpm=? ");
}

TEST_F(ShdrReaderTest, UnavailableInAnyLetterCaseIsUnknown) {
  EXPECT_EQ(said("Srpm|unavailable|exec|Unavailable|pos|UNAVAILABLE"), "Srpm=? exec=? pos/x=? pos/y=? pos/z=? ");
  EXPECT_TRUE(heard.odd.empty());
}

// Trap 18 of mtconnect.md.
TEST_F(ShdrReaderTest, NotNumbersAreUnknownAndToldOnce) {
  EXPECT_EQ(said("cut|"), "cut=? ");
  EXPECT_EQ(said("cut|abc|Srpm|NaN"), "cut=? Srpm=? ");
  EXPECT_EQ(heard.odd, (std::vector<std::string>{"", "NaN"}));
}

TEST_F(ShdrReaderTest, PositionsComeApart) { EXPECT_EQ(said("pos|1 2.5 -3"), "pos/x=1 pos/y=2.5 pos/z=-3 "); }

// Trap 20: logs hold merge marks and cut last lines.
TEST_F(ShdrReaderTest, BadLinesAreCountedWithTheirNumbers) {
  reader.line("<<<<<<< HEAD");
  reader.line("2026-03-02T05:00:00Z|Srpm|1");
  reader.line("=======");
  reader.line("2026-03-02T05:00:00Z");
  reader.line("2026-03-02T05:00:00Z|Srpm");
  reader.line("2026-03-02T05:0");
  reader.line("");
  EXPECT_EQ(heard.bad, (std::vector<std::uint64_t>{1, 3, 4, 5, 6}));
  EXPECT_EQ(heard.take(), "Srpm=1 ");
}

// Trap 19 of mtconnect.md: names change; what the model lacks is told, not guessed.
TEST_F(ShdrReaderTest, KeysOfAnotherTimeAreToldOnce) {
  said("Program_Status|ACTIVE");
  said("Program_Status|READY");
  EXPECT_EQ(heard.unknown, std::vector<std::string>{"Program_Status"});
  EXPECT_TRUE(heard.arrivals.empty());
}

TEST_F(ShdrReaderTest, SurvivesAnyBytes) {
  const unsigned seed = 11;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  const std::string letters = "|||\"\\:*@ -=.0159TZSrpmexecos\r\t\xff<";
  for (int i = 0; i < 20000; ++i) {
    std::string line = random() % 2 == 0 ? "2026-03-02T05:00:00Z|" : "";
    const std::size_t size = random() % 40;
    for (std::size_t n = 0; n < size; ++n) line += letters[random() % letters.size()];
    reader.line(line, random() % 2 == 0 ? std::optional<Instant>(Instant{1}) : std::nullopt);
  }
  EXPECT_EQ(reader.lines(), 20000U);
}

}  // namespace
}  // namespace hw::feeds
