#include "src/storage/edge_shipments.h"

#include "libs/formats/gzip_writer.h"
#include "libs/formats/new_file.h"
#include "libs/values/sha256.h"
#include "src/storage/edge_changes.h"
#include "src/storage/record_digest.h"
#include "src/storage/row_text.h"
#include "src/storage/schema.h"
#include "src/storage/shipment_text.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;
using service::Shipment;

// One row: the shipment that was taken last, and the one that waits; number 0: none does.
constexpr const char* state_schema = R"sql(
create table if not exists edge_state(
  id integer primary key check(id = 1), taken integer not null, number integer not null, upto integer not null,
  sha256 text not null) strict;
insert into edge_state(id, taken, number, upto, sha256) values(1, 0, 0, 0, '') on conflict(id) do nothing;
)sql";

constexpr std::size_t text_bytes = std::size_t{64} << 10;

// A shipment's file while it is written.
class ShipmentFile {
 public:
  explicit ShipmentFile(formats::NewFile file)
      : file_(std::move(file)), gzip_([this](std::string_view bytes) -> Result<void> {
          digest_.add(bytes);
          return file_.add(bytes);
        }) {}
  Result<void> add(std::string_view text) { return gzip_.add(text); }
  // It is in its place when it returns; its SHA-256.
  Result<std::string> end() {
    HW_TRY(gzip_.end());
    HW_TRY(file_.close());
    HW_TRY(file_.keep());
    return print_hex(digest_.end());
  }

 private:
  formats::NewFile file_;
  Sha256Stream digest_;
  formats::GzipWriter gzip_;
};

struct Rows {
  std::string query;
  char mark;
  int columns;
};

Result<void> add_rows(ShipmentFile& file, sql::Connection& db, const std::string& table, const Rows& wanted,
                      std::int64_t upto) {
  HW_TAKE(rows, db.stream(wanted.query, db.tenant(), table, upto));
  fmt::memory_buffer text;
  while (rows.next()) {
    text.push_back(wanted.mark);
    for (int i = 0; i < wanted.columns; ++i) append_cell(text, rows.value(i));
    text.push_back('\n');
    if (text.size() < text_bytes) continue;
    HW_TRY(file.add({text.data(), text.size()}));
    text.clear();
  }
  return file.add({text.data(), text.size()});
}

Result<void> add_table(ShipmentFile& file, sql::Connection& db, const std::string& table, std::int64_t upto) {
  HW_TAKE(columns, db.columns_of(table));
  HW_TRY(file.add(print_table_head({table, columns})));
  HW_TRY(add_rows(file, db, table, {changed_rows_query(table, columns), '+', static_cast<int>(columns.size())}, upto));
  const auto key = static_cast<int>(key_columns(table).size());
  return add_rows(file, db, table, {gone_rows_query(table), '-', key}, upto);
}

}  // namespace

Result<std::unique_ptr<EdgeShipments>> EdgeShipments::begin(KeptStore& store, const fs::path& folder) {
  const auto step = [](sql::Connection& db) -> Result<void> {
    HW_TRY(db.run_script(state_schema));
    return note_changes(db);
  };
  HW_TRY(store.write(step));
  HW_TRY(make_folder(folder / "edge"));
  return std::unique_ptr<EdgeShipments>{new EdgeShipments(store, folder / "edge")};
}

fs::path EdgeShipments::file_of(std::int64_t number) const { return folder_ / fmt::format("{}.shipment", number); }

Result<std::int64_t> EdgeShipments::last_taken() {
  std::int64_t number = 0;
  const auto step = [&](sql::Connection& db) -> Result<void> {
    HW_TAKE(taken, db.query_value<std::int64_t>("select taken from edge_state"));
    number = taken.value_or(0);
    return {};
  };
  HW_TRY(store_.read(step));
  return number;
}

Result<std::int64_t> EdgeShipments::waiting() {
  std::int64_t count = 0;
  const auto step = [&](sql::Connection& db) -> Result<void> {
    HW_TAKE(changes, count_changes(db));
    count = changes;
    return {};
  };
  HW_TRY(store_.read(step));
  return count;
}

// A file that somebody removed, or that did not get on disk before a crash, is made again.
Result<std::optional<Shipment>> EdgeShipments::made() {
  std::optional<Shipment> shipment;
  const auto step = [&](sql::Connection& db) -> Result<void> {
    HW_TAKE(rows, db.query("select number, sha256 from edge_state where number > 0"));
    if (rows.next()) shipment = Shipment{rows.get<std::int64_t>(0), rows.get<std::string>(1), {}, 0};
    return {};
  };
  HW_TRY(store_.read(step));
  if (!shipment) return shipment;
  shipment->file = file_of(shipment->number);
  std::error_code error;
  shipment->bytes = fs::file_size(shipment->file, error);
  return error ? std::nullopt : shipment;
}

Result<std::optional<Shipment>> EdgeShipments::make(const Wanted& wanted) {
  std::error_code error;
  for (const auto& old : fs::directory_iterator(folder_, error)) fs::remove(old.path(), error);
  const fs::path path = file_of(wanted.number);
  std::int64_t upto = 0;
  std::string sha256;
  const auto fill = [&](sql::Connection& db) -> Result<void> {
    HW_TAKE(last, last_change(db));
    upto = last;
    if (upto == 0) return {};
    HW_TAKE(fresh, formats::NewFile::begin(path));
    ShipmentFile file{std::move(fresh)};
    const ShipmentHead head{db.tenant(), wanted.number, static_cast<int>(migrations().size()), wanted.made_at,
                            wanted.is_whole};
    HW_TRY(file.add(print_head(head)));
    for (const std::string& table : sent_tables()) HW_TRY(add_table(file, db, table, upto));
    if (wanted.is_whole) {
      HW_TAKE(digest, record_digest(db, sent_tables()));
      HW_TRY(file.add(fmt::format("digest {}\n", digest.sha256)));
    }
    HW_TRY(file.add("end\n"));
    HW_TAKE(sum, file.end());
    sha256 = sum;
    return {};
  };
  HW_TRY(store_.read(fill));
  if (upto == 0) return std::optional<Shipment>{};
  const auto note = [&](sql::Connection& db) -> Result<void> {
    HW_TRY(db.execute("update edge_state set number = $1, upto = $2, sha256 = $3", wanted.number, upto, sha256));
    return {};
  };
  HW_TRY(store_.write(note));
  return std::optional{Shipment{wanted.number, sha256, path, fs::file_size(path, error)}};
}

Result<std::optional<Shipment>> EdgeShipments::next(Instant now) {
  HW_TAKE(waits, made());
  if (waits) return waits;
  HW_TAKE(last, last_taken());
  return make({last + 1, last == 0, now});
}

Result<Shipment> EdgeShipments::whole(std::int64_t number, Instant now) {
  HW_TRY(store_.write(note_all_rows));
  HW_TAKE(shipment, make({number, true, now}));
  HW_ASSERT(shipment, "a shop has at least the row of its plant");
  return *std::move(shipment);
}

Result<void> EdgeShipments::taken(const Shipment& shipment) {
  const auto step = [&](sql::Connection& db) -> Result<void> {
    HW_TAKE(upto, db.query_value<std::int64_t>("select upto from edge_state where number = $1", shipment.number));
    HW_TRY(forget_changes(db, upto.value_or(0)));
    HW_TRY(db.execute("update edge_state set taken = $1, number = 0, upto = 0, sha256 = ''", shipment.number));
    return {};
  };
  HW_TRY(store_.write(step));
  std::error_code error;
  fs::remove(shipment.file, error);
  return {};
}

}  // namespace hw::storage
