#include "src/feeds/streams_reader.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "src/feeds/device_model.h"

namespace hw::feeds {
namespace {

using counters::is_unknown;

constexpr std::string_view two_devices_text = R"(<MTConnectDevices><Header/><Devices>
  <Device id="d" name="mill" uuid="u1"><DataItems>
    <DataItem id="av" name="avail" category="EVENT" type="AVAILABILITY"/>
    <DataItem id="ex" name="exec" category="EVENT" type="EXECUTION"/>
    <DataItem id="sp" name="Srpm" category="SAMPLE" type="ROTARY_VELOCITY" units="REVOLUTION/MINUTE"/>
    <DataItem id="pr" name="prog" category="EVENT" type="PROGRAM"/>
    <DataItem id="ti" name="auto" category="SAMPLE" type="EQUIPMENT_TIMER" subType="WORKING" units="SECOND"/>
    <DataItem id="pp" name="pos" category="SAMPLE" type="PATH_POSITION" units="MILLIMETER_3D"/>
    <DataItem id="co" name="cond" category="CONDITION" type="SYSTEM"/>
  </DataItems></Device>
  <Device id="e" name="lathe" uuid="u2"><DataItems>
    <DataItem id="ex" name="exec" category="EVENT" type="EXECUTION"/></DataItems></Device>
</Devices></MTConnectDevices>)";

struct HeardStreams : StreamsSink {
  Result<void> header(const StreamsHeader& h) override {
    head = h;
    return {};
  }
  void observation(const Arrival& arrival) override { arrivals.push_back(arrival); }
  void odd_word(std::uint32_t, std::uint32_t, std::string_view word) override { odd.emplace_back(word); }
  void unknown_item(std::string_view device, std::string_view id) override {
    unknown.push_back(fmt::format("{}/{}", device, id));
  }
  StreamsHeader head;
  std::vector<Arrival> arrivals;
  std::vector<std::string> odd, unknown;
};

class StreamsReaderTest : public testing::Test {
 protected:
  std::vector<counters::MachineModel> machines = read_devices(two_devices_text)->machines;
  ItemIndex index{machines};
  Vocabulary words;
  HeardStreams heard;
  StreamsReader reader{index, words, heard, "doc"};

  Result<void> read(std::string_view text, std::size_t piece = 1 << 20) {
    for (std::size_t at = 0; at < text.size(); at += piece) {
      if (auto fed = reader.feed(text.substr(at, piece)); !fed) return fed;
    }
    return reader.finish();
  }
  static std::string document(std::string_view observations, std::string_view version = "1.3",
                              std::string_view device = R"(name="mill" uuid="u1")") {
    return fmt::format(
        R"(<?xml version="1.0"?><MTConnectStreams xmlns="urn:mtconnect.org:MTConnectStreams:{}"><Header instanceId="42"
        firstSequence="1" lastSequence="9" nextSequence="10" bufferSize="100" version="x" creationTime="2026-03-02T06:00:00Z"
        deviceModelChangeTime="2026-01-01T00:00:00.5Z"/><Streams><DeviceStream {}><ComponentStream component="Path"
        componentId="p">{}</ComponentStream></DeviceStream></Streams></MTConnectStreams>)",
        version, device, observations);
  }
  static std::string item(std::string_view element, std::string_view id, std::string_view value,
                          std::string_view more = "", int sequence = 5) {
    return fmt::format(R"(<{0} dataItemId="{1}" timestamp="2026-03-02T05:00:00.25Z" sequence="{4}" {3}>{2}</{0}>)",
                       element, id, value, more, sequence);
  }
  double value_of(std::string_view element, std::string_view id, std::string_view value, std::string_view more = "") {
    const auto category = element == "Execution" || element == "Availability" ? "Events" : "Samples";
    reader.restart("doc");
    heard.arrivals.clear();
    const auto done = read(document(fmt::format("<{0}>{1}</{0}>", category, item(element, id, value, more))));
    EXPECT_TRUE(done.has_value()) << (done ? "" : done.error().message);
    EXPECT_EQ(heard.arrivals.size(), 1U);
    return heard.arrivals.empty() ? -1 : heard.arrivals[0].value;
  }
  std::string refusal(std::string_view text) {
    reader.restart("doc");
    const auto done = read(text);
    EXPECT_FALSE(done.has_value());
    return done ? "" : done.error().message;
  }
};

