#include "src/catalogue/isolation_fields.h"

#include "src/catalogue/task_fields.h"

namespace hw::catalogue {
namespace {

EnergySource read_energy(TomlTable& table) { return table.take("energy", parse_energy_source(table.text("energy"))); }

std::optional<double> read_wait(TomlTable& table) {
  return table.has("wait_minutes") ? std::optional{table.number("wait_minutes")} : std::nullopt;
}

IsolationPoint read_isolation_point(TomlTable& table) {
  IsolationPoint point;
  point.key = table.text("key");
  point.title = table.text("title");
  point.title_de = table.text("title_de");
  point.energy = read_energy(table);
  point.where = table.text("where");
  point.where_de = table.text("where_de");
  point.how = table.text("how");
  point.how_de = table.text("how_de");
  if (table.has("point")) point.point = table.whole_or("point", 0);
  point.wait_minutes = read_wait(table);
  if (auto checked = check(point); !checked) table.mistake("key", checked.error().message);
  return point;
}

StoredEnergy read_stored_energy(TomlTable& table) {
  StoredEnergy stored;
  stored.energy = read_energy(table);
  stored.title = table.text("title");
  stored.title_de = table.text("title_de");
  stored.release = table.text("release");
  stored.release_de = table.text("release_de");
  stored.verify = table.text("verify");
  stored.verify_de = table.text("verify_de");
  stored.wait_minutes = read_wait(table);
  if (auto checked = check(stored); !checked) table.mistake("title", checked.error().message);
  return stored;
}

}  // namespace

Isolation read_isolation(TomlTable& document) {
  Isolation isolation;
  isolation.points = document.each("isolation", read_isolation_point);
  isolation.stored = document.each("stored_energy", read_stored_energy);
  check_keys_once(document, "isolation", isolation.points);
  return isolation;
}

}  // namespace hw::catalogue
