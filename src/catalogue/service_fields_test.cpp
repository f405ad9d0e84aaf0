#include "src/catalogue/service_fields.h"

#include <gtest/gtest.h>

#include "src/catalogue/shop_files.h"

namespace hw::catalogue {
namespace {

std::string chuck_task(const std::string& key, const std::string& skill = "technician") {
  return fmt::format(R"([[task]]
key = "{}"
title = "Do it"
assembly = "chuck"
work = "replace"
skill = "{}"
energy = "isolated"
minutes = 30
trigger = [ {{ calendar = "12 months" }} ]
steps = []
reason = ""
caution = ""
parts = []
)",
                     key, skill);
}

const std::string yearly_text = R"([[service]]
key = "yearly"
title = "Yearly service"
title_de = "Jahreswartung"
months = 12
people = 2
task = ["oil", "belt"]
)";

Result<TaskSet> set_and(const std::string& services) {
  const std::string head = R"(format = "hourwright-task-set-1"
kind = "lathe"
title = "Lathe"
title_de = "Drehmaschine"
note = ""
[[assembly]]
key = "chuck"
title = "Chuck"
)";
  return parse_task_set(
      head + chuck_task("oil") + chuck_task("belt") + chuck_task("cabinet", "outside service") + services,
      "lathe.toml");
}

std::string yearly_with(std::string_view from, std::string_view to) {
  std::string text = yearly_text;
  return text.replace(text.find(from), from.size(), to);
}

TEST(ServiceFields, IsReadWithItsTasksInTheirOrder) {
  const auto set = set_and(yearly_text);
  ASSERT_TRUE(set.has_value()) << set.error().message;
  ASSERT_EQ(set->services.size(), 1u);
  EXPECT_EQ(set->services[0], (KindService{"yearly", "Yearly service", "Jahreswartung", 12, 2, {"oil", "belt"}}));
  EXPECT_TRUE(set_and("")->services.empty()) << "a kind need not have one";
}

TEST(ServiceFields, AMistakeIsNamedByFileLineAndFieldWithWhatWouldBeRight) {
  struct Case {
    std::string text;
    std::vector<std::string> says;
  };
  const std::vector<Case> cases{
      {yearly_with("\"belt\"", "\"bolt\""), {"lathe.toml, service 1, line 54, task", "\"bolt\" is no task here"}},
      {yearly_with("people = 2", "people = 0"), {"service 1, line 53, people", "0 must be 1 to 4"}},
      {yearly_with("people = 2", "people = 5"), {"people", "5 must be 1 to 4"}},
      {yearly_with("people = 2", "people = 1.5"), {"people", "whole number"}},
      {yearly_with("months = 12", "months = 0"), {"months", "0 must be 1 to 60"}},
      {yearly_with("[\"oil\", \"belt\"]", "[]"), {"task", "one task at least"}},
      {yearly_with("task = [\"oil\", \"belt\"]", ""), {"service 1", "task", "list of texts"}},
      {yearly_with("\"belt\"", "\"oil\""), {"\"oil\" is in the service \"yearly\" already"}},
      {yearly_with("\"belt\"", "\"cabinet\""), {"\"cabinet\"", "by appointment"}},
      {yearly_with("\"Yearly service\"", "\"\""), {"title", "what people call"}},
      {yearly_with("people", "persons"), {"persons", "no such field"}},
      {yearly_text + yearly_with("[\"oil\", \"belt\"]", "[\"belt\"]"),
       {"service 2", "in the service \"yearly\" already"}},
      {yearly_with("[\"oil\", \"belt\"]", "[\"oil\"]") + yearly_with("[\"oil\", \"belt\"]", "[\"belt\"]"),
       {"service", "\"yearly\" stands twice"}},
  };
  for (const Case& one : cases) {
    const auto set = set_and(one.text);
    ASSERT_FALSE(set.has_value()) << one.says.front();
    for (const auto& part : one.says) {
      EXPECT_NE(set.error().message.find(part), std::string::npos) << part << ": " << set.error().message;
    }
  }
}

}  // namespace
}  // namespace hw::catalogue
