#include "libs/formats/xml_reader.h"

#include <gtest/gtest.h>

namespace hw::formats {
namespace {

// Writes down what it hears: <prefix:local a=value|text|>.
class Heard : public XmlHandler {
 public:
  void start(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes) override {
    all += "<" + print(name);
    for (const XmlAttribute& attribute : attributes)
      all += " " + print(attribute.name) + "=" + std::string(attribute.value);
    all += ">";
    root_namespace = reader.root_namespace();
    if (name.local == "refuse") reader.refuse({ErrorCode::unsupported, "not this one"});
  }
  void text(XmlReader&, std::string_view text) override { all += "|" + std::string(text) + "|"; }
  void end(XmlReader&, const XmlName& name) override { all += "</" + print(name) + ">"; }

  std::string all;
  std::string root_namespace;

 private:
  static std::string print(const XmlName& name) {
    return name.prefix.empty() ? std::string(name.local) : fmt::format("{}:{}", name.prefix, name.local);
  }
};

Result<void> feed_in_pieces(std::string_view document, std::size_t piece_bytes, XmlHandler& heard,
                            XmlLimits limits = {}) {
  XmlReader reader(heard, "doc.xml", limits);
  for (; !document.empty(); document.remove_prefix(std::min(piece_bytes, document.size()))) {
    if (auto fed = reader.feed(document.substr(0, piece_bytes)); !fed) return fed;
  }
  return reader.finish();
}

std::string refusal_of(std::string_view document, XmlLimits limits = {}) {
  Heard heard;
  const auto read = feed_in_pieces(document, 1 << 20, heard, limits);
  return read ? "accepted" : read.error().message;
}

TEST(XmlReader, PiecesOfAnySizeAreHeardAlike) {
  constexpr std::string_view document =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- note -->"
      "<s:Streams xmlns:s='urn:example:streams:2.0' xmlns=\"urn:other\"><x:Motion id='a&lt;b' x:unit=\"mm\">1\n2 &amp; "
      "3"
      "<![CDATA[<4>]]></x:Motion><Empty/> \xC3\xA9 </s:Streams>\n";
  constexpr std::string_view expected =
      "<s:Streams xmlns:s=urn:example:streams:2.0 xmlns=urn:other><x:Motion id=a<b x:unit=mm>|1\n2 & 3<4>|</x:Motion>"
      "<Empty></Empty>| \xC3\xA9 |</s:Streams>";
  for (const std::size_t piece_bytes : {1, 2, 3, 7, 50, 1000}) {
    Heard heard;
    ASSERT_TRUE(feed_in_pieces(document, piece_bytes, heard).has_value());
    EXPECT_EQ(heard.all, expected) << piece_bytes;
    EXPECT_EQ(heard.root_namespace, "urn:example:streams:2.0");
  }
  Heard heard;
  auto source = memory_source(document);
  ASSERT_TRUE(read_xml(*source, heard).has_value());
  EXPECT_EQ(heard.all, expected);
}

TEST(XmlReader, ADocumentOfManyBlocksIsHeardWhole) {
  std::string document = "<a>";
  std::string expected = "<a>";
  for (int i = 0; i < 50'000; ++i) {
    document += "<b n='" + std::to_string(i) + "'>" + std::to_string(i * 3) + "</b>";
    expected += "<b n=" + std::to_string(i) + ">|" + std::to_string(i * 3) + "|</b>";
  }
  Heard heard;
  auto source = memory_source(document += "</a>");
  ASSERT_TRUE(read_xml(*source, heard).has_value());
  EXPECT_TRUE(heard.all == expected + "</a>");
}

TEST(XmlReader, TheRootsNamespaceMayBeTheDefaultOrNone) {
  Heard plain;
  ASSERT_TRUE(feed_in_pieces("<a xmlns='urn:x'><b xmlns='urn:y'/></a>", 99, plain).has_value());
  EXPECT_EQ(plain.root_namespace, "urn:x");
  Heard none;
  ASSERT_TRUE(feed_in_pieces("<a xmlns:q='urn:x'/>", 99, none).has_value());
  EXPECT_EQ(none.root_namespace, "");
}

TEST(XmlReader, AttributesAreFoundByTheirPlainName) {
  const std::vector<XmlAttribute> some = {{{"x", "unit"}, "inch"}, {{"", "unit"}, "mm"}, {{"", "empty"}, ""}};
  const XmlAttributes attributes(some);
  EXPECT_EQ(attributes.find("unit"), "mm");
  EXPECT_EQ(attributes.find("empty"), "");
  EXPECT_EQ(attributes.find("none"), std::nullopt);
}

TEST(XmlReader, WhatIsWrongIsNamedWithLineAndColumn) {
  EXPECT_EQ(refusal_of("<a>\n  <b></c>\n</a>"), "doc.xml, line 2, column 8: not well-formed XML: mismatched tag");
  EXPECT_EQ(refusal_of("<a><b>"), "doc.xml, line 1, column 7: not well-formed XML: no element found");
  EXPECT_EQ(refusal_of(""), "doc.xml, line 1, column 1: not well-formed XML: no element found");
  EXPECT_EQ(refusal_of("<a>&who;</a>"), "doc.xml, line 1, column 4: not well-formed XML: undefined entity");
  EXPECT_EQ(refusal_of("<a b='1' b='2'/>"), "doc.xml, line 1, column 10: not well-formed XML: duplicate attribute");
  EXPECT_EQ(refusal_of("<html>\n<p>busy<br></p></html>"),
            "doc.xml, line 2, column 14: not well-formed XML: mismatched tag");
}

TEST(XmlReader, ADoctypeIsRefusedBeforeAnythingExpands) {
  const std::string bomb =
      "<?xml version='1.0'?>\n<!DOCTYPE a [<!ENTITY x 'xxxxxxxxxx'><!ENTITY y '&x;&x;&x;&x;&x;'>]><a>&y;</a>";
  EXPECT_EQ(refusal_of(bomb),
            "doc.xml, line 2, column 13: a DOCTYPE is not accepted, because entities can be made to expand without "
            "limit; remove it");
  Heard heard;
  EXPECT_FALSE(feed_in_pieces(bomb, 1, heard).has_value());
  EXPECT_EQ(heard.all, "");
}

TEST(XmlReader, LimitsHoldForDepthTextAndTags) {
  std::string deep;
  for (int i = 0; i < 200; ++i) deep += "<a>";
  EXPECT_EQ(refusal_of(deep, {.depth_max = 100}), "doc.xml, line 1, column 301: elements nested deeper than 100");
  const std::string text = "<a>" + std::string(5'000'000, 'x') + "</a>";
  EXPECT_NE(refusal_of(text, {.text_bytes_max = 1000}).find("a text longer than 1000 bytes"), std::string::npos);
  EXPECT_EQ(refusal_of(text), "accepted");
  const std::string tag = "<a b='" + std::string(5'000'000, 'x') + "'/>";
  EXPECT_NE(refusal_of(tag).find("a tag or comment longer than 1048576 bytes"), std::string::npos);
  EXPECT_EQ(refusal_of("<a b='" + std::string(500'000, 'x') + "'/>"), "accepted");
}

TEST(XmlReader, AHandlersRefusalStopsAtItsPlaceAndStays) {
  Heard heard;
  XmlReader reader(heard, "doc.xml");
  const auto fed = reader.feed(std::string_view("<a>\n<refuse>text</refuse><b/></a>"));
  ASSERT_FALSE(fed.has_value());
  EXPECT_EQ(fed.error().code, ErrorCode::unsupported);
  EXPECT_EQ(fed.error().message, "doc.xml, line 2, column 1: not this one");
  EXPECT_EQ(heard.all, "<a>|\n|<refuse>");
  EXPECT_EQ(reader.feed(std::string_view("more")).error().message, fed.error().message);
  EXPECT_EQ(reader.finish().error().message, fed.error().message);
}

TEST(XmlReader, AnEmptyElementThatIsRefusedIsNotEnded) {
  Heard heard;
  XmlReader reader(heard, "doc.xml");
  EXPECT_FALSE(reader.feed(std::string_view("<a><refuse/></a>")).has_value());
  EXPECT_EQ(heard.all, "<a><refuse>");
}

TEST(XmlReader, ASourceThatBreaksIsTheError) {
  Heard heard;
  auto source = unpacked(memory_source(std::string_view("\x1f\x8b\x08\x00", 4), "cut.gz"));
  ASSERT_TRUE(source.has_value());
  const auto read = read_xml(**source, heard);
  ASSERT_FALSE(read.has_value());
  EXPECT_NE(read.error().message.find("cut.gz: cut off"), std::string::npos);
}

}  // namespace
}  // namespace hw::formats
