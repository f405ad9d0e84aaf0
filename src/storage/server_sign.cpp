#include "src/storage/server_sign.h"

#include <fmt/format.h>

namespace hw::storage {
namespace {

// The database's clock in milliseconds since 1970.
constexpr const char* now_ms = "(extract(epoch from clock_timestamp()) * 1000)::bigint";

std::optional<ServerRun> run_of(const sql::Rows& rows, int first) {
  const auto server = rows.get<std::optional<std::string>>(first);
  if (!server) return std::nullopt;
  return ServerRun{*server, rows.get<std::string>(first + 1), rows.get<std::string>(first + 2)};
}

}  // namespace

Result<void> begin_sign(sql::Connection& db, const ServerRun& run, Duration lasts) {
  HW_TRY(db.execute(fmt::format("insert into server_sign(server, run, address, until_ms) values($1, $2, $3, {} + $4) "
                                "on conflict(server) do update set run = excluded.run, address = excluded.address, "
                                "until_ms = excluded.until_ms",
                                now_ms),
                    run.server, run.run, run.address, lasts.ns / 1'000'000));
  return {};
}

Result<void> renew_sign(sql::Connection& db, const ServerRun& run, Duration lasts) {
  HW_TAKE(
      renewed,
      db.execute(
          fmt::format("update server_sign set until_ms = {} + $3, address = $4 where server = $1 and run = $2", now_ms),
          run.server, run.run, lasts.ns / 1'000'000, run.address));
  if (renewed == 1) return {};
  return refuse(ErrorCode::conflict, "another server was started with this data folder, or a copy of it");
}

Result<void> end_sign(sql::Connection& db, const ServerRun& run) {
  HW_TRY(db.execute("delete from server_sign where server = $1 and run = $2", run.server, run.run));
  return {};
}

Result<std::vector<ServerRun>> signed_servers(sql::Connection& db) {
  HW_TAKE(rows, db.query(fmt::format("select server, run, address from server_sign where until_ms > {} order by server",
                                     now_ms)));
  std::vector<ServerRun> servers;
  while (rows.next()) servers.push_back(*run_of(rows, 0));
  return servers;
}

Result<std::optional<Lease>> take_plant(sql::Connection& db, const std::string& plant, const std::string& server) {
  HW_TAKE(number, db.query_value<std::int64_t>(
                      fmt::format("insert into plant_lease(plant, server, number) values($1, $2, 1) "
                                  "on conflict(plant) do update set server = excluded.server, "
                                  "number = plant_lease.number + 1 where plant_lease.server = excluded.server or not "
                                  "exists(select 1 from server_sign s where s.server = plant_lease.server and "
                                  "s.until_ms > {}) returning number",
                                  now_ms),
                      plant, server));
  if (!number) return std::optional<Lease>{};
  return std::optional{Lease{server, *number}};
}

Result<void> give_up_plant(sql::Connection& db, const std::string& plant, const Lease& lease) {
  HW_TRY(
      db.execute("update plant_lease set server = '', number = number + 1 where plant = $1 and server = $2 and "
                 "number = $3",
                 plant, lease.server, lease.number));
  return {};
}

Result<void> check_lease(sql::Connection& db, const Lease& lease) {
  // A server that stops in the middle lets go too: the database ends its connection.
  HW_TAKE(holds, db.query_value<std::int64_t>("select number from plant_lease where plant = $1 and server = $2 and "
                                              "number = $3 and set_config('idle_in_transaction_session_timeout', "
                                              "'4000', true) is not null for share",
                                              db.tenant(), lease.server, lease.number));
  if (holds) return {};
  return refuse(ErrorCode::in_use, Saying{"plant-moved"}, "another server holds the plant {} now; nothing was changed",
                db.tenant());
}

Result<std::vector<PlantPlace>> plant_places(sql::Connection& db) {
  HW_TAKE(rows, db.query(fmt::format("select p.plant, p.name, s.server, s.run, s.address from plant p "
                                     "left join plant_lease l on l.plant = p.plant "
                                     "left join server_sign s on s.server = l.server and s.until_ms > {} "
                                     "order by p.plant",
                                     now_ms)));
  std::vector<PlantPlace> places;
  while (rows.next()) {
    places.push_back({rows.get<std::string>(0), rows.get<std::string>(1), run_of(rows, 2)});
  }
  return places;
}

Result<void> publish_line(sql::Connection& db, const std::string& plant, const std::string& server,
                          const std::string& line) {
  HW_TAKE(kept, db.execute("insert into plant_line(plant, version, line) select plant, 1, $3 from plant_lease where "
                           "plant = $1 and server = $2 on conflict(plant) do update set version = plant_line.version "
                           "+ 1, line = excluded.line",
                           plant, server, line));
  if (kept == 1) return {};
  return refuse(ErrorCode::in_use, Saying{"plant-moved"}, "another server holds the plant {} now", plant);
}

Result<std::vector<service::PublishedLine>> published_lines(sql::Connection& db,
                                                            const std::map<std::string, std::int64_t>& known) {
  std::vector<std::string> changed;
  {
    HW_TAKE(versions, db.query("select plant, version from plant_line order by plant"));
    while (versions.next()) {
      const auto plant = versions.get<std::string>(0);
      const auto at = known.find(plant);
      if (at == known.end() || at->second != versions.get<std::int64_t>(1)) changed.push_back(plant);
    }
  }
  std::vector<service::PublishedLine> lines;
  for (const std::string& plant : changed) {
    HW_TAKE(rows, db.query("select version, line from plant_line where plant = $1", plant));
    while (rows.next()) lines.push_back({plant, rows.get<std::int64_t>(0), rows.get<std::string>(1)});
  }
  return lines;
}

}  // namespace hw::storage
