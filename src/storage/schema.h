#pragma once
// The tables, as the steps that led to them. A step that was released is never changed; a new one is added behind it.
//
// Every key begins with the plant. Times are UTC milliseconds (`_ms`), but for observations, which keep nanoseconds
// (`_ns`); days are counted from 1970-01-01 (`_on`). observation_log, entry, hour_reading, hour_settlement and photo
// are append-only; entries are sealed into a chain (src/record), and entry_head has the newest one's place and hash.
// counting_state, counter_day and checkpoint can be made again from them; task_done, walk, given_answer, correction,
// stray, finding_entry, finding, stop_entry and stop follow from the entries (derived_rows.h).

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "libs/sql/migrations.h"

namespace hw::storage {

inline constexpr std::int32_t application_id = 0x48777231;  // "Hwr1"

std::span<const sql::Migration> migrations();

// What a step does besides on PostgreSQL alone; empty: nothing.
std::string_view on_postgres_besides(int version);

// Refuses (unsupported) tables that are not this program's; `where` says whose they are.
Result<void> check_tables_are_ours(sql::Connection& db, std::string_view where);

// The tables that a step makes, in the order in which it makes them: what a row refers to comes before it.
std::vector<std::string> tables_of(const sql::Migration& step);
// Those that hold a plant's record, of all steps, in that order.
const std::vector<std::string>& table_names();
// Those of them that a plant's edge sends to its group: all but who may come in, which each place says for itself.
const std::vector<std::string>& sent_tables();
// Whose rows the database's own triggers let nobody change or remove.
bool is_only_added_to(std::string_view table);
// The columns of a table's key, in their order. The table is one of ours.
const std::vector<std::string>& key_columns(const std::string& table);
// Those that grow as long as a shop works; PostgreSQL keeps them in parts, by plant.
const std::vector<std::string>& growing_tables();
// What servers tell each other and the command line tells them, which is of no plant alone.
bool is_of_servers(std::string_view table);
// Whether it is one of table_names().
bool is_of_record(std::string_view table);

}  // namespace hw::storage
