#include "src/feeds/json_document.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

std::string xml_of(std::string_view json) {
  const auto xml = xml_of_json(json, "doc");
  return xml ? *xml : "refused: " + xml.error().message;
}

TEST(JsonDocument, VersionTwoRepeatsAnElementForEachOfAList) {
  EXPECT_EQ(
      xml_of(R"({"MTConnectStreams": {"jsonVersion": 2, "schemaVersion": "2.0", "Header": {"instanceId": 7},
      "Streams": {"DeviceStream": [{"name": "m", "ComponentStream": [{"componentId": "c", "Samples":
      {"Load": [{"dataItemId": "l", "value": 12.5}, {"dataItemId": "l", "value": "UNAVAILABLE"}]}}]}]}}})"),
      "<MTConnectStreams xmlns=\"urn:mtconnect.org:MTConnectStreams:2.0\" jsonVersion=\"2\" schemaVersion=\"2.0\">"
      "<Header instanceId=\"7\"></Header><Streams><DeviceStream name=\"m\"><ComponentStream componentId=\"c\">"
      "<Samples><Load dataItemId=\"l\">12.5</Load><Load dataItemId=\"l\">UNAVAILABLE</Load></Samples>"
      "</ComponentStream></DeviceStream></Streams></MTConnectStreams>");
}

TEST(JsonDocument, VersionOneWrapsEachOfAListInItsName) {
  const std::string wanted =
      "<Streams><DeviceStream name=\"m\"><ComponentStreams><ComponentStream componentId=\"c\"><Samples>"
      "<Load dataItemId=\"l\">1</Load><Load dataItemId=\"l\">2</Load></Samples></ComponentStream></ComponentStreams>"
      "</DeviceStream></Streams>";
  const std::string streams =
      R"("Streams": [{"DeviceStream": {"name": "m", "ComponentStreams": [{"ComponentStream": {"componentId": "c",
      "Samples": [{"Load": {"dataItemId": "l", "value": 1}}, {"Load": {"dataItemId": "l", "value": 2}}]}}]}}])";
  EXPECT_NE(xml_of(R"({"MTConnectStreams": {"jsonVersion": 1, )" + streams + "}}").find(wanted), std::string::npos);
  EXPECT_NE(xml_of(R"({"MTConnectStreams": {)" + streams + "}}").find(wanted), std::string::npos);
}

TEST(JsonDocument, AListAsValueIsItsMembersWithBlanks) {
  EXPECT_EQ(xml_of(R"({"A": {"Position": [{"value": [1, 2.5, -3]}]}})"), "<A><Position>1 2.5 -3</Position></A>");
  EXPECT_EQ(xml_of(R"({"A": {"DataSet": [{"value": {"k": 1}}]}})"), "<A><DataSet></DataSet></A>");
}

TEST(JsonDocument, TextCannotBecomeMarkup) {
  EXPECT_EQ(xml_of(R"({"A": {"b": "\"<&>\u0001", "xmlns:x": "u", "no name": 1, "value": "</A><B>"}})"),
            "<A b=\"&quot;&lt;&amp;&gt; \">&lt;/A&gt;&lt;B&gt;</A>");
  EXPECT_NE(xml_of(R"({"A": {"b><c": {}}})").find("no element's name"), std::string::npos);
  EXPECT_EQ(xml_of(R"({"A": {"b><c": []}})").find("refused"), 0U);
}

TEST(JsonDocument, WhatIsNoDocumentIsRefusedWithItsName) {
  for (const char* text : {"", "[]", "{}", R"({"A": 1})", R"({"A": {}, "B": {}})", R"({"A": {"b": 1, "b": 2}})"}) {
    EXPECT_EQ(xml_of(text).find("refused: doc"), 0U) << text << ": " << xml_of(text);
  }
}

}  // namespace
}  // namespace hw::feeds
