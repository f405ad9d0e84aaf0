// A group of 250 plants with 5,000 machines on one PostgreSQL and two servers: how fast its Floor is answered, beside a
// bare Beast server that sends the same bytes; how long a server takes to open its plants, and the other one to take
// over all of them when it is killed.
//   group_bench FOLDER   prints one JSON object; FOLDER is a temporary one

#include <algorithm>
#include <chrono>
#include <filesystem>

#include <boost/json.hpp>
#include <fmt/format.h>

#include "bench/floor/bare_server.h"
#include "bench/floor/load.h"
#include "libs/http/client.h"
#include "src/storage/database_place.h"
#include "src/storage/shared_database.h"
#include "tests/faults/own_postgres.h"
#include "tests/faults/server_process.h"
#include "tests/shop/let_in.h"

namespace {

using namespace hw;

constexpr int plants = 250, machines_each = 20, tasks_each = 8;
constexpr double per_second = 20, rate_seconds = 20, most_seconds = 4;
using Steady = std::chrono::steady_clock;

double seconds_since(Steady::time_point begin) { return std::chrono::duration<double>(Steady::now() - begin).count(); }

template <class T>
T must(Result<T> result) {
  HW_ASSERT(result, result.error().message.c_str());
  return std::move(*result);
}

service::MachineRecord machine_record(int number) {
  service::MachineRecord record;
  record.machine.key = fmt::format("m{:02}", number);
  record.machine.name = fmt::format("Machining centre {}", number);
  record.machine.kind = "mill";
  record.machine.cell = "hall";
  record.assemblies = {{"coolant", "Coolant"}};
  for (int task = 0; task < tasks_each; ++task) {
    service::TaskRecord one;
    one.task.key = fmt::format("task{}", task);
    one.task.title = fmt::format("Replace coolant filter {}", task);
    one.task.assembly = "coolant";
    one.task.minutes = 20;
    one.task.triggers = {catalogue::CalendarTrigger{
        *catalogue::parse_calendar_interval(fmt::format("{} weeks", task * 3 + 1 + number % 3)), 7, 2}};
    one.task.reason = "a clogged filter starves the pump";
    one.began_at = now() - Duration::hours(24 * 30);
    record.tasks.push_back(std::move(one));
  }
  return record;
}

void found_all(const std::filesystem::path& folder, const std::string& address) {
  std::filesystem::create_directory(folder);
  const auto database = must(storage::SharedDatabase::open({folder, address}, nullptr, {}));
  for (int plant = 0; plant <= plants; ++plant) {
    const bool is_group = plant == plants;
    service::ShopRecord shop;
    shop.plant = fmt::format("Plant {}", plant);
    shop.calendar.zone = Zone::utc();
    shop.cells = {{"hall", "Hall"}};
    shop.kinds = {{"mill", "Machining centre"}};
    std::vector<service::MachineRecord> machines;
    for (int number = 1; !is_group && number <= machines_each; ++number) machines.push_back(machine_record(number));
    const std::string key = is_group ? service::group_key : fmt::format("p{:03}", plant);
    HW_ASSERT(database->store_of_new(key)->create_shop(shop, machines), "the plant is new");
  }
}

// "84 of 251 plants are held here" -> 84
int held_by(const faults::ServerProcess& server) {
  const auto url = must(http::parse_url(fmt::format("http://127.0.0.1:{}/readyz", server.port())));
  const auto answer = http::get(url);
  if (!answer) return 0;
  const auto ready = boost::json::parse(answer->text());
  for (const auto& check : ready.at("checks").as_array()) {
    if (check.at("name") == "plants") return std::atoi(check.at("detail").as_string().c_str());
  }
  return 0;
}

double share(const std::vector<double>& sorted, double of) {
  return sorted[std::size_t(double(sorted.size() - 1) * of)];
}

}  // namespace

int main(int count, char** words) {
  HW_ASSERT(count == 2, "group_bench FOLDER");
  const std::filesystem::path place = std::filesystem::path(words[1]) / "group";
  std::filesystem::create_directories(place);
  const faults::OwnPostgres postgres(place / "postgres");
  auto begin = Steady::now();
  found_all(place / "founding", postgres.address());
  const double found_s = seconds_since(begin);
  for (const char* name : {"group", "a", "b"}) {
    HW_ASSERT(storage::place_on_server(place / name, postgres.address(), name == std::string{"group"} ? name : ""),
              "the folder is new");
  }
  const std::string pass = shop::let_in(place / "group", access::Role::viewer);

  begin = Steady::now();
  faults::ServerProcess a(place / "a", {"--group"});
  HW_ASSERT(a.is_up() && faults::comes_true([&] { return held_by(a) == plants + 1; }), "all plants are held");
  const double open_s = seconds_since(begin);
  faults::ServerProcess b(place / "b", {"--group"});
  HW_ASSERT(b.is_up() && faults::comes_true([&] { return held_by(b) == (plants + 1) / 2; }), "the plants are shared");

  bench::Asked ours{a.port(), fmt::format("GET /api/group/floor HTTP/1.1\r\nHost: localhost\r\n{}\r\n", pass)};
  std::string body;
  HW_ASSERT(faults::comes_true([&] {
              body = bench::body_of(ours);
              return body.size() > 1000 && body.find("\"line\":null") == std::string::npos;
            }),
            "every plant has been told of");
  ours.connections = 8;
  ours.seconds = rate_seconds;
  const std::vector<double> waits = bench::waits_at_rate(ours, per_second);
  const bench::BareProcess bare(body);
  bench::Asked theirs{bare.port(), ours.request};
  ours.connections = theirs.connections;
  ours.seconds = theirs.seconds = most_seconds;
  const double most = bench::most_per_second(ours), bare_most = bench::most_per_second(theirs);

  begin = Steady::now();
  a.kill();
  HW_ASSERT(faults::comes_true([&] { return held_by(b) > (plants + 1) / 2; }), "the other takes over");
  const double first_s = seconds_since(begin);
  HW_ASSERT(faults::comes_true([&] { return held_by(b) == plants + 1; }), "all plants are held again");
  const double all_s = seconds_since(begin);

  fmt::print(
      "{{\"plants\": {}, \"machines\": {}, \"tasks\": {}, \"bytes\": {}, \"found_s\": {:.1f}, \"open_s\": {:.1f}, "
      "\"memory_mib\": {:.0f}, \"rate\": {}, \"p50_ms\": {:.2f}, \"p99_ms\": {:.2f}, \"max_ms\": {:.1f}, \"most\": "
      "{:.0f}, \"bare_most\": {:.0f}, \"first_s\": {:.1f}, \"all_s\": {:.1f}}}\n",
      plants, plants * machines_each, plants * machines_each * tasks_each, body.size(), found_s, open_s,
      b.memory_max_mib(), per_second, share(waits, 0.5), share(waits, 0.99), waits.back(), most, bare_most, first_s,
      all_s);
}
