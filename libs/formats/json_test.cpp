#include "libs/formats/json.h"

#include <cmath>
#include <cstring>
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "libs/formats/utf8.h"

namespace hw::formats {
namespace {

enum class WorkType { inspect, top_up };
BOOST_DESCRIBE_ENUM(WorkType, inspect, top_up)

struct Task {
  std::string name;
  double interval = 0;
  WorkType work = WorkType::inspect;
  std::optional<std::string> note;
  bool operator==(const Task&) const = default;
};
BOOST_DESCRIBE_STRUCT(Task, (), (name, interval, work, note))

struct Shop {
  std::vector<Task> tasks;
  std::map<std::string, std::uint8_t> spares;
  LocalDate since;
  std::optional<Instant> seen_at;
  OrNull<double> hours;
  std::array<double, 2> bounds{};
  bool operator==(const Shop&) const = default;
};
BOOST_DESCRIBE_STRUCT(Shop, (), (tasks, spares, since, seen_at, hours, bounds))

const Shop some_shop = {
    .tasks = {{"grease the ways", 500, WorkType::top_up, {}}, {"look \"around\"\n", 0.1, WorkType::inspect, "é\x01"}},
    .spares = {{"filter", 2}},
    .since = LocalDate::of(2026, 3, 2),
    .seen_at = Instant{1'463'979'600'020'703'000},
    .hours = {},
    .bounds = {-0.5, 1e300}};

constexpr std::string_view some_shop_text =
    R"({"tasks":[{"name":"grease the ways","interval":500,"work":"top up"},)"
    R"({"name":"look \"around\"\n","interval":0.1,"work":"inspect","note":"é\u0001"}],)"
    R"("spares":{"filter":2},"since":"2026-03-02","seen_at":"2016-05-23T05:00:00.020703Z","hours":null,)"
    R"("bounds":[-0.5,1e+300]})";

template <class T>
std::string message_for(std::string_view text, const JsonLimits& limits = {}) {
  const auto read = parse_json<T>(text, limits);
  return read ? "accepted" : read.error().message;
}

TEST(Json, AStructIsPrintedInItsOrderAndReadBack) {
  EXPECT_EQ(print_json(some_shop), some_shop_text);
  const auto read = parse_json<Shop>(some_shop_text);
  ASSERT_TRUE(read.has_value()) << read.error().message;
  EXPECT_TRUE(*read == some_shop);
}

TEST(Json, FieldsMayComeInAnyOrderAndOptionalOnesBeAbsentOrNull) {
  const auto task =
      parse_json<Task>(" {\"work\" : \"inspect\", \"interval\": 3, \"name\":\"\\u00e9\\ud83d\\ude00\"}\n");
  ASSERT_TRUE(task.has_value()) << task.error().message;
  EXPECT_EQ(*task, (Task{"é😀", 3, WorkType::inspect, {}}));
  EXPECT_EQ(parse_json<Task>(R"({"name":"a","interval":3,"work":"inspect","note":null})")->note, std::nullopt);
}

TEST(Json, WhatDoesNotFitIsRefusedByItsPath) {
  const auto shop_with = [](std::string_view task) {
    return message_for<Shop>(R"({"tasks":[{"name":"a","interval":1,"work":"inspect"},)" + std::string(task) +
                             R"(],"spares":{},"since":"2026-03-02","hours":1,"bounds":[0,0]})");
  };
  EXPECT_EQ(shop_with(R"({"name":"a","interval":"1","work":"inspect"})"),
            "tasks[1].interval: must be a number, not a text");
  EXPECT_EQ(shop_with(R"({"name":"a","work":"inspect"})"), "tasks[1].interval: is missing");
  EXPECT_EQ(shop_with(R"({"name":"a","interval":1,"work":"inspect","nota":1})"),
            "tasks[1].nota: no such field here; known are name, interval, work, note");
  EXPECT_EQ(shop_with(R"({"name":"a","interval":1,"work":"top_up"})"),
            "tasks[1].work: must be one of \"inspect\", \"top up\", not \"top_up\"");
  EXPECT_EQ(shop_with("[]"), "tasks[1]: must be an object, not a list");
  EXPECT_EQ(shop_with("{}"), "tasks[1].name: is missing");
  EXPECT_EQ(message_for<Task>("[]"), "must be an object, not a list");
  EXPECT_EQ(message_for<std::vector<bool>>("[true,0]"), "[1]: must be true or false, not a number");
  EXPECT_EQ((message_for<std::array<double, 2>>("[1]")), "must be a list of 2, not of 1");
  EXPECT_EQ((message_for<std::map<std::string, double>>(R"({"a":1,"b":null})")), "b: must be a number, not null");
  EXPECT_NE(message_for<std::vector<LocalDate>>(R"(["2026-02-30"])").find("[0]: "), std::string::npos);
}

