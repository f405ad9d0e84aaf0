#include "libs/formats/xml_text.h"

#include <gtest/gtest.h>

namespace hw::formats {
namespace {

TEST(XmlText, EscapesWhatAnXmlReaderWouldTakeForItsOwn) {
  EXPECT_EQ(escape_xml("Ölfilter 2"), "Ölfilter 2");
  EXPECT_EQ(escape_xml("a<b & \"c\">d"), "a&lt;b &amp; &quot;c&quot;&gt;d");
  EXPECT_EQ(escape_xml(std::string_view("a\0b\tc", 5)), "a b c");
}

}  // namespace
}  // namespace hw::formats
