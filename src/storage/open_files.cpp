#include "src/storage/open_files.h"

#include <boost/json/serialize.hpp>
#include <fmt/ranges.h>

#include "libs/formats/csv.h"
#include "libs/formats/json.h"
#include "libs/formats/line_reader.h"
#include "libs/formats/new_file.h"
#include "libs/sql/folder.h"
#include "libs/sql/sqlite.h"
#include "libs/values/whole_file.h"
#include "src/service/photo_type.h"
#include "src/service/version.h"
#include "src/storage/open_rows.h"
#include "src/storage/open_store.h"
#include "src/storage/record_digest.h"
#include "src/storage/schema.h"
#include "src/storage/work_folder.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;
using copies::ExportHead;
using copies::ExportReport;

constexpr const char* form = "hourwright-shop-1";
constexpr const char* head_file = "hourwright.json";
constexpr std::size_t line_bytes_max = std::size_t{128} << 20;
constexpr std::size_t photo_bytes_max = std::size_t{64} << 20;

fs::path rows_file(const fs::path& folder, const std::string& table) { return folder / "tables" / (table + ".jsonl"); }
fs::path sheet_file(const fs::path& folder, const std::string& table) { return folder / "sheets" / (table + ".csv"); }

Result<void> make_folders(const fs::path& folder) {
  for (const char* name : {"tables", "sheets", "photos"}) HW_TRY(make_folder(folder / name));
  return {};
}

// Writing: one file's text, gathered.
class TextFile {
 public:
  static Result<TextFile> begin(const fs::path& path) {
    HW_TAKE(file, formats::NewFile::begin(path));
    return TextFile{std::move(file)};
  }
  Result<void> add(std::string_view text) {
    text_ += text;
    if (text_.size() < (std::size_t{64} << 10)) return {};
    HW_TRY(file_.add(text_));
    text_.clear();
    return {};
  }
  Result<void> end() {
    HW_TRY(file_.add(text_));
    HW_TRY(file_.close());
    return file_.keep();
  }

 private:
  explicit TextFile(formats::NewFile file) : file_(std::move(file)) {}
  formats::NewFile file_;
  std::string text_;
};

std::string in_sheet(const sql::Parameter::Value& value) {
  if (const auto* whole = std::get_if<std::int64_t>(&value)) return fmt::format("{}", *whole);
  if (const auto* number = std::get_if<double>(&value)) return fmt::format("{}", *number);
  if (const auto* text = std::get_if<std::string_view>(&value)) return formats::harmless_cell(*text);
  if (const auto* blob = std::get_if<std::span<const std::byte>>(&value)) return fmt::format("{} bytes", blob->size());
  return "";
}

std::string line_of_sheet(const std::vector<std::string>& cells) { return formats::print_csv(cells, {}); }

// A photo is a file of its own, as it was sent.
class Exporting {
 public:
  Exporting(sql::Connection& db, fs::path folder) : db_(db), folder_(std::move(folder)) {}

  Result<void> table(const std::string& table) {
    HW_TAKE(columns, db_.columns_of(table));
    HW_TAKE(rows, db_.stream(fmt::format("select {} from {} where plant = $1 order by {}", fmt::join(columns, ", "),
                                         table, fmt::join(key_columns(table), ", ")),
                             db_.tenant()));
    HW_TAKE(lines, TextFile::begin(rows_file(folder_, table)));
    HW_TAKE(sheet, TextFile::begin(sheet_file(folder_, table)));
    HW_TRY(sheet.add(line_of_sheet(columns)));
    copies::ExportedTable told{table, 0, columns};
    for (; rows.next(); ++told.rows) {
      auto row = open_row(columns, rows);
      if (table == "photo") HW_TRY(put_photo(row, rows, columns));
      HW_TRY(lines.add(boost::json::serialize(row) + "\n"));
      std::vector<std::string> cells;
      for (std::size_t i = 0; i < columns.size(); ++i) cells.push_back(in_sheet(rows.value(static_cast<int>(i))));
      HW_TRY(sheet.add(line_of_sheet(cells)));
    }
    HW_TRY(lines.end());
    HW_TRY(sheet.end());
    report_.head.tables.push_back(std::move(told));
    return {};
  }
  ExportReport take() && { return std::move(report_); }

 private:
  Result<void> put_photo(boost::json::object& row, const sql::Rows& rows, const std::vector<std::string>& columns) {
    const auto at = std::find(columns.begin(), columns.end(), "bytes") - columns.begin();
    const auto blob = rows.get<sql::Blob>(static_cast<int>(at));
    const std::string bytes(reinterpret_cast<const char*>(blob.data()), blob.size());
    const std::string type{service::photo_type_of(bytes).value_or("image/bin")};
    const std::string name = fmt::format("photos/{}.{}", ++report_.photos, type.substr(type.find('/') + 1));
    HW_TAKE(file, TextFile::begin(folder_ / name));
    HW_TRY(file.add(bytes));
    HW_TRY(file.end());
    row["bytes"] = boost::json::object{{"file", name}};
    return {};
  }

  sql::Connection& db_;
  fs::path folder_;
  ExportReport report_;
};

