#include "src/storage/schema.h"

#include <array>
#include <map>
#include <regex>

namespace hw::storage {
namespace {

constexpr const char* first_schema = R"sql(
create table plant(
  plant text primary key, name text not null, zone text not null, aliases text not null,
  stopping text not null) strict;
create table shift(
  plant text not null references plant, ordinal integer not null, name text not null, begins_minute integer not null,
  ends_minute integer not null, weekdays text not null, primary key(plant, ordinal)) strict;
create table closed_day(
  plant text not null references plant, closed_on integer not null, why text not null, primary key(plant, closed_on)) strict;
create table cell(
  plant text not null references plant, ordinal integer not null, cell text not null, title text not null,
  max_down integer, primary key(plant, cell)) strict;
create table person(
  plant text not null references plant, ordinal integer not null, name text not null, skill text not null,
  is_lead integer not null, primary key(plant, name)) strict;
create table kind(
  plant text not null references plant, kind text not null, title text not null, title_de text not null,
  isolation text not null, services text not null,
  primary key(plant, kind)) strict;
create table feed(
  plant text not null references plant, feed text not null, url text not null, primary key(plant, feed)) strict;
create table machine(
  plant text not null references plant, machine text not null, ordinal integer not null, name text not null,
  kind text not null, cell text not null, year integer, note text not null, feed text, device text not null,
  fills text not null, walk text not null, standing_per_hour real,
  primary key(plant, machine)) strict;
create table assembly(
  plant text not null, machine text not null, assembly text not null, ordinal integer not null, title text not null,
  primary key(plant, machine, assembly), foreign key(plant, machine) references machine) strict;
create table point(
  plant text not null, machine text not null, number integer not null, assembly text not null, title text not null,
  x real not null, y real not null,
  primary key(plant, machine, number), foreign key(plant, machine) references machine) strict;
create table task(
  plant text not null, machine text not null, task text not null, ordinal integer not null, version integer not null,
  is_own integer not null, retired_ms integer, began_ms integer not null, began_counters text not null, body text not null,
  primary key(plant, machine, task), foreign key(plant, machine) references machine) strict;

create table entry(
  plant text not null references plant, ordinal integer not null, id text not null, kind text not null,
  machine text not null, task text, by_name text not null, at_ms integer not null, device_ms integer,
  happened_ms integer not null, says text not null, note text, counters text not null, body text not null, undoes text,
  previous_hash text not null, hash text not null, primary key(plant, ordinal)) strict;
create unique index entry_id on entry(plant, id);
create index entry_machine on entry(plant, machine, ordinal);
create index entry_kind on entry(plant, kind, ordinal);
create index entry_by on entry(plant, by_name, ordinal);
create index entry_happened on entry(plant, happened_ms, ordinal);
create unique index entry_undoes on entry(plant, undoes) where undoes is not null;
create table entry_head(
  plant text primary key references plant, ordinal integer not null, hash text not null) strict;

create table task_done(
  plant text not null, machine text not null, task text not null, happened_ms integer not null, entry text not null,
  primary key(plant, machine, task, happened_ms, entry)) strict, without rowid;
create table walk(
  plant text not null, walk text not null, machine text not null, rhythm text not null, by_name text not null,
  begun_ms integer not null, checks text not null, primary key(plant, walk)) strict;
create index walk_machine on walk(plant, machine, begun_ms);
create table given_answer(
  plant text not null, entry text not null, place integer not null, machine text not null, rhythm text not null,
  walk text not null, check_key text not null, by_name text not null, happened_ms integer not null, value real,
  body text not null, primary key(plant, entry, place)) strict;
create index given_answer_walk on given_answer(plant, walk);
create index given_answer_machine on given_answer(plant, machine, happened_ms);
create index given_answer_reading on given_answer(plant, machine, check_key, happened_ms) where value is not null;
create table correction(
  plant text not null, corrects text not null, entry text not null, primary key(plant, corrects, entry)) strict;
create table stray(plant text not null, entry text not null, primary key(plant, entry)) strict;
create table finding_entry(
  plant text not null, finding text not null, ordinal integer not null, primary key(plant, finding, ordinal)) strict;
create table finding(
  plant text not null, finding text not null, machine text not null, settled_ms integer, body text not null,
  primary key(plant, finding)) strict;
create index finding_open on finding(plant, machine) where settled_ms is null;
create index finding_settled on finding(plant, settled_ms) where settled_ms is not null;

create table hour_reading(
  plant text not null, id text not null, ordinal integer not null, machine text not null, counter text not null,
  display_h real not null, read_ms integer not null, by_name text not null, counted_h real not null,
  unknown_h real not null, offset_h real not null, difference_h real not null, fits integer not null, says text not null,
  saying text,
  primary key(plant, id), foreign key(plant, machine) references machine) strict;
create index hour_reading_machine on hour_reading(plant, machine, ordinal);
create table hour_settlement(
  plant text not null, reading text not null, settled_as text not null, entry text not null,
  primary key(plant, reading), foreign key(plant, reading) references hour_reading) strict;
create table adjustment(
  plant text not null, ordinal integer not null, machine text not null, counter text not null, amount real not null,
  is_start integer not null, at_ms integer not null,
  primary key(plant, ordinal), foreign key(plant, machine) references machine) strict;
create index adjustment_machine on adjustment(plant, machine, ordinal);

create table photo(
  plant text not null references plant, id text not null, sha256 text not null, bytes blob not null, primary key(plant, id)) strict;

create table observation_log(
  plant text not null, machine text not null, piece integer not null, first_ns integer not null, last_ns integer not null,
  payload blob not null, primary key(plant, machine, piece), foreign key(plant, machine) references machine) strict;
create table counting_state(
  plant text not null, machine text not null, model text not null, state blob not null,
  primary key(plant, machine), foreign key(plant, machine) references machine) strict;
create table checkpoint(
  plant text not null, machine text not null, checkpoint_on integer not null, piece integer not null, state blob not null,
  primary key(plant, machine, checkpoint_on), foreign key(plant, machine) references machine) strict;
create table counter_day(
  plant text not null, machine text not null, counter text not null, day_on integer not null, counted_ns integer not null,
  unknown_ns integer not null, filled_ns integer not null, amount real not null,
  primary key(plant, machine, counter, day_on), foreign key(plant, machine) references machine) strict, without rowid;
create table feed_position(
  plant text not null, feed text not null, instance_id text not null, next_sequence text not null, last_sign_ms integer not null,
  primary key(plant, feed), foreign key(plant, feed) references feed) strict;

create trigger entry_stays before update on entry begin select raise(abort, 'entries are only added'); end;
create trigger entry_is_kept before delete on entry begin select raise(abort, 'entries are only added'); end;
create trigger head_goes_on before update on entry_head when new.plant <> old.plant or new.ordinal <= old.ordinal
begin select raise(abort, 'entries are only added'); end;
create trigger head_is_kept before delete on entry_head begin select raise(abort, 'entries are only added'); end;
create trigger reading_stays before update on hour_reading begin select raise(abort, 'readings are only added'); end;
create trigger reading_is_kept before delete on hour_reading begin select raise(abort, 'readings are only added'); end;
create trigger settlement_stays before update on hour_settlement begin select raise(abort, 'settlements are only added'); end;
create trigger settlement_is_kept before delete on hour_settlement begin select raise(abort, 'settlements are only added'); end;
create trigger photo_stays before update on photo begin select raise(abort, 'photos are only added'); end;
create trigger photo_is_kept before delete on photo begin select raise(abort, 'photos are only added'); end;
create trigger log_stays before update on observation_log begin select raise(abort, 'observations are only added'); end;
create trigger log_is_kept before delete on observation_log begin select raise(abort, 'observations are only added'); end;
)sql";

// Devices that have joined.
constexpr const char* device_schema = R"sql(
create table device(
  plant text not null references plant, ordinal integer not null, id text not null, title text not null,
  secret_hash text not null, enrolled_by text not null, enrolled_ms integer not null, is_over_tls integer not null,
  primary key(plant, id)) strict;
create unique index device_secret on device(plant, secret_hash);
create table device_end(
  plant text not null, device text not null, id text not null, by_name text not null, ended_ms integer not null,
  primary key(plant, device), foreign key(plant, device) references device) strict;
create table device_seen(
  plant text not null, device text not null, seen_on integer not null,
  primary key(plant, device), foreign key(plant, device) references device) strict;

create trigger device_stays before update on device begin select raise(abort, 'devices are only added'); end;
create trigger device_is_kept before delete on device begin select raise(abort, 'devices are only added'); end;
create trigger device_end_stays before update on device_end begin select raise(abort, 'devices are only added'); end;
create trigger device_end_is_kept before delete on device_end begin select raise(abort, 'devices are only added'); end;
)sql";

