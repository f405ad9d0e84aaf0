// Each limit of docs/operations/limits.md on both sides: at it a request is taken, one above it is refused.

#include <fmt/format.h>

#include "tests/abuse/abused_shop.h"

namespace hw::abuse {
namespace {

using Limits = AbusedShop;

TEST_F(Limits, RequestLineOf8KiB) {
  const auto of_line = [&](std::size_t bytes) {
    const std::size_t others = std::string_view("GET /healthz? HTTP/1.1\r\n").size();
    return ask(port(), request("GET", "/healthz?" + std::string(bytes - others, 'x')));
  };
  EXPECT_EQ(of_line(8192), 200);
  EXPECT_EQ(of_line(8194), 414);
}

TEST_F(Limits, HeadOf16KiB) {
  const auto of_head = [&](std::size_t bytes) {
    const std::size_t others = request("GET", "/healthz", "", "X: \r\n").size();
    return ask(port(), request("GET", "/healthz", "", "X: " + std::string(bytes - others, 'x') + "\r\n"));
  };
  EXPECT_EQ(of_head(16384), 200);
  EXPECT_EQ(of_head(16385), 431);
}

TEST_F(Limits, BodyOf1MiB) {
  const auto of_body = [&](std::size_t bytes) {
    return ask(port(), request("POST", "/api/machines/m1/tasks/filter/done", "{}" + std::string(bytes - 2, ' ')));
  };
  EXPECT_EQ(of_body(1U << 20U), 400);  // read, and no entry
  EXPECT_EQ(of_body((1U << 20U) + 1), 413);
}

TEST_F(Limits, SheetOf8MiB) {
  const auto of_sheet = [&](std::size_t bytes) {
    std::string head = fmt::format(
        "POST /api/stores/sheet HTTP/1.1\r\nHost: 127.0.0.1\r\n{}Content-Type: "
        "application/octet-stream\r\nContent-Length: {}\r\n\r\n",
        lets_in, bytes);
    return ask(port(), head + std::string(bytes, '\0'));
  };
  EXPECT_EQ(of_sheet(8U << 20U), 400);  // read, and no sheet
  EXPECT_EQ(of_sheet((8U << 20U) + 1), 413);
}

TEST_F(Limits, JsonNestedTo64) {
  const auto nested = [&](std::size_t depth) {
    const std::string body = std::string(depth, '[') + std::string(depth, ']');
    return ask(port(), request("POST", "/api/machines/m1/tasks/filter/done", body));
  };
  EXPECT_EQ(nested(64), 400);  // read, and no entry
  EXPECT_EQ(nested(65), 413);
}

TEST_F(Limits, NotesOf2000AndNamesOf80Letters) {
  const auto done = [&](std::size_t name, std::size_t note) {
    static int number = 0;
    return ask(port(), request("POST", "/api/machines/m1/tasks/filter/done",
                               fmt::format(R"({{"id":"01941f29-7c00-7aaa-8bbb-{:012}","by":"{}","note":"{}"}})",
                                           ++number, std::string(name, 'A'), std::string(note, 'n'))));
  };
  EXPECT_EQ(done(80, 2000), 200);
  EXPECT_EQ(done(81, 2000), 400);
  EXPECT_EQ(done(80, 2001), 400);
}

TEST_F(Limits, TwoThousandLinesAtOnce) {
  std::vector<RawLine> lines;
  for (int i = 0; i < 2000; ++i) lines.emplace_back(port());
  lines.back().send(request("GET", "/healthz"));
  EXPECT_EQ(status_of(lines.back().answer()), 200);
  EXPECT_EQ(ask(port(), request("GET", "/healthz")), 503);
  lines.pop_back();
  EXPECT_TRUE(faults::comes_true([&] { return ask(port(), request("GET", "/healthz")) == 200; }));
}

}  // namespace
}  // namespace hw::abuse
