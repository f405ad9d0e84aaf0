#include "libs/http/multipart.h"

#include <vector>

#include <gtest/gtest.h>

#include "libs/http/recording.h"

namespace hw::http {
namespace {

struct Collector : PartSink {
  std::vector<std::string> parts;
  std::vector<Headers> heads;
  bool is_open = false;
  std::size_t refuse_after = 1000;

  Result<void> begin(const Headers& headers) override {
    EXPECT_FALSE(is_open);
    is_open = true;
    if (parts.size() >= refuse_after) return refuse(ErrorCode::bad_input, "enough");
    parts.emplace_back();
    heads.push_back(headers);
    return {};
  }
  Result<void> data(std::string_view piece) override {
    EXPECT_TRUE(is_open);
    parts.back() += piece;
    return {};
  }
  Result<void> end() override {
    is_open = false;
    return {};
  }
};

// Feeds the body in pieces of this many bytes.
Result<void> read(std::string_view body, std::size_t piece, PartSink& sink, MultipartLimits limits = {},
                  const std::string& boundary = "XX") {
  MultipartReader reader(boundary, sink, limits);
  for (std::size_t at = 0; at < body.size(); at += piece) {
    if (auto fed = reader.feed(body.substr(at, piece)); !fed) return fed;
  }
  return reader.finish();
}

const std::string two_parts =
    "--XX\r\nContent-type: text/xml\r\nContent-length: 13\r\n\r\n<a>\r\n--XX</a>\r\n"
    "--XX\r\nCONTENT-LENGTH:3\r\n\r\nabc\r\n--XX--\r\nepilogue";

TEST(Multipart, ReadsByContentLengthInAnyPieces) {
  for (std::size_t piece = 1; piece <= two_parts.size(); ++piece) {
    Collector sink;
    const auto done = read(two_parts, piece, sink);
    ASSERT_TRUE(done) << done.error().message;
    EXPECT_EQ(sink.parts, (std::vector<std::string>{"<a>\r\n--XX</a>", "abc"})) << piece;
    EXPECT_EQ(sink.heads[0].find("Content-Type"), "text/xml");
  }
}

TEST(Multipart, SearchesTheBoundaryWhereThereIsNoLength) {
  const std::string body =
      "preamble\r\n--XX  \r\nContent-type: a\r\n\r\nline\r\n--XXY\r\n--X\r\r\n--XX\r\n\r\n\r\n--XX\r\n\r\n--XX--";
  for (std::size_t piece = 1; piece <= body.size(); ++piece) {
    Collector sink;
    const auto done = read(body, piece, sink);
    ASSERT_TRUE(done) << piece << " " << done.error().message;
    EXPECT_EQ(sink.parts, (std::vector<std::string>{"line\r\n--XXY\r\n--X\r", "", ""})) << piece;
  }
}

TEST(Multipart, TakesBareLineFeeds) {
  const std::string body = "--XX\nContent-length: 2\n\nab\n--XX\n\ncd\n--XX--\n";
  for (std::size_t piece = 1; piece <= body.size(); ++piece) {
    Collector sink;
    ASSERT_TRUE(read(body, piece, sink)) << piece;
    EXPECT_EQ(sink.parts, (std::vector<std::string>{"ab", "cd"})) << piece;
  }
}

TEST(Multipart, TakesTheDashesInTheBoundaryParameterOrNot) {
  for (const char* body :
       {"--XX\r\nContent-length: 1\r\n\r\na\r\n--XX--\r\n", "----XX\r\nContent-length: 1\r\n\r\na\r\n----XX--\r\n"}) {
    for (std::size_t piece = 1; piece < 40; ++piece) {
      Collector sink;
      const auto done = read(body, piece, sink, {}, "--XX");
      ASSERT_TRUE(done) << body << piece << done.error().message;
      EXPECT_EQ(sink.parts, std::vector<std::string>{"a"});
    }
  }
}

TEST(Multipart, AStreamMayEndAfterAnyWholePart) {
  for (const char* tail : {"", "\r\n", "\r\n--X", "\r\n--XX", "\r\n--XX\r\n"}) {
    Collector sink;
    EXPECT_TRUE(read(std::string("--XX\r\nContent-length: 1\r\n\r\na") + tail, 3, sink)) << tail;
    EXPECT_EQ(sink.parts, std::vector<std::string>{"a"});
  }
}

TEST(Multipart, RefusesAPartThatIsBrokenOff) {
  for (const char* body : {"--XX\r\nContent-length: 5\r\n\r\nabcd", "--XX\r\n\r\nabcd\r\n", "--XX\r\nContent-len", "",
                           "--XX\r\n", "no boundary"}) {
    Collector sink;
    const auto done = read(body, 4, sink);
    ASSERT_FALSE(done) << body;
    EXPECT_EQ(done.error().code, ErrorCode::peer_misbehaved);
  }
}

TEST(Multipart, SaysWhichPartAndWhatStandsThere) {
  Collector sink;
  const auto done =
      read("--XX\r\nContent-length: 1\r\n\r\na\r\n--XX\r\nContent-length: 2\r\n\r\nabcd\r\n--XX", 5, sink);
  ASSERT_FALSE(done);
  EXPECT_TRUE(done.error().message.starts_with("part 2: after its 2 bytes stands \"c")) << done.error().message;
}

TEST(Multipart, RefusesWrongLengths) {
  for (const char* length : {"-1", "1x", "", "99999999999999999999", "1\r\nContent-length: 2"}) {
    Collector sink;
    EXPECT_FALSE(read(std::string("--XX\r\nContent-length: ") + length + "\r\n\r\na\r\n--XX--", 100, sink)) << length;
  }
}

TEST(Multipart, KeepsTheLimitsOnBothSides) {
  const MultipartLimits limits{.part_header_bytes_max = 100, .part_bytes_max = 1000};
  const auto outcome = [&](std::size_t header_bytes, std::size_t data_bytes, bool counted) {
    std::string head = counted ? "Content-length: " + std::to_string(data_bytes) + "\r\n" : "";
    head += "X:" + std::string(header_bytes - head.size() - 4, 'x') + "\r\n";
    EXPECT_EQ(head.size(), header_bytes);
    Collector sink;
    const auto done = read("--XX\r\n" + head + "\r\n" + std::string(data_bytes, 'd') + "\r\n--XX--", 64, sink, limits);
    return done ? "taken" : std::string(word_of(done.error().code));
  };
  EXPECT_EQ(outcome(100, 1000, true), "taken");
  EXPECT_EQ(outcome(100, 1001, true), "too-large");
  EXPECT_EQ(outcome(100, 1000, false), "taken");
  EXPECT_EQ(outcome(100, 1001, false), "too-large");
  EXPECT_EQ(outcome(101, 10, true), "too-large");
}

TEST(Multipart, AnEndlessPreambleIsRefused) {
  Collector sink;
  EXPECT_FALSE(read(std::string(100'000, 'x'), 1000, sink));
  EXPECT_FALSE(read(std::string(100'000, '\n'), 1000, sink));
}

TEST(Multipart, TheSinksErrorEndsTheReading) {
  Collector sink;
  sink.refuse_after = 1;
  const auto done = read(two_parts, 7, sink);
  ASSERT_FALSE(done);
  EXPECT_EQ(done.error(), (Error{ErrorCode::bad_input, "part 2: enough"}));
}

TEST(Boundary, IsTakenFromTheContentType) {
  EXPECT_EQ(*parse_boundary("multipart/x-mixed-replace;boundary=abc"), "abc");
  EXPECT_EQ(*parse_boundary("Multipart/X-Mixed-Replace; charset=x ; BOUNDARY=\"a b\\\"c\"; y=z"), "a b\"c");
  for (const char* wrong :
       {"text/xml", "multipart/x-mixed-replace", "multipart/x; boundary=", "multipart/x; xboundary=a"}) {
    EXPECT_FALSE(parse_boundary(wrong)) << wrong;
  }
}

Result<std::vector<std::string>> read_recording(std::string_view bytes, std::size_t piece) {
  Collector sink;
  RecordingReader reader(sink);
  for (std::size_t at = 0; at < bytes.size(); at += piece) {
    if (auto fed = reader.feed(bytes.substr(at, piece)); !fed) return refuse(fed.error());
  }
  if (auto whole = reader.finish(); !whole) return refuse(whole.error());
  return sink.parts;
}

const std::string head_of_stream =
    "HTTP/1.1 200 OK\r\nContent-Type: multipart/x-mixed-replace;boundary=XX\r\nTransfer-Encoding: chunked\r\n\r\n";
const std::string one_part = "--XX\r\nContent-length: 4\r\n\r\n<a/>\r\n";  // 33 bytes

TEST(Recording, EveryUsualFormGivesTheSameParts) {
  const std::string chunked = "21\r\n" + one_part + "\r\n21;ext=1\r\n" + one_part + "\r\n0\r\n\r\n";
  ASSERT_EQ(one_part.size(), 0x21U);
  for (const std::string& recording : {head_of_stream + chunked, head_of_stream + one_part + one_part,
                                       one_part + one_part, "\r\n" + one_part + one_part}) {
    for (std::size_t piece : {1U, 7U, 1000U}) {
      const auto parts = read_recording(recording, piece);
      ASSERT_TRUE(parts) << recording << parts.error().message;
      EXPECT_EQ(*parts, (std::vector<std::string>{"<a/>", "<a/>"}));
    }
  }
}

TEST(Recording, ASingleDocumentIsOnePart) {
  for (const std::string recording :
       {"HTTP/1.1 200 OK\r\nContent-Length: 4\r\n\r\n<a/>", "HTTP/1.0 200 OK\r\n\r\n<a/>", "<a/>"}) {
    for (std::size_t piece : {1U, 1000U})
      EXPECT_EQ(*read_recording(recording, piece), std::vector<std::string>{"<a/>"});
  }
}

TEST(Recording, RefusesWhatIsBrokenOffOrNoAnswer) {
  for (const std::string& recording :
       {std::string(), head_of_stream, head_of_stream + one_part.substr(0, 30), std::string("HTTP/1.1 200 OK\r\nConte"),
        std::string("HTTP/1.1 404 Not Found\r\n\r\n<a/>"),
        std::string("HTTP/1.1 200 OK\r\nContent-Length: 5\r\n\r\n<a/>"), head_of_stream + "21\r\n" + one_part}) {
    for (std::size_t piece : {1U, 1000U}) EXPECT_FALSE(read_recording(recording, piece)) << recording;
  }
}

}  // namespace
}  // namespace hw::http
