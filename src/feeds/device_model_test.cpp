#include "src/feeds/device_model.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/places/places.h"

namespace hw::feeds {
namespace {

using counters::Item;
using counters::Role;

DevicesDocument read(std::string_view text) {
  auto document = read_devices(text);
  EXPECT_TRUE(document.has_value()) << (document ? "" : document.error().message);
  return document ? std::move(*document) : DevicesDocument{};
}

std::string refusal(std::string_view text) {
  const auto document = read_devices(text);
  EXPECT_FALSE(document.has_value());
  return document ? "" : document.error().message;
}

// The body of a document between <Devices> and </Devices>.
std::string devices(std::string_view body, std::string_view version = "1.3") {
  return fmt::format(R"(<MTConnectDevices xmlns="urn:mtconnect.org:MTConnectDevices:{}"><Header instanceId="7"
      version="9.9"/><Devices>{}</Devices></MTConnectDevices>)",
                     version, body);
}

std::string one_item(std::string_view attributes, std::string_view inside = "") {
  return devices(fmt::format(
      R"(<Device id="d" name="mill" uuid="u"><Components><Axes id="ax"><Components><Rotary id="c" name="C"><DataItems>
         <DataItem {}>{}</DataItem></DataItems></Rotary></Components></Axes></Components></Device>)",
      attributes, inside));
}

TEST(DeviceModel, EveryVersionsNamespaceIsRead) {
  for (const char* version : {"1.0", "1.1", "1.2", "1.3", "1.4", "1.5", "1.6", "1.7", "1.8", "2.0", "2.1", "2.2", "2.3",
                              "2.4", "2.5", "2.6", "2.7"}) {
    const auto document = read(devices(R"(<Device id="d" name="m" uuid="u"><DataItems>
        <DataItem id="a" category="EVENT" type="AVAILABILITY"/></DataItems></Device>)",
                                       version));
    EXPECT_EQ(document.version, version);
    EXPECT_EQ(document.instance_id, 7U);
    ASSERT_EQ(document.machines.size(), 1U);
    EXPECT_EQ(document.machines[0].items.at(0).role, Role::availability);
  }
}

TEST(DeviceModel, PrefixesAndNoNamespaceAreReadAlike) {
  const auto prefixed = read(R"(<m:MTConnectDevices xmlns:m="urn:mtconnect.org:MTConnectDevices:2.0" xmlns:x="urn:b:1">
    <m:Header/><m:Devices><m:Device id="d" name="mill" uuid="u"><m:Components><x:Magic id="k" name="K"><m:DataItems>
    <m:DataItem id="e" category="EVENT" type="EXECUTION"/></m:DataItems></x:Magic></m:Components></m:Device></m:Devices>
    </m:MTConnectDevices>)");
  EXPECT_EQ(prefixed.version, "2.0");
  EXPECT_EQ(prefixed.machines.at(0).items.at(0).component, "Magic");
  const auto bare = read(R"(<MTConnectDevices><Header version="1.1.0.8"/><Devices><Device id="d" name="mill" uuid="u"/>
    </Devices></MTConnectDevices>)");
  EXPECT_EQ(bare.version, "1.1.0.8");
  EXPECT_EQ(bare.machines.at(0).name, "mill");
}

TEST(DeviceModel, ItemKnowsItsComponentSourceUnitsAndTrigger) {
  const auto document = read(one_item(
      R"(id="i" name="Srpm" category="SAMPLE" type="SPINDLE_SPEED" subType="ACTUAL" units="REVOLUTION/MINUTE"
         nativeUnits="REVOLUTION/SECOND" nativeScale="2")",
      "<Source> spindle.speed </Source><ResetTrigger>DAY</ResetTrigger>"));
  const Item& item = document.machines.at(0).items.at(0);
  EXPECT_EQ(item.name, "Srpm");
  EXPECT_EQ(item.source, "spindle.speed");
  EXPECT_EQ(item.component, "Rotary");
  EXPECT_EQ(item.component_id, "c");
  EXPECT_EQ(item.component_name, "C");
  EXPECT_EQ(item.representation, "VALUE");
  EXPECT_TRUE(item.has_reset_trigger);
  EXPECT_DOUBLE_EQ(item.native_to_units, 30.0);
  EXPECT_EQ(item.role, Role::spindle_speed);
}

// Trap 17 of mtconnect.md.
TEST(DeviceModel, OverridesAndCommandsAreNoSpeeds) {
  for (const char* sub_type : {"OVERRIDE", "COMMANDED", "PROGRAMMED"}) {
    const auto document = read(one_item(fmt::format(
        R"(id="i" category="SAMPLE" type="ROTARY_VELOCITY" subType="{}" units="REVOLUTION/MINUTE")", sub_type)));
    EXPECT_EQ(document.machines.at(0).items.at(0).role, Role::none) << sub_type;
  }
}