TEST_F(StreamsReaderTest, EveryVersionIsRead) {
  for (const char* version : {"1.0", "1.1", "1.2", "1.3", "1.4", "1.5", "1.6", "1.7", "1.8", "2.0", "2.1", "2.2", "2.3",
                              "2.4", "2.5", "2.6", "2.7"}) {
    reader.restart("doc");
    heard.arrivals.clear();
    ASSERT_TRUE(read(document("<Events>" + item("Execution", "ex", "ACTIVE") + "</Events>", version)).has_value());
    EXPECT_EQ(heard.head.version, version);
    ASSERT_EQ(heard.arrivals.size(), 1U) << version;
    EXPECT_EQ(heard.arrivals[0].value, 1.0);
  }
}

TEST_F(StreamsReaderTest, HeaderSaysWhereTheStreamStands) {
  ASSERT_TRUE(read(document("")).has_value());
  EXPECT_EQ(heard.head.instance_id, 42U);
  EXPECT_EQ(heard.head.first_sequence, 1U);
  EXPECT_EQ(heard.head.last_sequence, 9U);
  EXPECT_EQ(heard.head.next_sequence, 10U);
  EXPECT_EQ(heard.head.buffer_size, 100U);
  EXPECT_EQ(print(heard.head.creation_time.value()), "2026-03-02T06:00:00Z");
  EXPECT_EQ(heard.head.model_change_time, "2026-01-01T00:00:00.5Z");
}

TEST_F(StreamsReaderTest, AnyCutIntoPiecesGivesTheSame) {
  const std::string text =
      document("<Samples>" + item("RotaryVelocity", "sp", "1200.5") + item("SpindleSpeed", "sp", "7") +
               "</Samples><Condition>" + item("Normal", "co", "") + "</Condition>");
  for (std::size_t piece = 1; piece < 200; piece += 7) {
    reader.restart("doc");
    heard.arrivals.clear();
    ASSERT_TRUE(read(text, piece).has_value());
    ASSERT_EQ(heard.arrivals.size(), 2U);
    EXPECT_EQ(heard.arrivals[0].value, 1200.5);
    EXPECT_EQ(heard.arrivals[1].value, 7);
    EXPECT_EQ(reader.tally().observations, 3U);
  }
}

TEST_F(StreamsReaderTest, PrefixesBuildersElementsAndNoNamespaceAreReadAlike) {
  const std::string prefixed =
      R"(<m:MTConnectStreams xmlns:m="urn:mtconnect.org:MTConnectStreams:1.4" xmlns:x="urn:b:1"><m:Header instanceId="1"
      nextSequence="2"/><m:Streams><m:DeviceStream uuid="u1"><m:ComponentStream component="P"><m:Samples><x:Turning
      dataItemId="sp" timestamp="2026-03-02T05:00:00" sequence="1">3</x:Turning></m:Samples><x:Extra><x:More/></x:Extra>
      </m:ComponentStream></m:DeviceStream></m:Streams></m:MTConnectStreams>)";
  ASSERT_TRUE(read(prefixed).has_value());
  EXPECT_EQ(heard.head.version, "1.4");
  ASSERT_EQ(heard.arrivals.size(), 1U);
  EXPECT_EQ(heard.arrivals[0].value, 3.0);
  reader.restart("doc");
  ASSERT_TRUE(read(R"(<MTConnectStreams><Header instanceId="1" nextSequence="2" version="1.2.0.1"/><Streams/>
      </MTConnectStreams>)")
                  .has_value());
  EXPECT_EQ(heard.head.version, "1.2.0.1");
}

