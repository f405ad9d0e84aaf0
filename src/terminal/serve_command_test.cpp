#include "src/terminal/serve_command.h"

#include <gtest/gtest.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

TEST(ServeCommand, WithoutItsFolderIsWrongUsage) {
  expect_refused(call({"serve"}), 2, "--data");
  expect_refused(call({"serve", "--data"}), 2, "--data");
  expect_refused(call({"serve", "--data", "d", "--colour", "red"}), 2, "--colour");
  expect_refused(call({"serve", "--data", "d", "more"}), 2, "more");
}

TEST(FoundCommand, WithoutItsFolderOrItsFileIsWrongUsage) {
  expect_refused(call({"found", "--data", "d"}), 2, "--shop");
  expect_refused(call({"found", "--shop", "s.toml"}), 2, "--data");
}

TEST(DemoCommand, TakesNoFolder) { expect_refused(call({"demo", "--data", "d"}), 2, "--data"); }

TEST(ServeCommand, HandsOnWhatItWasCalledWith) {
  ServeCall served;
  FoundCall made;
  DemoCall shown;
  const Entrances entrances{.serve = [&](const ServeCall& one) -> Answer { return served = one, ""; },
                            .found = [&](const FoundCall& one) -> Answer { return made = one, ""; },
                            .demo = [&](const DemoCall& one) -> Answer { return shown = one, ""; },
                            .verify = {},
                            .look_into = {}};
  const auto exit_status = [&](std::vector<std::string> words) {
    words.insert(words.begin(), "hourwright");
    std::vector<char*> pointers;
    for (std::string& word : words) pointers.push_back(word.data());
    return run(static_cast<int>(pointers.size()), pointers.data(), entrances);
  };
  EXPECT_EQ(exit_status({"serve", "--data", "d"}), 0);
  EXPECT_EQ(served.data, "d");
  EXPECT_EQ(served.listen, "127.0.0.1:8470");
  EXPECT_EQ(exit_status({"serve", "--data", "d", "--listen", ":0"}), 0);
  EXPECT_EQ(served.listen, ":0");
  EXPECT_FALSE(served.listen_tls);
  EXPECT_EQ(exit_status({"serve", "--data", "d", "--listen-tls", "0.0.0.0:8471", "--name", "a", "--name", "b"}), 0);
  EXPECT_EQ(served.listen_tls, "0.0.0.0:8471");
  EXPECT_EQ(served.names, (std::vector<std::string>{"a", "b"}));
  EXPECT_EQ(exit_status({"found", "--data", "d", "--shop", "s.toml"}), 0);
  EXPECT_EQ(made.shop, "s.toml");
  EXPECT_EQ(exit_status({"demo", "--listen", "127.0.0.1:9000"}), 0);
  EXPECT_EQ(shown.listen, "127.0.0.1:9000");
}

TEST(EdgeCommand, HandsOnWhereItSendsAndServesLikeServe) {
  EdgeCall called;
  Entrances entrances;
  entrances.edge = [&](const EdgeCall& one) -> Answer { return called = one, ""; };
  std::vector<std::string> words{"hourwright",   "edge", "--data",       "d",  "--upward", "http://north.shops.example",
                                 "--token-file", "t",    "--send-every", "30", "--listen", ":0"};
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  ASSERT_EQ(run(static_cast<int>(pointers.size()), pointers.data(), entrances), 0);
  EXPECT_EQ(called.serve.data, "d");
  EXPECT_EQ(called.serve.listen, ":0");
  EXPECT_EQ(called.upward, "http://north.shops.example");
  EXPECT_EQ(called.token_file, "t");
  EXPECT_EQ(called.every_s, 30);
  expect_refused(call({"edge", "--data", "d", "--token-file", "t"}), 2, "--upward");
  expect_refused(call({"edge", "--data", "d", "--upward", "u"}), 2, "--token-file");
  expect_refused(call({"edge", "--data", "d", "--upward", "u", "--token-file", "t", "--send-every", "0"}), 2,
                 "--send-every");
}

TEST(FoundCommand, ForAnEdgeTakesNoFile) {
  FoundCall made;
  Entrances entrances;
  entrances.found = [&](const FoundCall& one) -> Answer { return made = one, ""; };
  std::vector<std::string> words{"hourwright",      "found",   "--data", "d",     "--database",
                                 "postgresql:///x", "--plant", "north",  "--edge"};
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  ASSERT_EQ(run(static_cast<int>(pointers.size()), pointers.data(), entrances), 0);
  EXPECT_TRUE(made.is_at_edge);
  EXPECT_EQ(made.plant, "north");
  expect_refused(call({"found", "--data", "d", "--edge", "--shop", "s.toml"}), 2, "--edge");
  expect_refused(call({"found", "--data", "d"}), 2, "--shop");
}

// What broke in the world reaches the shell as a sentence and exit status 1, not as an abort.
TEST(ServeCommand, ADiskThatFailsIsOneSentence) {
  const Entrances entrances{
      .serve = [](const ServeCall&) -> Answer { throw std::runtime_error("hourwright.db: the disk is full"); },
      .found = {},
      .demo = {},
      .verify = {},
      .look_into = {}};
  std::vector<std::string> words{"hourwright", "serve", "--data", "d"};
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  testing::internal::CaptureStderr();
  EXPECT_EQ(run(static_cast<int>(pointers.size()), pointers.data(), entrances), 1);
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "hourwright: hourwright.db: the disk is full\n");
}

}  // namespace
}  // namespace hw::terminal
