// How fast the Floor is answered by a server with 200 machines and more than 8,000 tasks while their feeds run, beside
// a bare Beast server that sends the same bytes.
//   floor_bench FOLDER   prints one JSON object; FOLDER is a temporary one

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <optional>

#include <boost/json.hpp>
#include <fmt/format.h>

#include "bench/floor/bare_server.h"
#include "bench/floor/big_shop.h"
#include "bench/floor/load.h"
#include "libs/values/assert.h"
#include "tests/faults/server_process.h"
#include "tests/places/places.h"
#include "tests/shop/let_in.h"

namespace {

using namespace hw;

constexpr double per_second = 500, rate_seconds = 20, most_seconds = 4;
constexpr int turns = 5;

double share(const std::vector<double>& sorted, double of) {
  return sorted[std::size_t(double(sorted.size() - 1) * of)];
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

bool all_live(const boost::json::value& floor) {
  if (!floor.is_object()) return false;
  const auto& machines = floor.at("machines").as_array();
  return std::all_of(machines.begin(), machines.end(),
                     [](const auto& machine) { return machine.at("feed").at("state") == "live"; });
}

std::int64_t tasks_of(const faults::ServerProcess& server, const boost::json::value& floor) {
  std::int64_t tasks = 0;
  for (const auto& machine : floor.at("machines").as_array()) {
    const std::string key{machine.at("key").as_string()};
    tasks += std::int64_t(server.json("/api/machines/" + key).at("tasks").as_array().size());
  }
  return tasks;
}

bench::Asked floor_of(std::uint16_t port, const std::string& as) {
  return {port, fmt::format("GET /api/floor HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n{}\r\n", port, as)};
}

}  // namespace

int main(int count, char** words) {
  HW_ASSERT(count == 2, "floor_bench FOLDER");
  const std::filesystem::path data = std::filesystem::path(words[1]) / "data";
  const bench::BigShop shop;
  shop.found(in_build("hourwright"), data);
  const std::string as = shop::let_in(data, access::Role::viewer);

  const auto begin = std::chrono::steady_clock::now();
  faults::ServerProcess server(data);
  HW_ASSERT(server.is_up() && server.get("/api/floor").status == 200, "the server answers");
  const double start_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  HW_ASSERT(faults::comes_true([&] { return all_live(server.json("/api/floor")); }), "all feeds are live");
  const std::int64_t tasks = tasks_of(server, server.json("/api/floor"));

  bench::Asked ours = floor_of(server.port(), as);
  const std::string body = bench::body_of(ours);
  ours.connections = 16;
  ours.seconds = rate_seconds;
  const std::vector<double> waits = bench::waits_at_rate(ours, per_second);

  const bench::BareProcess bare(body);
  bench::Asked theirs = floor_of(bare.port(), as);
  ours.connections = theirs.connections;
  ours.seconds = theirs.seconds = most_seconds;
  std::vector<double> our_most, their_most, ratios;
  for (int turn = 0; turn < turns; ++turn) {
    our_most.push_back(bench::most_per_second(ours));
    their_most.push_back(bench::most_per_second(theirs));
    ratios.push_back(our_most.back() / their_most.back());
  }
  fmt::print(
      "{{\"machines\": 200, \"tasks\": {}, \"bytes\": {}, \"start_s\": {:.3f}, \"memory_mib\": {:.1f}, \"rate\": {}, "
      "\"p50_ms\": {:.3f}, \"p99_ms\": {:.3f}, \"max_ms\": {:.3f}, \"most\": {:.0f}, \"bare_most\": {:.0f}, \"ratio\": "
      "{:.3f}}}\n",
      tasks, body.size(), start_s, server.memory_max_mib(), per_second, share(waits, 0.5), share(waits, 0.99),
      waits.back(), median(our_most), median(their_most), median(ratios));
}
