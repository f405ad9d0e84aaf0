#include "src/storage/walk_rows.h"

#include <algorithm>
#include <map>

#include "libs/formats/json.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/stored_text.h"

namespace hw::storage {
namespace {

using service::AnswerRecord;
using service::WalkRecord;

using Walks = std::map<std::string, WalkRecord>;

constexpr std::string_view walk_query =
    "select walk, rhythm, by_name, begun_ms, checks from walk where plant = $1 and machine = $2 and ";
constexpr std::string_view answer_query =
    "select g.walk, g.entry, g.by_name, g.happened_ms, e.device_ms, g.body, g.rhythm from given_answer g "
    "join entry e on e.plant = g.plant and e.id = g.entry where g.plant = $1 and g.machine = $2 and ";

Result<AnswerRecord> answer_of(const sql::Rows& rows) {
  AnswerRecord answer;
  answer.walk = rows.get<std::string>(0);
  answer.entry = rows.get<std::string>(1);
  answer.by = rows.get<std::string>(2);
  answer.happened_at = Instant::from_millis(rows.get<std::int64_t>(3));
  answer.device_at = instant_of(rows.get<std::optional<std::int64_t>>(4));
  HW_TAKE(body, stored(formats::parse_json<service::GivenAnswer>(rows.get<std::string_view>(5)), "given_answer.body"));
  answer.answer = std::move(body);
  return answer;
}

Result<void> take_walks(sql::Rows& rows, Walks& walks) {
  while (rows.next()) {
    WalkRecord& walk = walks[rows.get<std::string>(0)];
    walk.walk = rows.get<std::string>(0);
    walk.rhythm = rows.get<std::string>(1);
    walk.by = rows.get<std::string>(2);
    walk.begun_at = Instant::from_millis(rows.get<std::int64_t>(3));
    HW_TAKE(checks,
            stored(formats::parse_json<std::vector<std::string>>(rows.get<std::string_view>(4)), "walk.checks"));
    walk.checks = std::move(checks);
  }
  return {};
}

// Those of each walk in order of time: of a walk that has not arrived the first is its beginning.
Result<void> take_answers(sql::Rows& rows, Walks& walks) {
  while (rows.next()) {
    HW_TAKE(answer, answer_of(rows));
    WalkRecord& walk = walks[answer.walk];
    if (walk.walk.empty()) {
      walk.walk = answer.walk;
      walk.rhythm = rows.get<std::string>(6);
      walk.by = answer.by;
      walk.begun_at = answer.happened_at;
    }
    walk.answers.push_back(std::move(answer));
  }
  return {};
}

std::vector<WalkRecord> in_order(Walks&& walks) {
  std::vector<WalkRecord> out;
  for (auto& [id, walk] : walks) out.push_back(std::move(walk));
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.begun_at < b.begun_at; });
  return out;
}

Result<std::int64_t> latest_ms(sql::Connection& db, std::string_view machine) {
  HW_TAKE(begun,
          db.query_value<std::int64_t>("select coalesce(max(begun_ms), 0) from walk where plant = $1 and machine = $2",
                                       db.tenant(), machine));
  HW_TAKE(answered, db.query_value<std::int64_t>(
                        "select coalesce(max(happened_ms), 0) from given_answer where plant = $1 and machine = $2",
                        db.tenant(), machine));
  return std::max(begun.value_or(0), answered.value_or(0));
}

}  // namespace

Result<std::vector<WalkRecord>> read_latest_walks(sql::Connection& db, std::string_view machine, Duration back) {
  HW_TAKE(latest, latest_ms(db, machine));
  const std::int64_t since = latest - back.ns / 1'000'000;
  Walks walks;
  HW_TAKE(begun, db.query(fmt::format("{}begun_ms >= $3", walk_query), db.tenant(), machine, since));
  HW_TRY(take_walks(begun, walks));
  HW_TAKE(answered,
          db.query(fmt::format("{}g.happened_ms >= $3 order by g.happened_ms, g.entry, g.place", answer_query),
                   db.tenant(), machine, since));
  HW_TRY(take_answers(answered, walks));
  return in_order(std::move(walks));
}

Result<std::optional<WalkRecord>> read_walk(sql::Connection& db, std::string_view machine, std::string_view walk) {
  Walks walks;
  HW_TAKE(begun, db.query(fmt::format("{}walk = $3", walk_query), db.tenant(), machine, walk));
  HW_TRY(take_walks(begun, walks));
  HW_TAKE(answered, db.query(fmt::format("{}g.walk = $3 order by g.happened_ms, g.entry, g.place", answer_query),
                             db.tenant(), machine, walk));
  HW_TRY(take_answers(answered, walks));
  if (walks.empty()) return std::optional<WalkRecord>{};
  return std::optional{std::move(walks.begin()->second)};
}

Result<std::vector<AnswerRecord>> read_readings(sql::Connection& db, std::string_view machine, std::string_view check,
                                                int count_max) {
  std::vector<AnswerRecord> readings;
  HW_TAKE(rows, db.query(fmt::format("{}g.check_key = $3 and g.value is not null order by g.happened_ms desc, "
                                     "g.entry desc limit $4",
                                     answer_query),
                         db.tenant(), machine, check, count_max));
  while (rows.next()) {
    HW_TAKE(answer, answer_of(rows));
    readings.push_back(std::move(answer));
  }
  return readings;
}

}  // namespace hw::storage
