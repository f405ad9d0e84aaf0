#include "src/catalogue/service_fields.h"

#include <algorithm>

#include "src/catalogue/task_fields.h"

namespace hw::catalogue {
namespace {

constexpr int service_months_max = 60;
constexpr int service_people_max = 4;

class ServiceReading {
 public:
  explicit ServiceReading(const std::vector<Task>& tasks) : tasks_(tasks) {}

  KindService read(TomlTable& table) {
    KindService service;
    service.key = table.text("key");
    service.title = table.text("title");
    service.title_de = table.text("title_de");
    service.months = whole_to(table, "months", service.months, service_months_max);
    service.people = whole_to(table, "people", service.people, service_people_max);
    service.tasks = table.texts("task");
    if (service.title.empty()) table.mistake("title", "it is what people call the service");
    if (service.tasks.empty()) table.mistake("task", "name one task at least");
    for (const std::string& task : service.tasks) check_task(table, service.key, task);
    return service;
  }

 private:
  static int whole_to(TomlTable& table, std::string_view field, int usual, int most) {
    const int value = table.whole_or(field, usual);
    if (value < 1 || value > most) table.mistake(field, fmt::format("{} must be 1 to {}", value, most));
    return value;
  }

  void check_task(TomlTable& table, const std::string& service, const std::string& key) {
    const auto task = std::find_if(tasks_.begin(), tasks_.end(), [&](const Task& one) { return one.key == key; });
    if (task == tasks_.end()) {
      table.mistake("task", fmt::format("\"{}\" is no task here", key));
    } else if (task->skill == Skill::outside_service) {
      table.mistake("task", fmt::format("\"{}\" is of outside service and comes by appointment; leave it out", key));
    }
    const auto [there, is_new] = services_.emplace(key, service);
    if (!is_new) table.mistake("task", fmt::format("\"{}\" is in the service \"{}\" already", key, there->second));
  }

  const std::vector<Task>& tasks_;
  std::map<std::string, std::string> services_;  // [task]: the service that it is in
};

}  // namespace

std::vector<KindService> read_services(TomlTable& document, const std::vector<Task>& tasks) {
  ServiceReading reading(tasks);
  auto services = document.each("service", [&](TomlTable& table) { return reading.read(table); });
  check_keys_once(document, "service", services);
  return services;
}

}  // namespace hw::catalogue
