#include "libs/http/url.h"

#include <gtest/gtest.h>

namespace hw::http {
namespace {

TEST(Url, ReadsHostPortAndTarget) {
  EXPECT_EQ(*parse_url("http://agent.local"), (Url{"http", "agent.local", 80, "/"}));
  EXPECT_EQ(*parse_url("http://10.0.0.7:5000/m1/probe"), (Url{"http", "10.0.0.7", 5000, "/m1/probe"}));
  EXPECT_EQ(*parse_url("HTTPS://[::1]:8443?x=1"), (Url{"https", "::1", 8443, "/?x=1"}));
  EXPECT_EQ(parse_url("https://h")->port, 443);
  EXPECT_EQ(parse_url("http://h:65535/")->port, 65535);
}

TEST(Url, PrintsWhatItReads) {
  for (const char* text : {"http://h/", "http://[::1]:5000/a?b=c", "https://h:80/", "http://h:443/x/y"}) {
    EXPECT_EQ(print(*parse_url(text)), text);
  }
}

TEST(Url, RefusesWhatIsNoAddress) {
  for (const char* text : {"", "h", "http://", "http:///x", "ftp://h/", "http://h:0/", "http://h:65536/", "http://h:/",
                           "http://h:8x/", "http://u:p@h/", "http://h/a b", "http://h/#f", "http://h/\r\nX: y",
                           "http://[::1", "http://[::1]x/", "http://[g]/"}) {
    const auto url = parse_url(text);
    ASSERT_FALSE(url) << text;
    EXPECT_EQ(url.error().code, ErrorCode::bad_input);
    EXPECT_TRUE(url.error().message.starts_with("\"")) << url.error().message;
  }
}

TEST(Url, WithKeepsThePathInFrontAndDropsTheQuery) {
  EXPECT_EQ(parse_url("http://h/agent/?x=1")->with("/probe").target, "/agent/probe");
  EXPECT_EQ(parse_url("http://h")->with("/sample?from=1").target, "/sample?from=1");
}

TEST(Path, IsDecodedSegmentBySegment) {
  EXPECT_EQ(*parse_path("/"), "/");
  EXPECT_EQ(*parse_path("/api/m%201/%C3%A4"), "/api/m 1/\xC3\xA4");
  EXPECT_EQ(*parse_path("/a+b"), "/a+b");
}

TEST(Path, RefusesDotSegmentsAndSlashesInAnySpelling) {
  for (const char* raw : {"", "x", "/.", "/..", "/a/../b", "/%2e%2E/x", "/.%2e", "/a%2Fb", "/a%00", "/a%0d%0aX", "/%ff",
                          "/%c0%ae", "/%4", "/%", "/%zz"}) {
    EXPECT_FALSE(parse_path(raw)) << raw;
  }
  EXPECT_TRUE(parse_path("/..a/b.c/..."));
}

TEST(Query, ReadsNamesAndValues) {
  const auto query = parse_query("from=2026-01-01&q=a+b%26c&flag&=v&&q=2");
  ASSERT_TRUE(query);
  ASSERT_EQ(query->size(), 5U);
  EXPECT_EQ((*query)[1].value, "a b&c");
  EXPECT_EQ((*query)[2].name, "flag");
  EXPECT_EQ((*query)[2].value, "");
  EXPECT_FALSE(parse_query("a=%g1"));
}

TEST(Percent, Property_EncodingIsUndoneByDecoding) {
  std::string all;
  for (int c = 0; c < 256; ++c) all += static_cast<char>(c);
  EXPECT_EQ(*percent_decode(percent_encode(all)), all);
  EXPECT_EQ(percent_encode("a/b c~"), "a%2Fb%20c~");
}

}  // namespace
}  // namespace hw::http