// Stops as they follow from entries; over_ms is nothing while a stop is agreed.
constexpr const char* stop_schema = R"sql(
create table stop_entry(
  plant text not null, stop text not null, ordinal integer not null, primary key(plant, stop, ordinal)) strict;
create table stop(
  plant text not null, stop text not null, machine text not null, state text not null, over_ms integer,
  body text not null, primary key(plant, stop)) strict;
create index stop_agreed on stop(plant, machine) where over_ms is null;
create index stop_past on stop(plant, over_ms) where over_ms is not null;
)sql";

// Who may come in. Lists are JSON; a token's permissions and machines are nothing where it has all of its role's.
constexpr const char* access_schema = R"sql(
create table account(
  plant text not null references plant, name text not null, role text not null, machines text, until_on integer,
  made_by text not null, made_ms integer not null, ended_ms integer, password_hash text, pin_hash text, factor_key text,
  factor_step integer not null, primary key(plant, name)) strict;
create table sign_in_link(
  plant text not null references plant, secret_hash text not null, account text not null, made_by text not null,
  until_ms integer not null, used_ms integer, primary key(plant, secret_hash)) strict;
create table session(
  plant text not null references plant, id text not null, secret_hash text not null, account text not null,
  way text not null, device text, begun_ms integer not null, seen_ms integer not null, ended_ms integer,
  primary key(plant, id)) strict;