TEST(Json, OrNullMustBeThere) {
  EXPECT_EQ(message_for<Shop>(R"({"tasks":[],"spares":{},"since":"2026-03-02","bounds":[0,0]})"), "hours: is missing");
}

TEST(Json, WholeNumbersAreReadWholeAndInRange) {
  EXPECT_EQ(parse_json<std::int64_t>("-9223372036854775808"), std::numeric_limits<std::int64_t>::min());
  EXPECT_EQ(parse_json<std::uint64_t>("18446744073709551615"), std::numeric_limits<std::uint64_t>::max());
  EXPECT_EQ(parse_json<std::uint8_t>("255"), 255);
  for (const char* text : {"256", "-1", "1.0", "1e1", "18446744073709551616"}) {
    EXPECT_EQ(message_for<std::uint8_t>(text),
              "must be a whole number from 0 to 255, written without point or exponent")
        << text;
  }
  EXPECT_EQ(print_json(std::numeric_limits<std::uint64_t>::max()), "18446744073709551615");
}

TEST(Json, NumbersBeyondADoubleAreRefusedBothWays) {
  EXPECT_EQ(message_for<double>("1e309"), "line 1, column 6: the number 1e309 is beyond the range of a double");
  EXPECT_EQ(message_for<std::vector<double>>("[1, -1e999]"),
            "line 1, column 11: the number -1e999 is beyond the range of a double");
  EXPECT_NE(message_for<double>("1e99999999999999"), "accepted");
  EXPECT_NE(message_for<double>("NaN"), "accepted");
  EXPECT_NE(message_for<double>("Infinity"), "accepted");
  EXPECT_DEATH(print_json(std::nan("")), "finite");
  EXPECT_DEATH(print_json(std::vector<double>{std::numeric_limits<double>::infinity()}), "finite");
}

