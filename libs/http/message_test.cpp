#include "libs/http/message.h"

#include <gtest/gtest.h>

#include "libs/http/problem.h"
#include "libs/http/response_head.h"
#include "libs/http/utf8.h"

namespace hw::http {
namespace {

TEST(Headers, NamesAreComparedWithoutLetterCase) {
  Headers headers{{"Content-length", "12"}, {"ACCEPT", "a/b, c/d"}};
  EXPECT_EQ(headers.find("CONTENT-LENGTH"), "12");
  EXPECT_FALSE(headers.find("Content-Lengt"));
  EXPECT_TRUE(headers.lists("accept", "C/D"));
  EXPECT_FALSE(headers.lists("accept", "c"));
}

TEST(Headers, SetTakesThePlaceOfAllOfThatName) {
  Headers headers{{"X", "1"}, {"x", "2"}, {"Y", "3"}};
  headers.set("X", "4");
  EXPECT_EQ(headers.count("x"), 1U);
  EXPECT_EQ(headers.find("X"), "4");
  EXPECT_EQ(headers.find("Y"), "3");
}

TEST(Problem, BearsStatusTitleDetailAndCode) {
  const Response response = problem(Error{ErrorCode::not_found, "no machine \"m7\""});
  EXPECT_EQ(response.status, 404);
  EXPECT_EQ(response.headers.find("content-type"), "application/problem+json");
  EXPECT_EQ(
      response.text(),
      R"({"type":"about:blank","title":"Not Found","status":404,"detail":"no machine \"m7\"","code":"not-found"})");
}

TEST(Problem, StaysJsonWhateverTheDetailHolds) {
  EXPECT_EQ(problem(400,
                    "a\nb\\c\x01\xff"
                    "z\xC3\xA4")
                .text(),
            "{\"type\":\"about:blank\",\"title\":\"Bad Request\",\"status\":400,"
            "\"detail\":\"a\\u000ab\\\\c\\u0001\xEF\xBF\xBDz\xC3\xA4\"}");
}

TEST(Problem, EveryErrorCodeHasAStatusWithAPhrase) {
  for (int code = 0; code <= static_cast<int>(ErrorCode::too_often); ++code) {
    const int status = status_of(static_cast<ErrorCode>(code));
    EXPECT_GE(status, 400);
    EXPECT_NE(phrase_of(status), "Status") << status;
  }
}

TEST(Utf8, TakesWhatIsValidAndNothingElse) {
  for (const char* good : {"", "abc", "\xC3\xA4", "\xE2\x82\xAC", "\xF0\x9F\x94\xA7", "\xF4\x8F\xBF\xBF"}) {
    EXPECT_TRUE(is_utf8(good)) << good;
  }
  for (const char* bad : {"\x80", "\xC3", "\xC0\x80", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xFF"}) {
    EXPECT_FALSE(is_utf8(bad)) << bad;
  }
}

TEST(ResponseHead, DateMatchesPublished_Rfc9110) {
  EXPECT_EQ(print_http_date(*parse_instant("1994-11-06T08:49:37Z")), "Sun, 06 Nov 1994 08:49:37 GMT");
}

TEST(ResponseHead, NoHeaderValueCanAddAHeader) {
  Response response = Response::of(200, "text/plain", "x");
  response.headers.add("X-Name", "a\r\nSet-Cookie: b=c");
  const std::string head = print_head(response, {1, true}, Instant{});
  EXPECT_EQ(head.find("\r\nSet-Cookie"), std::string::npos);
  EXPECT_NE(head.find("X-Name: a  Set-Cookie: b=c\r\n"), std::string::npos);
}

TEST(ResponseHead, BindsTheBrowserInEveryResponse) {
  const std::string head = print_head(Response::empty(204), {0, true}, Instant{});
  for (const char* line : {"Content-Security-Policy: default-src 'self';", "frame-ancestors 'none'",
                           "X-Content-Type-Options: nosniff\r\n", "Referrer-Policy: no-referrer\r\n"}) {
    EXPECT_NE(head.find(line), std::string::npos) << line;
  }
  EXPECT_EQ(head.find("unsafe-inline"), std::string::npos);
  EXPECT_EQ(head.find("Content-Length"), std::string::npos);
}

}  // namespace
}  // namespace hw::http
