// The table of commands, and what is made from it.

#include "src/terminal/command_table.h"

#include <cstdio>
#include <fstream>

#include <gmock/gmock.h>

#include "libs/sql/test_folder.h"
#include "src/terminal/called_test.h"
#include "src/terminal/completion.h"
#include "src/terminal/man_page.h"

namespace hw::terminal {
namespace {

using testing::HasSubstr;

const std::vector<CommandRow> small_table{
    {"serve", "Serves it", {{"--data", "DIR", "the folder", ".", {}, true}, {"--group", "", "all plants", "", {}}}},
    {"life", "Lives", {}},
    {"life fit", "Fits them", {{"--kind", "TEXT:{a,b}", "it's one", "", {"a", "b"}}}, true}};

// What the command says on standard output.
std::string said_by(const std::string& command) {
  std::string text;
  FILE* pipe = ::popen(command.c_str(), "r");
  char piece[4096];
  for (std::size_t got = 0; (got = std::fread(piece, 1, sizeof piece, pipe)) > 0;) text.append(piece, got);
  ::pclose(pipe);
  return text;
}

TEST(ManPage, HasEveryCommandAndOption) {
  const std::string page = man_page(small_table);
  EXPECT_THAT(page, HasSubstr(".SS hourwright life fit\nFits them\n"));
  EXPECT_THAT(page, HasSubstr(".TP\n\\fB\\-\\-data\\fR \\fIDIR\\fR\nthe folder (where nothing is said: \\&.)\n"));
  EXPECT_THAT(page, HasSubstr(".TP\n\\fB\\-\\-group\\fR\nall plants\n"));
}

TEST(Completion, OfBashKnowsCommandsTheirCommandsAndOptions) {
  const sql::TestFolder folder;
  const std::string script = (folder.path() / "completion").string();
  std::ofstream(script) << bash_completion(small_table);
  const auto completed = [&](const std::string& words, int at) {
    return said_by(
        fmt::format("bash -c 'compopt() {{ :; }}; source {}; COMP_WORDS=({}); COMP_CWORD={}; _hourwright; "
                    "echo \"${{COMPREPLY[*]}}\"'",
                    script, words, at));
  };
  EXPECT_EQ(completed("hourwright \"\"", 1), "serve life\n");
  EXPECT_EQ(completed("hourwright s", 1), "serve\n");
  EXPECT_EQ(completed("hourwright life f", 2), "fit\n");
  EXPECT_EQ(completed("hourwright serve --", 2), "--data --group\n");
  EXPECT_EQ(completed("hourwright life fit --kind \"\"", 4), "a b\n");
  EXPECT_EQ(completed("hourwright serve --data \"\"", 3), "\n") << "left to bash, which knows folders";
}

TEST(Completion, OfFishSaysEachWithItsWords) {
  const std::string script = fish_completion(small_table);
  EXPECT_THAT(script, HasSubstr("complete -c hourwright -f -n '__fish_use_subcommand' -a serve -d 'Serves it'"));
  EXPECT_THAT(script, HasSubstr("-n '__fish_seen_subcommand_from life' -a fit"));
  EXPECT_THAT(script, HasSubstr("-l kind -x -a 'a b' -d 'it\\'s one'"));
  EXPECT_THAT(script, HasSubstr("-l data -r -F -d 'the folder'"));
}

TEST(CommandTable, IsThatOfTheProgram) {
  const std::string page = call({"help", "--man"}).output;
  for (const char* part :
       {".SS hourwright serve", ".SS hourwright life fit", "\\-\\-listen\\-tls", ".SS hourwright config show"}) {
    EXPECT_THAT(page, HasSubstr(part));
  }
  EXPECT_THAT(call({"help", "--completion", "bash"}).output, HasSubstr("complete -F _hourwright hourwright"));
  EXPECT_THAT(call({"help", "--completion", "fish"}).output, HasSubstr("complete -c hourwright"));
  expect_refused(call({"help", "--completion", "csh"}), 2, "csh");
}

TEST(CommandTable, ItsManPageReadsWithoutAWarning) {
  const sql::TestFolder folder;
  const std::string file = (folder.path() / "hourwright.1").string();
  std::ofstream(file) << call({"help", "--man"}).output;
  EXPECT_EQ(said_by(fmt::format("groff -man -ww -z -Tutf8 {} 2>&1", file)), "");
}

}  // namespace
}  // namespace hw::terminal