Result<ExportReport> export_into(sql::Connection& db, const fs::path& folder, Instant now) {
  HW_TRY(make_folders(folder));
  HW_TAKE(moment, sql::Transaction::begin(db));
  HW_TAKE(name, db.query_value<std::string>("select name from plant where plant = $1", db.tenant()));
  if (!name) return refuse(ErrorCode::not_found, "no shop has been founded here");
  Exporting exporting(db, folder);
  for (const std::string& table : table_names()) HW_TRY(exporting.table(table));
  HW_TAKE(digest, record_digest(db));
  HW_TRY(moment.commit());
  ExportReport report = std::move(exporting).take();
  report.head.format = form;
  report.head.plant = db.tenant();
  report.head.name = *name;
  report.head.schema = static_cast<int>(migrations().size());
  report.head.program = service::program_version;
  report.head.made_at = now;
  report.head.sha256 = digest.sha256;
  HW_TRY(write_whole_file(folder / head_file, formats::print_json(report.head) + "\n", ReadableBy::owner));
  return report;
}

Result<void> take_place(WorkFolder work, const fs::path& place) {
  std::error_code error;
  fs::rename(work.path(), place, error);  // also over an empty folder
  if (error) return refuse(ErrorCode::disk_full, "{}: cannot take its place: {}", place.string(), error.message());
  work.release();
  return formats::settle_folder(fs::absolute(place).parent_path());
}

// Reading.
Result<ExportHead> read_head(const fs::path& folder) {
  const fs::path file = folder / head_file;
  HW_TAKE(text, read_whole_file(file));
  auto head = formats::parse_json<ExportHead>(text);
  if (!head) return refuse(head.error().at(file.string()));
  if (head->format != form) {
    return refuse(ErrorCode::unsupported, "{}: format: \"{}\"; {} is right", file.string(), head->format, form);
  }
  const auto known = static_cast<int>(migrations().size());
  if (head->schema != known) {
    return refuse(ErrorCode::unsupported,
                  "{}: its tables are of version {}, this program's are of version {}; import it with the version {} "
                  "that wrote it, which serves it and brings it up to date",
                  file.string(), head->schema, known, head->program);
  }
  return head;
}

// Only what lies in the folder's photos: a row must not have other files read.
Result<std::string> read_photo(const fs::path& folder, const std::string& name) {
  const fs::path path{name};
  if (path.parent_path() != "photos" || path.filename().string().starts_with('.')) {
    return refuse(ErrorCode::bad_input, "file: \"{}\" is not in the folder photos", name.substr(0, 80));
  }
  HW_TAKE(source, formats::open_file((folder / path).string(), photo_bytes_max));
  return formats::read_all(*source, photo_bytes_max);
}

Result<void> import_table(sql::Connection& db, const fs::path& folder, const std::string& table, int& photos) {
  const std::string name = rows_file(folder, table).string();
  HW_TAKE(columns, db.columns_of(table));
  HW_TAKE(source, formats::open_file(name));
  formats::LineReader lines(*source, line_bytes_max);
  HW_TAKE(stored, db.begin_rows({table, columns}));
  const ReadBytes read = [&](const std::string& file) {
    ++photos;
    return read_photo(folder, file);
  };
  const auto place = [&] { return fmt::format("{}, line {}", name, lines.line_number()); };
  for (std::string_view line; lines.next(line);) {
    const auto cells = parse_open_row(line, columns, read);
    if (!cells) return refuse(cells.error().at(place()));
    std::vector<sql::Parameter> row;
    for (const Cell& cell : *cells) row.push_back(parameter_of(cell));
    const auto added = stored->add(row);
    if (!added) return refuse(added.error().at(place()));
  }
  HW_TRY(lines.outcome());
  const auto ended = stored->end();
  return ended ? Result<void>{} : refuse(ended.error().at(name));
}

Result<int> import_into(const DatabasePlace& place, const fs::path& folder, const ExportHead& head) {
  HW_TAKE(db, sql::open_sqlite(place.file(), sql::Access::write, {.application_id = application_id}));
  HW_TRY(apply_steps(*db, place, migrations()));
  HW_TRY(check_plant_key(head.plant));
  HW_TRY(db->act_for(head.plant));
  HW_TAKE(writing, sql::Transaction::begin(*db));
  int photos = 0;
  for (const std::string& table : table_names()) HW_TRY(import_table(*db, folder, table, photos));
  HW_TAKE(digest, record_digest(*db));
  if (digest.sha256 != head.sha256) {
    return refuse(ErrorCode::corrupt,
                  "{}: the rows are not those that were written ({}, not {}): a file was changed, or one is missing",
                  folder.string(), digest.sha256, head.sha256);
  }
  HW_TRY(writing.commit());
  return photos;
}

}  // namespace

Result<ExportReport> export_shop(const fs::path& data, const fs::path& folder, Instant now) {
  HW_TRY(find_store(data));
  HW_TAKE(place, place_of(data));
  HW_TRY(check_is_new(folder));
  HW_TAKE(db, open_database(place, sql::Access::read));
  HW_TRY(check_tables_are_ours(*db, data.string()));
  HW_TAKE(work, WorkFolder::make(work_beside(folder)));
  HW_TAKE(report, export_into(*db, work.path(), now));
  HW_TRY(take_place(std::move(work), folder));
  report.folder = folder.string();
  return std::move(report);
}

Result<ExportReport> import_shop(const fs::path& folder, const fs::path& data) {
  HW_TAKE(head, read_head(folder));
  HW_TRY(check_is_new(data));
  HW_TAKE(work, WorkFolder::make(work_beside(data)));
  HW_TRY(sql::check_local_file_system(work.path()));
  HW_TAKE(photos, import_into({work.path()}, folder, head));
  HW_TRY(take_place(std::move(work), data));
  return ExportReport{folder.string(), photos, std::move(head)};
}

}  // namespace hw::storage
