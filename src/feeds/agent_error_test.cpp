#include "src/feeds/agent_error.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

TEST(AgentError, ElementNamesBecomeCodes) {
  EXPECT_EQ(upper_words("OutOfRange"), "OUT_OF_RANGE");
  EXPECT_EQ(upper_words("InvalidURI"), "INVALID_URI");
  EXPECT_EQ(upper_words(""), "");
}

TEST(AgentError, NumbersAreWholeOrZero) {
  EXPECT_EQ(read_whole("18446744073709551615"), 18'446'744'073'709'551'615U);
  for (const char* text : {"", "-1", "1.5", "18446744073709551616", "1 ", "x"}) EXPECT_EQ(read_whole(text), 0U) << text;
}

TEST(AgentError, VersionStandsBehindTheLastColonOfTheNamespace) {
  EXPECT_EQ(version_of("urn:mtconnect.org:MTConnectStreams:2.5"), "2.5");
  EXPECT_EQ(version_of("urn:builder:Streams"), "");
  EXPECT_EQ(version_of("http://example"), "");
  EXPECT_EQ(version_of(""), "");
}

TEST(AgentError, BecomesOneSentence) {
  EXPECT_EQ((AgentError{1, "NO_DEVICE", "none"}.as_error()),
            (Error{ErrorCode::peer_misbehaved, "the agent answers NO_DEVICE: none"}));
  EXPECT_EQ(AgentError{}.as_error().message, "the agent answers an error: no text");
}

}  // namespace
}  // namespace hw::feeds