create index session_open on session(plant, account) where ended_ms is null;
create table token(
  plant text not null references plant, id text not null, secret_hash text not null, title text not null,
  role text not null, permissions text, machines text, made_by text not null, made_ms integer not null,
  ends_ms integer not null, used_on integer, ended_ms integer, ended_by text, primary key(plant, id)) strict;
create table access_note(
  plant text not null references plant, ordinal integer not null, at_ms integer not null, by_name text not null,
  what text not null, about text not null, primary key(plant, ordinal)) strict;
create trigger access_note_stays before update on access_note begin select raise(abort, 'notes are only added'); end;
create trigger access_note_is_kept before delete on access_note begin select raise(abort, 'notes are only added'); end;
)sql";

// Servers that share a database, and what the command line grants where the data folder is not the server's. A file
// has one server, and its grants lie beside it.
constexpr const char* servers_schema = R"sql(
create table server_sign(server text primary key, run text not null, address text not null, until_ms integer not null) strict;
create table plant_lease(
  plant text primary key references plant, server text not null, number integer not null) strict;
create table plant_line(
  plant text primary key references plant, version integer not null, line text not null) strict;
create table grant_left(
  plant text not null references plant, secret_hash text not null, body text not null, primary key(plant, secret_hash)) strict;
)sql";

// How far each machine's messages have been counted, for feeds on which each machine has a position of its own.
constexpr const char* message_schema = R"sql(
create table message_position(
  plant text not null, machine text not null, run text not null, next_sequence text not null, alive_ns integer not null,
  primary key(plant, machine), foreign key(plant, machine) references machine) strict;
)sql";

// What came from a plant whose record is kept at its edge (docs/operations/edge.md): the shipment that was taken last,
// none as long as its number is 0; and the pieces of the next one, until all are there.
constexpr const char* edge_schema = R"sql(
create table edge_taken(
  plant text primary key references plant, number integer not null, sha256 text not null, made_ms integer not null,
  taken_ms integer not null) strict;