TEST(DeviceModel, CoordinateSystemIsFoundByReferenceEvenBehindTheItem) {
  const auto document = read(devices(R"(<Device id="d" name="mill" uuid="u"><DataItems>
      <DataItem id="p" category="SAMPLE" type="POSITION" units="MILLIMETER" coordinateSystemIdRef="ms"/>
      <DataItem id="q" category="SAMPLE" type="POSITION" units="MILLIMETER" coordinateSystem="WORK"/></DataItems>
      <Configuration><CoordinateSystems><CoordinateSystem id="ms" type="MACHINE"/></CoordinateSystems></Configuration>
      </Device>)"));
  EXPECT_EQ(document.machines.at(0).items.at(0).coordinate_system, "MACHINE");
  EXPECT_EQ(document.machines.at(0).items.at(1).coordinate_system, "WORK");
}

TEST(DeviceModel, PathPositionBecomesThreeCoordinates) {
  const auto document =
      read(one_item(R"(id="pp" name="Ppos" category="SAMPLE" type="PATH_POSITION" units="MILLIMETER_3D"
      nativeUnits="INCH_3D")"));
  const auto& items = document.machines.at(0).items;
  ASSERT_EQ(items.size(), 3U);
  EXPECT_EQ(items[0].id, "pp/x");
  EXPECT_EQ(items[2].name, "Ppos/z");
  EXPECT_EQ(items[1].units, "MILLIMETER");
  EXPECT_DOUBLE_EQ(items[1].native_to_units, 25.4);
  EXPECT_EQ(items[1].role, Role::position);
}

TEST(DeviceModel, AgentItselfIsLeftOut) {
  const auto document = read(devices(R"(<Agent id="agent" name="Agent" uuid="a"><DataItems>
      <DataItem id="av" category="EVENT" type="AVAILABILITY"/></DataItems><Components><Adapters id="ads"/></Components>
      </Agent><Device id="d" name="mill" uuid="u"/>)",
                                     "1.7"));
  ASSERT_EQ(document.machines.size(), 1U);
  EXPECT_EQ(document.machines[0].name, "mill");
}

TEST(DeviceModel, UnitsThatCannotBeConvertedAreNoted) {
  const auto document =
      read(one_item(R"(id="i" name="f" category="SAMPLE" type="PATH_FEEDRATE" units="MILLIMETER/SECOND"
      nativeUnits="FURLONG/FORTNIGHT")"));
  ASSERT_EQ(document.notes.size(), 1U);
  EXPECT_EQ(document.notes[0].machine, "mill");
  EXPECT_NE(document.notes[0].text.find("FURLONG/FORTNIGHT"), std::string::npos);
}

TEST(DeviceModel, RefusalsSayWhatAndWhere) {
  EXPECT_NE(refusal("<html><body/></html>").find("\"html\"; a device model is MTConnectDevices"), std::string::npos);
  EXPECT_NE(refusal("").find("probe"), std::string::npos);
  EXPECT_NE(refusal("<MTConnectDevices><Devices>").find("line 1"), std::string::npos);
  EXPECT_NE(refusal(devices("")).find("no Device"), std::string::npos);
  EXPECT_NE(refusal(devices("<Device/>")).find("without name"), std::string::npos);
  EXPECT_NE(refusal(R"(<!DOCTYPE a [<!ENTITY b "c">]><MTConnectDevices/>)").find("DOCTYPE"), std::string::npos);
  EXPECT_NE(refusal(R"(<MTConnectError><Header instanceId="3"/><Errors><Error errorCode="NO_DEVICE">Could not find the
      device 'x'</Error></Errors></MTConnectError>)")
                .find("NO_DEVICE: Could not find"),
            std::string::npos);
}

TEST(DeviceModel, RecordedModelOfALatheIsRead) {
  const auto document = read_devices_file(in_source("tests/recordings/feeds_devices.xml"));
  ASSERT_TRUE(document.has_value());
  ASSERT_EQ(document->machines.size(), 1U);
  const auto& machine = document->machines[0];
  EXPECT_EQ(machine.name, "lathe-l");
  EXPECT_EQ(machine.uuid, "mtc_adapter004");
  EXPECT_EQ(machine.items.size(), 63U);
  const auto used = [](const Item& item) { return item.role != Role::none; };
  EXPECT_EQ(std::count_if(machine.items.begin(), machine.items.end(), used), 20);
}

}  // namespace
}  // namespace hw::feeds
