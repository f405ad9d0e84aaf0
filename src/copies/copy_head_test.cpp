#include "src/copies/copy_head.h"

#include <gtest/gtest.h>

namespace hw::copies {
namespace {

CopyHead some_head() {
  CopyHead head{1, "0.1.0", "Werk Süd", *parse_instant("2026-11-26T02:00:00Z"), 17, std::string(64, 'a'), 0, {}};
  head.files = {{"hourwright.db", 4096, std::string(64, 'b')}, {"tls/server.pem", 2000, std::string(64, 'c')}};
  return head;
}

TEST(CopyHead, ReadsAsItWasPrinted) {
  const std::string text = print_head(some_head());
  const auto read = parse_head(text + "what follows\n");
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(read->head, some_head());
  EXPECT_EQ(read->bytes, text.size());
}

TEST(CopyHead, WhatIsNoCopyIsRefused) {
  for (const char* text :
       {"", "SQLite format 3", "Hourwright copy 1", "Hourwright copy 1\n{}", "Hourwright copy 1\n{}\n"}) {
    EXPECT_EQ(parse_head(text).error().code, ErrorCode::bad_input) << text;
  }
  EXPECT_EQ(parse_head("Hourwright copy 2\n{}\n").error().code, ErrorCode::unsupported);
}

TEST(CopyHead, AFileThatNoCopyHasIsRefused) {
  CopyHead head = some_head();
  head.files.push_back({"../../etc/passwd", 1, ""});
  EXPECT_EQ(parse_head(print_head(head)).error().code, ErrorCode::bad_input);
  head.files = {{"tls/server.pem", 1, ""}};
  EXPECT_EQ(parse_head(print_head(head)).error().code, ErrorCode::bad_input) << "a copy without a database";
}

}  // namespace
}  // namespace hw::copies
