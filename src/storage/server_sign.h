#pragma once
// Servers that share one database, PostgreSQL only. Each renews its sign every few seconds; whoever finds a sign too
// old may take the plants of that server. A lease says which server holds a plant, under a number that rises with each
// taking: a writing transaction that shows an older number is refused, so that a server that was stopped for a while
// and goes on writes nothing beside the one that holds the plant now. Times are the database's own.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "libs/sql/connection.h"
#include "libs/values/instant.h"
#include "src/service/plants.h"

namespace hw::storage {

// One run of one server. A data folder is one server, however often it is started.
struct ServerRun {
  std::string server;
  std::string run;           // which nobody can guess
  std::string address = {};  // at which the other servers reach it: http://10.0.0.5:8470; empty: they do not
};

// Under which number a server holds a plant.
struct Lease {
  std::string server;
  std::int64_t number = 0;
};

// The sign of a run that begins, in the place of an earlier run's, and good for `lasts` from now.
Result<void> begin_sign(sql::Connection& db, const ServerRun& run, Duration lasts);
// Refuses (conflict) where another run of the same server has put its own in the place of it.
Result<void> renew_sign(sql::Connection& db, const ServerRun& run, Duration lasts);
// Other servers may take its plants from now on.
Result<void> end_sign(sql::Connection& db, const ServerRun& run);

// The servers whose sign is good, in the order of their names.
Result<std::vector<ServerRun>> signed_servers(sql::Connection& db);

// Nothing: a server with a good sign holds it.
Result<std::optional<Lease>> take_plant(sql::Connection& db, const std::string& plant, const std::string& server);
// Lets go of it; that somebody else has it already is right.
Result<void> give_up_plant(sql::Connection& db, const std::string& plant, const Lease& lease);

// Within a transaction: the lease is the newest, and stays so until the transaction ends. Refuses in_use.
Result<void> check_lease(sql::Connection& db, const Lease& lease);

// A plant of the database and the server that holds it, where one with a good sign does.
struct PlantPlace {
  std::string plant;
  std::string title;
  std::optional<ServerRun> held_by = {};
};
// In the order of their keys.
Result<std::vector<PlantPlace>> plant_places(sql::Connection& db);

// What the holder of a plant tells the others; refuses in_use where another one holds it.
Result<void> publish_line(sql::Connection& db, const std::string& plant, const std::string& server,
                          const std::string& line);
Result<std::vector<service::PublishedLine>> published_lines(sql::Connection& db,
                                                            const std::map<std::string, std::int64_t>& known);

}  // namespace hw::storage
