#include "src/web/readiness.h"

#include "libs/sql/storage_failed.h"

namespace hw::web {
namespace {

Check storage_check(const service::OpenShop& shop) {
  try {
    if (const auto failure = shop.store().failure()) {
      return {"storage", "fail", "nothing more is saved until the server is started again: " + failure->message};
    }
    const std::string trouble = shop.storing_trouble();
    if (!trouble.empty()) return {"storage", "fail", "what was counted is not stored: " + trouble};
    const auto read = shop.store().positions();
    return {"storage", read ? "pass" : "fail", read ? "the database answers" : read.error().message};
  } catch (const sql::StorageFailed& failed) {
    return {"storage", "fail", failed.what()};
  }
}

Check feeds_check(const service::OpenShop& shop) {
  const auto lock = shop.look();
  std::string lost;
  std::size_t with_feed = 0;
  for (const auto& machine : shop.machines()) {
    with_feed += machine->feed.state != "none";
    if (machine->feed.state == "lost") lost += " " + machine->record.machine.key;
  }
  if (lost.empty()) return {"feeds", "pass", fmt::format("{} machines are followed", with_feed)};
  return {"feeds", "warn", fmt::format("no sign of life from:{}", lost)};
}

Check pages_check(std::size_t app_files) {
  if (app_files > 0) return {"pages", "pass", fmt::format("{} files of the app", app_files)};
  return {"pages", "warn", "the app is not built: make build"};
}

Check copies_check(const copies::CopyState& state, Instant now) {
  const bool is_well = concern_of(state, now) == copies::Concern::none;
  return {"copies", is_well ? "pass" : "warn", says(state, now)};
}

Check upward_check(const service::UpwardState& state) {
  const std::string waits = fmt::format("{} rows wait", state.waiting_rows);
  const std::string since = state.sent_at ? "since " + print(*state.sent_at) : "so far";
  if (!state.trouble.empty())
    return {"upward", "warn", fmt::format("nothing went upward {}, {}: {}", since, waits, state.trouble)};
  return {"upward", "pass",
          state.sent_at ? "the group was told at " + print(*state.sent_at) : "the group is being told"};
}

}  // namespace

Check certificate_check(const certificates::Certificate& certificate, Instant now) {
  const std::string ends_on = print(certificate.ends_at).substr(0, 10);
  const bool lasts = certificate.ends_at - now > Duration::hours(24 * 14);
  return {"certificate", lasts ? "pass" : "warn",
          fmt::format("the certificate for HTTPS {} on {}", certificate.ends_at > now ? "ends" : "has ended", ends_on)};
}

Readiness readiness_of(const service::OpenShop& shop, std::size_t app_files, Instant now) {
  Readiness out;
  out.checks = {storage_check(shop), feeds_check(shop), pages_check(app_files), copies_check(shop.copies(), now)};
  if (const auto upward = shop.upward(); upward.is_edge) out.checks.push_back(upward_check(upward));
  for (const Check& check : out.checks) out.ready = out.ready && check.result != "fail";
  return out;
}

}  // namespace hw::web
