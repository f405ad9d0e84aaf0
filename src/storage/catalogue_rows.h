#pragma once
// The catalogue's tables: plant, shifts, closed days, cells, people, kinds, feeds, machines, assemblies, points, tasks.

#include <string_view>

#include "libs/sql/connection.h"
#include "src/service/records.h"

namespace hw::storage {

Result<void> insert_shop(sql::Connection& db, const service::ShopRecord& shop);
Result<void> insert_machine(sql::Connection& db, const service::MachineRecord& record, int ordinal);
Result<void> put_task(sql::Connection& db, std::string_view machine, const service::TaskRecord& record);

// Other places for points that the machine has.
Result<void> put_points(sql::Connection& db, std::string_view machine, const std::vector<catalogue::Point>& points);
// The walking order by hand; empty: computed.
Result<void> put_walk(sql::Connection& db, std::string_view machine, const std::vector<int>& walk);

Result<std::optional<service::ShopRecord>> read_shop(sql::Connection& db);
Result<std::vector<service::MachineRecord>> read_machines(sql::Connection& db);
// Without last_done.
Result<std::vector<service::TaskRecord>> read_tasks(sql::Connection& db, std::string_view machine);

}  // namespace hw::storage