create table edge_piece(
  plant text not null references plant, number integer not null, sha256 text not null, pieces integer not null,
  piece integer not null, bytes blob not null, primary key(plant, piece)) strict;
)sql";

// "plant, ordinal"
std::vector<std::string> words_of(const std::string& list) {
  static const std::regex word(R"(\w+)");
  return {std::sregex_token_iterator(list.begin(), list.end(), word), std::sregex_token_iterator()};
}

}  // namespace

std::span<const sql::Migration> migrations() {
  static const std::array<sql::Migration, 4> steps{
      sql::Migration{1, std::string{first_schema} + device_schema + stop_schema}, sql::Migration{2, access_schema},
      sql::Migration{3, std::string{servers_schema} + message_schema}, sql::Migration{4, edge_schema}};
  return steps;
}

// Asking for each of a million days whether its machine is there took 70 % of the time in which they were stored
// (docs/decisions/2026-11-27-many-rows-land-first.md). Machines are never removed, and days are made from what is
// counted of them; SQLite, which asks in a hundredth of that, goes on asking.
std::string_view on_postgres_besides(int version) {
  return version == 4 ? "alter table counter_day drop constraint counter_day_plant_machine_fkey;\n" : "";
}

bool is_of_servers(std::string_view table) {
  return table == "server_sign" || table == "plant_lease" || table == "plant_line" || table == "grant_left";
}

bool is_of_record(std::string_view table) {
  return !is_of_servers(table) && table != "edge_taken" && table != "edge_piece";
}

Result<void> check_tables_are_ours(sql::Connection& db, std::string_view where) {
  HW_TAKE(version, db.schema_version());
  const int known = static_cast<int>(migrations().size());
  if (version == known) return {};
  return refuse(ErrorCode::unsupported, "{}: its tables are of version {}, this program's are of version {}{}", where,
                version, known, version < known ? "; serve it once, which brings them up to date" : "");
}

std::vector<std::string> tables_of(const sql::Migration& step) {
  static const std::regex made(R"(create table (\w+)\()");
  std::vector<std::string> tables;
  for (std::sregex_iterator at(step.sql.begin(), step.sql.end(), made), end; at != end; ++at) {
    tables.push_back(at->str(1));
  }
  return tables;
}

const std::vector<std::string>& table_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const sql::Migration& step : migrations()) {
      for (std::string& table : tables_of(step)) {
        if (is_of_record(table)) all.push_back(std::move(table));
      }
    }
    return all;
  }();
  return names;
}

const std::vector<std::string>& sent_tables() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    const std::string_view kept_apart = access_schema;
    for (const std::string& table : table_names()) {
      const bool is_of_access = kept_apart.find("create table " + table + "(") != std::string_view::npos;
      if (!is_of_access && !table.starts_with("device")) all.push_back(table);
    }
    return all;
  }();
  return names;
}

bool is_only_added_to(std::string_view table) {
  static const std::string deletes = first_schema;
  return deletes.find(fmt::format("before delete on {} ", table)) != std::string::npos && table != "entry_head";
}

const std::vector<std::string>& growing_tables() {
  static const std::vector<std::string> names{"entry", "given_answer", "photo", "observation_log", "counter_day"};
  return names;
}

const std::vector<std::string>& key_columns(const std::string& table) {
  static const std::map<std::string, std::vector<std::string>> keys = [] {
    static const std::regex made(R"(create table (\w+)\(([^;]*))"),
        key(R"(primary key\(([^)]*)\)|(\w+) text primary key)");
    std::map<std::string, std::vector<std::string>> all;
    for (const sql::Migration& step : migrations()) {
      for (std::sregex_iterator at(step.sql.begin(), step.sql.end(), made), end; at != end; ++at) {
        const std::string columns = at->str(2);
        std::smatch found;
        const bool has_key = std::regex_search(columns, found, key);
        HW_ASSERT(has_key, "a table has a key");
        all[at->str(1)] = words_of(found[1].matched ? found.str(1) : found.str(2));
      }
    }
    return all;
  }();
  return keys.at(table);
}

}  // namespace hw::storage
