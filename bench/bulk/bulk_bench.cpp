// How fast counters' days are stored in PostgreSQL: by COPY as the store does it, by a prepared insert for each row,
// and by psql's \copy of the same rows, in one run; and what a step of a few rows costs. The PostgreSQL is the tests'
// own: on this computer, by a socket, without syncing, for all of them alike.
//   bulk_bench FOLDER   prints one JSON object; FOLDER is a temporary one

#include <chrono>
#include <cstdlib>
#include <fstream>

#include <boost/json.hpp>
#include <fmt/format.h>

#include "libs/sql/test_folder.h"
#include "src/service/store.h"
#include "src/storage/counting_rows.h"
#include "src/storage/database_place.h"
#include "src/storage/schema.h"
#include "tests/postgres/test_database.h"

namespace {

using namespace hw;

constexpr int machines = 200, counters = 8, days = 125;  // 200,000 rows
constexpr int rows_one_by_one = 20'000;
constexpr int turns = 5, small_steps = 300;

template <class Work>
double seconds_of(const Work& work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

template <class T>
T right(Result<T> result) {
  HW_ASSERT(result, result.error().message.c_str());
  return std::move(*result);
}
void right(const Result<void>& result) { HW_ASSERT(result, result.error().message.c_str()); }

service::DayRecord day_of(int machine, int counter, int day) {
  return {LocalDate{20'000 + day}, std::int64_t{36'000'000'000'000} + machine * 7919 + day, day * 1000, counter,
          0.1 * machine + day};
}

std::string machine_key(int machine) { return fmt::format("machine-{:03}", machine); }
std::string counter_key(int counter) { return fmt::format("spindle S{}", counter); }

// Of so many days of every counter of every machine.
service::CountingStep step_of(int machine_count, int day_count) {
  service::CountingStep step;
  for (int m = 0; m < machine_count; ++m) {
    auto& machine = step.machines.emplace_back();
    machine.record = {machine_key(m), "{}", "state"};
    for (int c = 0; c < counters; ++c) {
      auto& counter = machine.changed_days.emplace_back();
      counter.counter = counter_key(c);
      for (int d = 0; d < day_count; ++d) counter.days.push_back(day_of(m, c, d));
    }
  }
  return step;
}

// A database with our tables, and the machines in it.
class Place {
 public:
  explicit Place(const storage::DatabasePlace& place) : db_(right(storage::open_database(place, sql::Access::write))) {
    right(storage::apply_steps(*db_, place, storage::migrations()));
    right(db_->execute("insert into plant(plant, name, zone, aliases, stopping) values($1, '', '', '{}', '{}')",
                       db_->tenant()));
    for (int m = 0; m < machines; ++m) {
      right(
          db_->execute("insert into machine(plant, machine, ordinal, name, kind, cell, note, device, fills, walk) "
                       "values($1, $2, $3, '', '', '', '', '', '{}', '[]')",
                       db_->tenant(), machine_key(m), m));
    }
  }
  sql::Connection& db() { return *db_; }
  void empty() { right(db_->execute("delete from counter_day")); }
  std::string sums() {
    auto rows = right(db_->query("select count(*), sum(counted_ns), sum(amount) from counter_day"));
    HW_ASSERT(rows.next(), "a sum is one row");
    return fmt::format("{} {} {:.3f}", rows.get<std::int64_t>(0), rows.get<std::int64_t>(1), rows.get<double>(2));
  }
  void store(const service::CountingStep& step) {
    auto transaction = right(sql::Transaction::begin(*db_));
    right(storage::put_counting(*db_, step));
    right(transaction.commit());
  }
  // What is no day is stored as by `store`.
  void store_one_by_one(const service::CountingStep& step, int rows) {
    auto transaction = right(sql::Transaction::begin(*db_));
    service::CountingStep rest = step;
    for (auto& machine : rest.machines) machine.changed_days.clear();
    right(storage::put_counting(*db_, rest));
    for (const auto& machine : step.machines) {
      for (const auto& counter : machine.changed_days) {
        for (const auto& day : counter.days) {
          if (rows-- == 0) return right(transaction.commit());
          right(db_->execute(
              "insert into counter_day(plant, machine, counter, day_on, counted_ns, unknown_ns, filled_ns, amount) "
              "values($1, $2, $3, $4, $5, $6, $7, $8) on conflict(plant, machine, counter, day_on) do update set "
              "counted_ns = excluded.counted_ns, unknown_ns = excluded.unknown_ns, filled_ns = excluded.filled_ns, "
              "amount = excluded.amount",
              db_->tenant(), machine.record.machine, counter.counter, day.on.days, day.counted_ns, day.unknown_ns,
              day.filled_ns, day.amount));
        }
      }
    }
    right(transaction.commit());
  }

 private:
  std::unique_ptr<sql::Connection> db_;
};

void write_csv(const std::string& file, const service::CountingStep& step) {
  std::ofstream out(file);
  for (const auto& machine : step.machines) {
    for (const auto& counter : machine.changed_days) {
      for (const auto& day : counter.days) {
        out << fmt::format("plant,{},{},{},{},{},{},{}\n", machine.record.machine, counter.counter, day.on.days,
                           day.counted_ns, day.unknown_ns, day.filled_ns, day.amount);
      }
    }
  }
}

// As the server's owner, whom row-level security does not hold: COPY refuses the others.
void copy_by_psql(std::string address, const std::string& file) {
  constexpr std::string_view user = "user=shop";
  address.replace(address.find(user), user.size(), "user=hourwright");
  const std::string command = fmt::format("psql -q '{}' -c \"\\copy counter_day from '{}' csv\"", address, file);
  HW_ASSERT(std::system(command.c_str()) == 0, "psql can copy");
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

boost::json::object measure(const std::string& folder) {
  const auto step = step_of(machines, days);
  const std::string csv = folder + "/days.csv";
  write_csv(csv, step);
  const TestDatabase database;
  Place server({folder, database.address()});
  std::vector<double> copy_s, again_s, single_s, psql_s;
  std::string sums, psql_sums;
  for (int turn = 0; turn < turns; ++turn) {
    copy_s.push_back(seconds_of([&] { server.store(step); }));
    sums = server.sums();
    again_s.push_back(seconds_of([&] { server.store(step); }));
    server.empty();
    single_s.push_back(seconds_of([&] { server.store_one_by_one(step, rows_one_by_one); }));
    server.empty();
    psql_s.push_back(seconds_of([&] { copy_by_psql(database.address(), csv); }));
    psql_sums = server.sums();
    server.empty();
  }
  HW_ASSERT(sums == psql_sums, "both store the same");
  const auto small = step_of(2, 1);
  const double small_s = seconds_of([&] {
    for (int i = 0; i < small_steps; ++i) server.store(small);
  });
  const double small_single_s = seconds_of([&] {
    for (int i = 0; i < small_steps; ++i) server.store_one_by_one(small, machines);
  });
  Place file({folder});
  const double file_s = seconds_of([&] { file.store(step); });
  const double rows = machines * counters * days;
  return {{"rows", rows},
          {"copy_per_s", rows / median(copy_s)},
          {"replacing_per_s", rows / median(again_s)},
          {"single_per_s", rows_one_by_one / median(single_s)},
          {"psql_per_s", rows / median(psql_s)},
          {"sqlite_per_s", rows / file_s},
          {"small_step_rows", 2 * counters},
          {"small_step_ms", 1e3 * small_s / small_steps},
          {"small_step_single_ms", 1e3 * small_single_s / small_steps}};
}

}  // namespace

int main(int argc, char** argv) {
  HW_ASSERT(argc == 2, "bulk_bench FOLDER");
  fmt::print("{}\n", boost::json::serialize(measure(argv[1])));
}
