#include "src/storage/derived_rows.h"

#include <set>

#include "libs/formats/json.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/finding_rows.h"
#include "src/storage/stop_rows.h"

namespace hw::storage {
namespace {

using service::Entry;
using service::GivenAnswer;

// Of a stray entry the answers count whose checks are there: they alone have a task.
// Whoever looked, read, or said that it is clean or full now has done the task; who said that it is not, or that it
// cannot be read, has not.
bool does_its_task(const GivenAnswer& answer) {
  return answer.task && (answer.kind == "look" || answer.answer != "not so");
}

std::set<std::string> tasks_done_by(const Entry& entry) {
  std::set<std::string> tasks;
  if (entry.kind == "task done" && entry.task && !entry.body.stray) tasks.insert(*entry.task);
  for (const GivenAnswer& answer : entry.body.answers.value_or(std::vector<GivenAnswer>{})) {
    if (does_its_task(answer)) tasks.insert(*answer.task);
  }
  return tasks;
}

Result<void> derive_tasks_done(sql::Connection& db, const Entry& entry) {
  for (const std::string& task : tasks_done_by(entry)) {
    HW_TRY(db.execute("insert into task_done(plant, machine, task, happened_ms, entry) values($1, $2, $3, $4, $5)",
                      db.tenant(), entry.machine, task, entry.happened_at.as_millis(), entry.id));
  }
  return {};
}

Result<void> derive_walk(sql::Connection& db, const Entry& entry) {
  if (entry.kind != "round begun") return {};
  HW_TRY(
      db.execute("insert into walk(plant, walk, machine, rhythm, by_name, begun_ms, checks) "
                 "values($1, $2, $3, $4, $5, $6, $7)",
                 db.tenant(), entry.id, entry.machine, entry.body.rhythm, entry.by, entry.happened_at.as_millis(),
                 formats::print_json(entry.body.checks.value_or(std::vector<std::string>{}))));
  return {};
}

Result<void> derive_answers(sql::Connection& db, const Entry& entry) {
  int place = 0;
  for (const GivenAnswer& answer : entry.body.answers.value_or(std::vector<GivenAnswer>{})) {
    HW_TRY(
        db.execute("insert into given_answer(plant, entry, place, machine, rhythm, walk, check_key, by_name, "
                   "happened_ms, value, body) values($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
                   db.tenant(), entry.id, place++, entry.machine, entry.body.rhythm, entry.body.walk, answer.check,
                   entry.by, entry.happened_at.as_millis(), answer.value, formats::print_json(answer)));
  }
  return {};
}

Result<void> derive_marks(sql::Connection& db, const Entry& entry) {
  if (entry.body.stray) {
    HW_TRY(db.execute("insert into stray(plant, entry) values($1, $2)", db.tenant(), entry.id));
  }
  if (entry.body.corrects) {
    HW_TRY(db.execute("insert into correction(plant, corrects, entry) values($1, $2, $3)", db.tenant(),
                      *entry.body.corrects, entry.id));
  }
  return {};
}

}  // namespace

Result<void> derive_rows(sql::Connection& db, const Entry& entry) {
  HW_TRY(derive_tasks_done(db, entry));
  HW_TRY(derive_walk(db, entry));
  HW_TRY(derive_answers(db, entry));
  HW_TRY(derive_marks(db, entry));
  HW_TRY(derive_finding(db, entry));
  return derive_stop(db, entry);
}

}  // namespace hw::storage
