#include "src/storage/database_place.h"

#include <algorithm>
#include <sstream>

#include <fmt/ranges.h>

#include "libs/sql/folder.h"
#include "libs/sql/postgres.h"
#include "libs/sql/postgres_schema.h"
#include "libs/sql/postgres_tenants.h"
#include "libs/sql/sqlite.h"
#include "libs/values/whole_file.h"
#include "src/storage/schema.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;

fs::path address_file(const fs::path& folder) { return folder / "database"; }

constexpr int plant_parts = 4;
constexpr std::string_view moving = "moving";
constexpr std::string_view first_plant = "plant";  // that of a file, and of a database in which none was named

// For whom it acts. What was founded in a file is there under whatever key it had elsewhere.
Result<std::string> chosen_plant(const DatabasePlace& place, sql::Connection& db) {
  if (!place.plant.empty()) return place.plant;
  HW_TAKE(plants, plants_of(db));
  if (plants.empty()) return std::string{first_plant};
  if (plants.size() == 1) return plants.front();
  constexpr std::size_t named_max = 8;
  const bool is_long = plants.size() > named_max;
  const std::size_t count = plants.size();
  plants.resize(std::min(count, named_max));
  return refuse(ErrorCode::bad_input,
                "{}: its database holds {} plants: a folder of its own, founded or written with a line \"plant KEY\" "
                "in its file database, is for one of them: {}{}",
                place.folder.string(), count, fmt::join(plants, ", "), is_long ? ", ..." : "");
}

// With the rows of plants kept apart, those of tables in parts in the parts too: each of them can be asked by itself.
std::string in_postgres(const sql::Migration& step) {
  const sql::InParts in_parts{growing_tables(), "plant", plant_parts};
  std::vector<std::string> kept_apart;
  for (const std::string& table : tables_of(step)) {
    if (is_of_servers(table)) continue;
    kept_apart.push_back(table);
    const bool is_in_parts = std::find(in_parts.tables.begin(), in_parts.tables.end(), table) != in_parts.tables.end();
    if (!is_in_parts) continue;
    for (std::string& part : sql::part_names(table, in_parts)) kept_apart.push_back(std::move(part));
  }
  return sql::in_postgres(step.sql, in_parts) + sql::keep_tenants_apart(kept_apart, "plant", "plant") +
         std::string{on_postgres_besides(step.version)};
}

// What the file `database` says: an address, maybe "plant KEY", and "moving" while the shop is on its way there.
struct Note {
  DatabasePlace place;
  bool is_moving = false;
};

Result<Note> read_note(const fs::path& folder) {
  Note note{{folder}};
  std::error_code error;
  if (!fs::exists(address_file(folder), error)) return note;
  HW_TAKE(text, read_whole_file(address_file(folder)));
  std::istringstream lines{text};
  lines >> note.place.address;
  for (std::string word; lines >> word;) {
    if (word == "plant") lines >> note.place.plant;
    if (word == moving) note.is_moving = true;
  }
  if (sql::is_postgres_address(note.place.address)) return note;
  return refuse(ErrorCode::corrupt, "{}: holds no address of a database; postgresql://HOST/DATABASE is one",
                address_file(folder).string());
}

Result<void> write_note(const Note& note) {
  const DatabasePlace& place = note.place;
  const std::string plant = place.plant.empty() ? "" : fmt::format("plant {}\n", place.plant);
  return write_whole_file(address_file(place.folder),
                          fmt::format("{}\n{}{}", place.address, plant, note.is_moving ? "moving\n" : ""),
                          ReadableBy::owner);
}

}  // namespace

Result<DatabasePlace> place_of(const fs::path& folder) {
  HW_TAKE(note, read_note(folder));
  if (!note.is_moving) return std::move(note.place);
  return refuse(ErrorCode::conflict,
                "{0}: moving its shop into a database on a server was begun and not ended; say it again: hourwright "
                "copy-to --data {0} --database ADDRESS",
                folder.string());
}

