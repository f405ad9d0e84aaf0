#include "src/terminal/settings.h"

#include <fstream>

#include <gmock/gmock.h>

#include "libs/sql/test_folder.h"
#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

const std::vector<std::string> known{"listen", "name", "store-every", "group"};

TEST(Settings, StandInAFileWithTheirLines) {
  const auto read = parse_settings("listen = \"0.0.0.0:1\"\n\nname = [\"a\", \"b\"]\nstore-every = 2.5\ngroup = true\n",
                                   "h.toml", known);
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_THAT(read->at("name").values, ElementsAre("a", "b"));
  EXPECT_EQ(read->at("name").origin, "h.toml, line 3");
  EXPECT_THAT(read->at("store-every").values, ElementsAre("2.5"));
  EXPECT_THAT(read->at("group").values, ElementsAre("true"));
}

TEST(Settings, ThatCannotBeAreRefusedWithTheirLine) {
  const auto refusal = [](const std::string& text) {
    const auto read = parse_settings(text, "h.toml", known);
    EXPECT_FALSE(read) << text;
    return read ? "" : read.error().message;
  };
  EXPECT_THAT(refusal("# one\nlissten = 1\n"), HasSubstr("h.toml, line 2: there is no setting \"lissten\"; there are"));
  EXPECT_THAT(refusal("listen = \n"), HasSubstr("h.toml, line 1"));
  EXPECT_THAT(refusal("listen = \"a\"\nlisten = \"b\"\n"), HasSubstr("h.toml, line 2"));
  EXPECT_THAT(refusal("[listen]\na = 1\n"), HasSubstr("is right"));
  EXPECT_THAT(refusal("name = [1]\n"), HasSubstr("in an array texts are right"));
  EXPECT_THAT(refusal("listen = 2026-01-01\n"), HasSubstr("is right"));
}

TEST(Settings, HaveAVariableEach) { EXPECT_EQ(variable_of("listen-tls"), "HOURWRIGHT_LISTEN_TLS"); }

// A server called with words, a file and variables; what it was called with in the end.
struct SettingsOfAServer : testing::Test {
  ServeCall served;
  sql::TestFolder folder;
  std::string file = (folder.path() / "h.toml").string();
  std::vector<std::string> set;

  ~SettingsOfAServer() override {
    for (const std::string& name : set) ::unsetenv(name.c_str());
  }
  void put(const std::string& text) const { std::ofstream(file) << text; }
  void put_variable(const std::string& name, const std::string& value) {
    ::setenv(name.c_str(), value.c_str(), 1);
    set.push_back(name);
  }
  int serve(std::vector<std::string> words) {
    Entrances entrances;
    entrances.serve = [&](const ServeCall& one) -> Answer { return served = one, ""; };
    words.insert(words.begin(), {"hourwright", "serve", "--config", file});
    std::vector<char*> pointers;
    for (std::string& word : words) pointers.push_back(word.data());
    return run(static_cast<int>(pointers.size()), pointers.data(), entrances);
  }
};

TEST_F(SettingsOfAServer, AnOptionGoesBeforeTheEnvironmentAndThatBeforeTheFile) {
  put("data = \"from-file\"\nlisten = \"file:1\"\nstore-every = 9\nname = [\"a\", \"b\"]\nupward = "
      "\"http://127.0.0.1\"\n");
  put_variable("HOURWRIGHT_LISTEN", "variable:1");
  put_variable("HOURWRIGHT_STORE_EVERY", "8");
  ASSERT_EQ(serve({"--store-every", "7"}), 0);
  EXPECT_EQ(served.data, "from-file");
  EXPECT_EQ(served.listen, "variable:1");
  EXPECT_EQ(served.store_every_s, 7);
  EXPECT_THAT(served.names, ElementsAre("a", "b"));
  EXPECT_EQ(served.copies_hour, 2) << "by itself";
}

TEST_F(SettingsOfAServer, AFlagMayBeFalse) {
  put("data = \"d\"\ngroup = true\n");
  ASSERT_EQ(serve({}), 0);
  EXPECT_TRUE(served.is_group);
  put_variable("HOURWRIGHT_GROUP", "false");
  ASSERT_EQ(serve({}), 0);
  EXPECT_FALSE(served.is_group);
}

TEST_F(SettingsOfAServer, SeveralInAVariableHaveCommasBetween) {
  put("data = \"d\"\n");
  put_variable("HOURWRIGHT_NAME", "a.example,b.example");
  ASSERT_EQ(serve({}), 0);
  EXPECT_THAT(served.names, ElementsAre("a.example", "b.example"));
}

TEST_F(SettingsOfAServer, AWrongValueIsSaidWithItsPlace) {
  put("data = \"d\"\n\ncopies-hour = 99\n");
  testing::internal::CaptureStderr();
  EXPECT_EQ(serve({}), 2);
  EXPECT_THAT(testing::internal::GetCapturedStderr(),
              HasSubstr("h.toml, line 3: --copies-hour: Value 99 not in range"));
  std::filesystem::remove(file);
  testing::internal::CaptureStderr();
  EXPECT_EQ(serve({}), 1);
  EXPECT_THAT(testing::internal::GetCapturedStderr(), HasSubstr("h.toml"));
}

}  // namespace
}  // namespace hw::terminal