TEST(Json, DoublesArePrintedAsAPersonWouldWriteThem) {
  const std::vector<std::pair<double, std::string>> cases = {{30, "30"},
                                                             {-0.0, "-0"},
                                                             {0.1, "0.1"},
                                                             {100'000, "100000"},
                                                             {31627.020703, "31627.020703"},
                                                             {1e16, "10000000000000000"},
                                                             {1e22, "1e+22"},
                                                             {5e-324, "5e-324"},
                                                             {0.0005, "0.0005"},
                                                             {1.0 / 3, "0.3333333333333333"}};
  for (const auto& [number, text] : cases) EXPECT_EQ(print_json(number), text);
}

TEST(Json, DoublesAreReadCorrectlyRounded) {
  for (const char* text : {"0.1", "9007199254740993.0", "1.7976931348623157e308", "2.2250738585072011e-308", "5e-324",
                           "123456789012345678901234567890", "0.500000000000000166533453693773481063544750213623046875",
                           "4.35", "8.5e-5", "1e23", "1e-400", "-1e-400"}) {
    const auto read = parse_json<double>(text);
    ASSERT_TRUE(read.has_value()) << text;
    EXPECT_EQ(*read, std::strtod(text, nullptr)) << text;
    EXPECT_EQ(std::signbit(*read), text[0] == '-') << text;
    EXPECT_EQ(*parse_json<std::vector<double>>("[1," + std::string(text) + " ]"), (std::vector<double>{1, *read}));
  }
}

TEST(Json, ExactNumbersKeepTheirDigits) {
  EXPECT_EQ(print_json(std::vector<ExactNumber>{{print_seconds({31'627'020'703'000})}, {"-0.50"}, {"1e5"}}),
            "[31627.020703,-0.50,1e5]");
  for (const char* text : {"", "-", "01", "1.", ".5", "1e", "0x1", "1 ", "nan"}) {
    EXPECT_DEATH(print_json(ExactNumber{text}), "exact number") << text;
  }
}

TEST(Json, DuplicateFieldsAreRefused) {
  EXPECT_EQ(message_for<boost::json::value>("{\"a\":1,\n\"b\":{\"c\":1,\"c\":2}}"),
            "line 2, column 17: the field \"c\" stands twice in the object that ends here");
  EXPECT_EQ(message_for<boost::json::value>("{\"a\":{\"a\":1},\"b\":{\"a\":2}}"), "accepted");
}

TEST(Json, WhatIsNoJsonIsRefusedByLineAndColumn) {
  EXPECT_EQ(message_for<Task>("{\n  'name'"), "line 2, column 3: no JSON: syntax error");
  EXPECT_EQ(message_for<Task>("{\"name\":"), "line 1, column 9: no JSON: incomplete JSON");
  EXPECT_EQ(message_for<Task>("{} x"), "line 1, column 4: no JSON: something follows after the end");
  for (const char* text : {"", "  ", "[1,]", "{\"a\":1,}", "\"\xFF\"", "\"\xC0\x80\"", "\"a", "\"\\ud800\"", "01",
                           "1 2", "// c\n1", "<html>", "nul"}) {
    EXPECT_NE(message_for<boost::json::value>(text), "accepted") << text;
  }
}

TEST(Json, LimitsHoldForDepthAndLength) {
  const auto nested = [](std::size_t depth) { return std::string(depth, '[') + std::string(depth, ']'); };
  EXPECT_EQ(message_for<boost::json::value>(nested(64)), "accepted");
  const auto deep = parse_json<boost::json::value>(nested(65));
  ASSERT_FALSE(deep.has_value());
  EXPECT_EQ(deep.error().code, ErrorCode::too_large);
  EXPECT_NE(message_for<boost::json::value>(std::string(1'000'000, '[')), "accepted");
  EXPECT_EQ(parse_json<boost::json::value>("[1,2]", {.bytes_max = 4}).error().code, ErrorCode::too_large);
}

TEST(Json, TreesPassThroughAndAByteOrderMarkIsSkipped) {
  const std::string text = R"({"b":[1,-2,18446744073709551615,1.5,true,null,"\\"],"a":{}})";
  EXPECT_EQ(print_json(*parse_json<boost::json::value>(text)), text);
  EXPECT_EQ(parse_json<int>("\xEF\xBB\xBF"
                            "7"),
            7);
}

TEST(Json, TextThatIsNoUtf8IsPrintedWithMarks) {
  EXPECT_EQ(print_json(std::string("a\xFF"
                                   "b\xC3")),
            "\"a\xEF\xBF\xBD"
            "b\xEF\xBF\xBD\"");
}

TEST(Json, EmptyContainersKeepTheirBrackets) {
  EXPECT_EQ(print_json(std::vector<int>{}), "[]");
  EXPECT_EQ(print_json(std::map<std::string, int>{}), "{}");
  EXPECT_EQ(print_json(std::vector<std::optional<int>>{{}, 1}), "[null,1]");
}

RC_GTEST_PROP(Json, Property_EveryFiniteDoubleReadsBackToTheSameBits, (std::uint64_t bits)) {
  double number = 0;
  std::memcpy(&number, &bits, sizeof number);
  RC_PRE(std::isfinite(number));
  const auto read = parse_json<double>(print_json(number));
  RC_ASSERT(read.has_value());
  RC_ASSERT(std::memcmp(&*read, &number, sizeof number) == 0);
}

RC_GTEST_PROP(Json, Property_WhatIsPrintedReadsBack,
              (const std::vector<std::pair<std::uint32_t, std::vector<std::int64_t>>>& letters)) {
  std::map<std::string, std::vector<std::int64_t>> by_text;
  std::string text;
  for (const auto& [letter, numbers] : letters) {
    append_utf8(text, letter % 0x110000);
    by_text[text] = numbers;
  }
  RC_ASSERT(parse_json<decltype(by_text)>(print_json(by_text)) == by_text);
}

RC_GTEST_PROP(Json, Property_AnyBytesAreReadOrRefusedButNeverBreakAnything, (const std::string& bytes)) {
  const auto tree = parse_json<boost::json::value>(bytes);
  if (tree) RC_ASSERT(parse_json<boost::json::value>(print_json(*tree)).has_value());
  RC_ASSERT(parse_json<boost::json::value>(print_json(bytes)).has_value());
}

}  // namespace
}  // namespace hw::formats
