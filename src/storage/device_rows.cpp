#include "src/storage/device_rows.h"

#include "src/storage/catalogue_rows.h"
#include "src/storage/stored_text.h"

namespace hw::storage {

Result<void> insert_device(sql::Connection& db, const service::Device& device) {
  HW_TRY(
      db.execute("insert into device(plant, ordinal, id, title, secret_hash, enrolled_by, enrolled_ms, is_over_tls) "
                 "select $1, coalesce(max(ordinal), 0) + 1, $2, $3, $4, $5, $6, $7 from device where plant = $1",
                 db.tenant(), device.id, device.title, device.secret_hash, device.enrolled_by,
                 device.enrolled_at.as_millis(), device.is_over_tls));
  return device.last_seen_on ? put_device_seen(db, device.id, *device.last_seen_on) : Result<void>{};
}

Result<void> insert_device_end(sql::Connection& db, const service::DeviceEnd& end) {
  HW_TRY(db.execute("insert into device_end(plant, device, id, by_name, ended_ms) values($1, $2, $3, $4, $5)",
                    db.tenant(), end.device, end.id, end.by, end.at.as_millis()));
  return {};
}

Result<void> put_device_seen(sql::Connection& db, const std::string& device, LocalDate on) {
  HW_TRY(
      db.execute("insert into device_seen(plant, device, seen_on) values($1, $2, $3) "
                 "on conflict(plant, device) do update set seen_on = excluded.seen_on",
                 db.tenant(), device, on.days));
  return {};
}

Result<std::vector<service::Device>> read_devices(sql::Connection& db) {
  std::vector<service::Device> devices;
  HW_TAKE(rows, db.query("select d.id, d.title, d.secret_hash, d.enrolled_by, d.enrolled_ms, d.is_over_tls, s.seen_on, "
                         "e.ended_ms, e.by_name from device d "
                         "left join device_seen s on s.plant = d.plant and s.device = d.id "
                         "left join device_end e on e.plant = d.plant and e.device = d.id "
                         "where d.plant = $1 order by d.ordinal",
                         db.tenant()));
  while (rows.next()) {
    service::Device device;
    device.id = rows.get<std::string>(0);
    device.title = rows.get<std::string>(1);
    device.secret_hash = rows.get<std::string>(2);
    device.enrolled_by = rows.get<std::string>(3);
    device.enrolled_at = Instant::from_millis(rows.get<std::int64_t>(4));
    device.is_over_tls = rows.get<int>(5) != 0;
    if (const auto on = rows.get<std::optional<int>>(6)) device.last_seen_on = LocalDate{*on};
    device.ended_at = instant_of(rows.get<std::optional<std::int64_t>>(7));
    device.ended_by = rows.get<std::optional<std::string>>(8);
    devices.push_back(std::move(device));
  }
  return devices;
}

}  // namespace hw::storage