// Trap 18 of mtconnect.md: unknown, with a note, never an exception.
TEST_F(StreamsReaderTest, NotNumbersAreUnknown) {
  EXPECT_TRUE(is_unknown(value_of("RotaryVelocity", "sp", "UNAVAILABLE")));
  EXPECT_TRUE(is_unknown(value_of("RotaryVelocity", "sp", "unavailable")));
  EXPECT_TRUE(heard.odd.empty());
  EXPECT_TRUE(is_unknown(value_of("RotaryVelocity", "sp", "")));
  EXPECT_TRUE(is_unknown(value_of("RotaryVelocity", "sp", "fast")));
  EXPECT_EQ(heard.odd.size(), 1U) << "once an item, not once a value";
}

TEST_F(StreamsReaderTest, EmptyElementIsUnknown) {
  ASSERT_TRUE(read(document(R"(<Samples><RotaryVelocity dataItemId="sp" timestamp="2026-03-02T05:00:00Z" sequence="1"/>
      </Samples>)"))
                  .has_value());
  ASSERT_EQ(heard.arrivals.size(), 1U);
  EXPECT_TRUE(is_unknown(heard.arrivals[0].value));
}

TEST_F(StreamsReaderTest, InvalidQualityIsUnknownAndUnverifiableIsNot) {
  EXPECT_TRUE(is_unknown(value_of("RotaryVelocity", "sp", "5", R"(quality="INVALID")")));
  EXPECT_EQ(value_of("RotaryVelocity", "sp", "5", R"(quality="UNVERIFIABLE")"), 5.0);
}

TEST_F(StreamsReaderTest, OddExecutionWordIsToldOnceAndCountsAsNotActive) {
  EXPECT_LE(value_of("Execution", "ex", "EXECUTING"), 0.0);
  EXPECT_LE(value_of("Execution", "ex", "EXECUTING"), 0.0);
  EXPECT_EQ(heard.odd, std::vector<std::string>{"EXECUTING"});
}

TEST_F(StreamsReaderTest, ResetTriggeredIsKept) {
  value_of("EquipmentTimer", "ti", "0", R"(resetTriggered="DAY" duration="3" statistic="AVERAGE")");
  EXPECT_TRUE(heard.arrivals[0].reset);
}

TEST_F(StreamsReaderTest, DataSetsAndTablesDoNoHarmAndOfATimeSeriesTheLastNumberCounts) {
  const std::string text =
      document("<Samples>" + item("RotaryVelocityTimeSeries", "sp", "1 2 3.5", R"(sampleCount="3")") +
               item("RotaryVelocityDataSet", "sp", R"(<Entry key="a">1</Entry><Entry key="b">2</Entry>)") +
               item("RotaryVelocityTable", "sp", R"(<Entry key="r"><Cell key="c">9</Cell></Entry>)") + "</Samples>");
  ASSERT_TRUE(read(text).has_value());
  ASSERT_EQ(heard.arrivals.size(), 1U);
  EXPECT_EQ(heard.arrivals[0].value, 3.5);
}

TEST_F(StreamsReaderTest, PathPositionComesApart) {
  ASSERT_TRUE(read(document("<Samples>" + item("PathPosition", "pp", "1.5 -2 3") + "</Samples>")).has_value());
  ASSERT_EQ(heard.arrivals.size(), 3U);
  EXPECT_EQ(heard.arrivals[0].value, 1.5);
  EXPECT_EQ(heard.arrivals[1].value, -2);
  EXPECT_EQ(heard.arrivals[2].value, 3);
  EXPECT_EQ(machines[0].items[heard.arrivals[2].item].id, "pp/z");
  reader.restart("doc");
  heard.arrivals.clear();
  ASSERT_TRUE(read(document("<Samples>" + item("PathPosition", "pp", "UNAVAILABLE") + "</Samples>")).has_value());
  ASSERT_EQ(heard.arrivals.size(), 3U);
  EXPECT_TRUE(is_unknown(heard.arrivals[2].value));
}

TEST_F(StreamsReaderTest, DevicesAreMatchedByUuidThenNameNeverByItemName) {
  ASSERT_TRUE(
      read(document("<Events>" + item("Execution", "ex", "ACTIVE") + "</Events>", "1.3", R"(name="mill" uuid="u2")"))
          .has_value());
  EXPECT_EQ(heard.arrivals.at(0).machine, 1U);
  reader.restart("doc");
  ASSERT_TRUE(
      read(document("<Events>" + item("Execution", "exec", "ACTIVE", R"(name="exec")") + "</Events>")).has_value());
  EXPECT_EQ(heard.arrivals.size(), 1U);
  EXPECT_EQ(heard.unknown, std::vector<std::string>{"mill/exec"});
}

TEST_F(StreamsReaderTest, UnknownDeviceIsToldOnceButNotTheAgentItself) {
  const std::string events = "<Events>" + item("Availability", "zz", "AVAILABLE") + "</Events>";
  ASSERT_TRUE(read(document(events, "1.7", R"(name="other" uuid="uu")")).has_value());
  reader.restart("doc");
  ASSERT_TRUE(read(document(events, "1.7", R"(name="other" uuid="uu")")).has_value());
  EXPECT_EQ(heard.unknown, std::vector<std::string>{"other/"});
  reader.restart("doc");
  ASSERT_TRUE(read(R"(<MTConnectStreams><Header instanceId="1" nextSequence="2"/><Streams><DeviceStream name="Agent"
      uuid="ag"><ComponentStream component="Agent"><Events><Availability dataItemId="a" sequence="1"
      timestamp="2026-03-02T05:00:00Z">AVAILABLE</Availability></Events></ComponentStream></DeviceStream></Streams>
      </MTConnectStreams>)")
                  .has_value());
  EXPECT_EQ(heard.unknown.size(), 1U);
}

TEST_F(StreamsReaderTest, ConditionsAreCountedWithTheirSequenceOnly) {
  ASSERT_TRUE(read(document("<Condition>" + item("Fault", "co", "text", R"(type="SYSTEM" nativeCode="1")", 8) +
                            "</Condition><Samples>" + item("RotaryVelocity", "sp", "1", "", 3) + "</Samples>"))
                  .has_value());
  EXPECT_EQ(heard.arrivals.size(), 1U);
  EXPECT_EQ(reader.tally().observations, 2U);
  EXPECT_EQ(reader.tally().sequence_min, 3U);
  EXPECT_EQ(reader.tally().sequence_max, 8U);
}

TEST_F(StreamsReaderTest, ObservationsWithoutTimeOrIdAreBadAndPassedOver) {
  ASSERT_TRUE(read(document(R"(<Samples><RotaryVelocity dataItemId="sp" sequence="1">1</RotaryVelocity><RotaryVelocity
      timestamp="2026-03-02T05:00:00Z">1</RotaryVelocity><RotaryVelocity dataItemId="sp" timestamp="yesterday"
      sequence="99999999999999999999999">1</RotaryVelocity></Samples>)"))
                  .has_value());
  EXPECT_TRUE(heard.arrivals.empty());
  EXPECT_EQ(reader.tally().bad, 3U);
}

// Trap 13 of mtconnect.md: no mark means UTC, an offset is honoured.
TEST_F(StreamsReaderTest, TimesAreUtcUnlessTheySayOtherwise) {
  ASSERT_TRUE(read(document(R"(<Samples><RotaryVelocity dataItemId="sp" timestamp="2026-03-02T05:00:00" sequence="1">1
      </RotaryVelocity><RotaryVelocity dataItemId="sp" timestamp="2026-03-02T07:00:00.1234567+02:00" sequence="2">1
      </RotaryVelocity></Samples>)"))
                  .has_value());
  ASSERT_EQ(heard.arrivals.size(), 2U);
  EXPECT_EQ(print(heard.arrivals[0].at), "2026-03-02T05:00:00Z");
  EXPECT_EQ(print(heard.arrivals[1].at), "2026-03-02T05:00:00.1234567Z");
}

TEST_F(StreamsReaderTest, ErrorDocumentsOfBothFormsAreErrors) {
  EXPECT_EQ(
      refusal(R"(<MTConnectError xmlns="urn:mtconnect.org:MTConnectError:1.3"><Header instanceId="9"/><Errors><Error
      errorCode="OUT_OF_RANGE">'from' must be greater than 5</Error></Errors></MTConnectError>)"),
      "doc: the agent answers OUT_OF_RANGE: 'from' must be greater than 5");
  EXPECT_EQ(reader.agent_error()->instance_id, 9U);
  EXPECT_EQ(refusal(R"(<MTConnectError><Header instanceId="9"/><Errors><InvalidRequest><ErrorMessage>no</ErrorMessage>
      </InvalidRequest><OutOfRange errorCode="OUT_OF_RANGE"><URI>http://x</URI><ErrorMessage> too old </ErrorMessage>
      <QueryParameter name="from"><Value>1</Value></QueryParameter></OutOfRange></Errors></MTConnectError>)"),
            "doc: the agent answers OUT_OF_RANGE: too old");
  EXPECT_EQ(refusal(R"(<MTConnectError><Errors><QueryError/></Errors></MTConnectError>)"),
            "doc: the agent answers QUERY_ERROR: no text");
  EXPECT_NE(
      refusal(R"(<MTConnectError><Error errorCode="UNSUPPORTED">1.0</Error></MTConnectError>)").find("UNSUPPORTED"),
      std::string::npos);
}

TEST_F(StreamsReaderTest, OtherDocumentsAreRefusedWithTheirPlace) {
  EXPECT_NE(refusal("<html><head/></html>").find("doc, line 1, column 1: this is a document \"html\""),
            std::string::npos);
  EXPECT_NE(refusal("<MTConnectStreams/>").find("without a Header"), std::string::npos);
  EXPECT_NE(refusal("<MTConnectStreams><Header/></MTConnectStreams>").find("instanceId"), std::string::npos);
  EXPECT_NE(refusal(R"(<MTConnectStreams><Header instanceId="1"/></MTConnectStreams>)").find("nextSequence"),
            std::string::npos);
  EXPECT_NE(
      refusal("<MTConnectStreams><Streams><DeviceStream/></Streams></MTConnectStreams>").find("before the Header"),
      std::string::npos);
  EXPECT_NE(refusal("<MTConnectStreams>\n<Header").find("line 2"), std::string::npos);
  EXPECT_NE(refusal("").find("doc"), std::string::npos);
  EXPECT_NE(refusal(R"(<!DOCTYPE a [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><MTConnectStreams>&b;</MTConnectStreams>)")
                .find("DOCTYPE"),
            std::string::npos);
}

TEST_F(StreamsReaderTest, SurvivesEveryTruncationAndEveryChangedByte) {
  const std::string text =
      document("<Samples>" + item("RotaryVelocity", "sp", "1200.5") + item("PathPosition", "pp", "1 2") +
               "</Samples><Events>" + item("Execution", "ex", "ACTIVE") + "</Events>");
  for (std::size_t size = 0; size < text.size(); ++size) {
    reader.restart("doc");
    EXPECT_FALSE(read(text.substr(0, size)).has_value()) << size;
  }
  for (std::size_t at = 0; at < text.size(); ++at) {
    for (const char c : {'<', '>', '"', '\0', '&', '\xff', '9'}) {
      std::string changed = text;
      changed[at] = c;
      reader.restart("doc");
      (void)read(changed);
    }
  }
}

}  // namespace
}  // namespace hw::feeds