Result<void> begin_move(const DatabasePlace& to) { return write_note({to, true}); }

Result<void> end_move(const DatabasePlace& to) { return write_note({to, false}); }

Result<void> give_up_move(const fs::path& folder) {
  std::error_code error;
  fs::remove(address_file(folder), error);
  if (!error) return sql::sync_folder(folder);
  return refuse(ErrorCode::disk_full, "{}: cannot be removed: {}", address_file(folder).string(), error.message());
}

Result<std::optional<DatabasePlace>> begun_move(const fs::path& folder) {
  HW_TAKE(note, read_note(folder));
  return note.is_moving ? std::optional{std::move(note.place)} : std::nullopt;
}

Result<void> place_on_server(const fs::path& folder, const std::string& address, const std::string& plant) {
  if (!sql::is_postgres_address(address)) {
    return refuse(ErrorCode::bad_input, "--database: no address of a database; postgresql://HOST/DATABASE is one");
  }
  if (!plant.empty()) HW_TRY(check_plant_key(plant));
  HW_TRY(make_folder(folder));
  HW_TAKE(place, place_of(folder));
  if (place.address == address && (plant.empty() || plant == place.plant)) return {};
  std::error_code error;
  if (place.is_on_server() || fs::exists(place.file(), error)) {
    return refuse(ErrorCode::conflict, "{}: its shop lies in {} already", folder.string(),
                  place.is_on_server() ? "another database, or is another plant of it," : "hourwright.db");
  }
  return write_note({{folder, address, plant}});
}

Result<void> make_folder(const fs::path& folder) {
  std::error_code error;
  if (fs::is_directory(folder, error)) return {};
  const auto parent = fs::absolute(folder, error).parent_path();
  if (!fs::is_directory(parent, error)) {
    return refuse(ErrorCode::not_found, "{}: there is no folder {} to make it in", folder.string(), parent.string());
  }
  if (fs::exists(folder, error)) return refuse(ErrorCode::bad_input, "{}: it is no folder", folder.string());
  fs::create_directory(folder, error);
  if (!error) return sql::sync_folder(parent);
  return refuse(ErrorCode::disk_full, "{}: the folder cannot be made: {}", folder.string(), error.message());
}

Result<std::unique_ptr<sql::Connection>> open_database(const DatabasePlace& place, sql::Access access) {
  HW_TAKE(db, place.is_on_server() ? sql::open_postgres(place.address, access, {.writers = application_id})
                                   : sql::open_sqlite(place.file(), access, {.application_id = application_id}));
  HW_TRY(act_for_plant(*db, place));
  return std::move(db);
}

Result<void> act_for_plant(sql::Connection& db, const DatabasePlace& place) {
  HW_TAKE(plant, chosen_plant(place, db));
  return db.act_for(plant);
}

Result<std::vector<std::string>> plants_of(sql::Connection& db) {
  std::vector<std::string> plants;
  HW_TAKE(columns, db.columns_of("plant"));
  if (columns.empty()) return plants;
  HW_TAKE(rows, db.query("select plant from plant order by plant"));
  while (rows.next()) plants.push_back(rows.get<std::string>(0));
  return plants;
}

Result<void> check_plant_key(std::string_view key) {
  constexpr std::size_t length_max = 40;
  const auto fits = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; };
  if (!key.empty() && key.size() <= length_max && std::all_of(key.begin(), key.end(), fits)) return {};
  return refuse(ErrorCode::bad_input, "--plant: \"{}\": a plant's key is of small letters, digits and -, at most {}",
                key.substr(0, length_max), length_max);
}

Result<void> apply_steps(sql::Connection& db, const DatabasePlace& place, std::span<const sql::Migration> steps) {
  std::vector<sql::Migration> in_its_words(steps.begin(), steps.end());
  if (place.is_on_server()) {
    for (sql::Migration& step : in_its_words) step.sql = in_postgres(step);
  }
  HW_TRY(sql::apply_migrations(db, in_its_words));
  return {};
}

}  // namespace hw::storage
