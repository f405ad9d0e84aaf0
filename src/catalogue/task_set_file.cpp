#include <algorithm>

#include "src/catalogue/isolation_fields.h"
#include "src/catalogue/service_fields.h"
#include "src/catalogue/shop_files.h"
#include "src/catalogue/task_fields.h"

namespace hw::catalogue {
namespace {

Assembly read_assembly(TomlTable& table) { return {table.text("key"), table.text("title")}; }

Point read_point(TomlTable& table) {
  Point point;
  point.number = table.whole_or("number", 0);
  point.assembly = table.text("assembly");
  point.title = table.text("title");
  point.x = table.number("x");
  point.y = table.number("y");
  if (point.number < 1) table.mistake("number", "points are numbered from 1");
  if (!(point.x >= 0 && point.x <= 1)) table.mistake("x", "it is 0 (left) to 1 (right)");
  if (!(point.y >= 0 && point.y <= 1)) table.mistake("y", "it is 0 (back) to 1 (front)");
  return point;
}

// What comes before a task is another task of the set, and none waits for itself.
void check_afters(TomlTable& table, const TaskSet& set) {
  const auto has_task = [&](const std::string& key) {
    return std::any_of(set.tasks.begin(), set.tasks.end(), [&](const auto& one) { return one.key == key; });
  };
  for (const Task& task : set.tasks) {
    for (const std::string& other : task.after) {
      if (has_task(other)) continue;
      table.mistake("task", fmt::format("\"{}\" comes after \"{}\", which is no task here", task.key, other));
    }
  }
  if (auto checked = check_precedence(set.tasks); !checked) table.mistake("task", checked.error().message);
}

// What points, tasks and isolation points name must be there.
void check_references(TomlTable& table, const TaskSet& set) {
  const auto has_assembly = [&](const std::string& key) {
    return std::any_of(set.assemblies.begin(), set.assemblies.end(), [&](const auto& one) { return one.key == key; });
  };
  const auto has_point = [&](int number) {
    return std::any_of(set.points.begin(), set.points.end(), [&](const auto& one) { return one.number == number; });
  };
  for (const Point& point : set.points) {
    if (has_assembly(point.assembly)) continue;
    table.mistake("point",
                  fmt::format("point {} is on \"{}\", which is no assembly here", point.number, point.assembly));
  }
  for (const Task& task : set.tasks) {
    if (!has_assembly(task.assembly)) {
      table.mistake("task", fmt::format("\"{}\" is on \"{}\", which is no assembly here", task.key, task.assembly));
    }
    if (task.point && !has_point(*task.point)) {
      table.mistake("task", fmt::format("\"{}\" is at point {}, which is not there", task.key, *task.point));
    }
  }
  for (const IsolationPoint& one : set.isolation.points) {
    if (!one.point || has_point(*one.point)) continue;
    table.mistake("isolation", fmt::format("\"{}\" is at point {}, which is not there", one.key, *one.point));
  }
}

TaskSet read_task_set(TomlTable& table) {
  TaskSet set;
  if (table.text("format") != "hourwright-task-set-1") table.mistake("format", "it is \"hourwright-task-set-1\"");
  set.kind = table.text("kind");
  set.title = table.text("title");
  set.title_de = table.text("title_de");
  set.note = table.text("note");
  set.assemblies = table.each("assembly", read_assembly);
  set.points = table.each("point", read_point);
  set.isolation = read_isolation(table);
  set.tasks = table.each("task", read_task);
  set.services = read_services(table, set.tasks);
  check_keys_once(table, "assembly", set.assemblies);
  check_once(table, "point", set.points, [](const Point& point) { return fmt::format("{}", point.number); });
  check_keys_once(table, "task", set.tasks);
  check_references(table, set);
  check_afters(table, set);
  return set;
}

}  // namespace

Result<TaskSet> parse_task_set(std::string_view text, std::string_view file) {
  return read_document(text, file, read_task_set);
}

}  // namespace hw::catalogue
