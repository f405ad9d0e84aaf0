#include "src/web/shop_site.h"

#include "libs/values/secret.h"
#include "src/service/sign_in.h"
#include "src/web/access_routes.h"
#include "src/web/admission.h"
#include "src/web/answers.h"
#include "src/web/join_routes.h"
#include "src/web/metrics.h"
#include "src/web/origin_check.h"
#include "src/web/readiness.h"

namespace hw::web {
namespace {

http::Response readiness_answer(const Readiness& readiness) {
  return http::Response::json(formats::print_json(readiness), readiness.ready ? 200 : 503);
}

}  // namespace

ShopSite::ShopSite(service::OpenShop& shop, std::shared_ptr<const SiteFiles> files, const Reach& reach, Clock clock,
                   InGroup group)
    : shop_(shop),
      files_(std::move(files)),
      reach_(reach),
      clock_(std::move(clock)),
      group_(std::move(group)),
      floor_(shop),
      forecasts_(shop),
      studies_(shop),
      stores_(shop, forecasts_, studies_),
      proposals_(shop, forecasts_) {}

ShopSite::~ShopSite() { end_streams(); }

Result<std::unique_ptr<ShopSite>> ShopSite::open(service::OpenShop& shop, std::shared_ptr<const SiteFiles> files,
                                                 const Reach& reach, Clock clock, InGroup group) {
  std::unique_ptr<ShopSite> site{new ShopSite(shop, std::move(files), reach, std::move(clock), std::move(group))};
  HW_TRY(site->open_access());
  site->add_own_routes();
  site->add_routes();
  site->live_ = std::make_unique<LiveEvents>(shop, site->floor_, site->clock_, site->channel_);
  return site;
}

Result<void> ShopSite::open_access() {
  HW_TAKE(devices, service::Devices::open(shop_.store(), shop_.calendar().zone, secret_bytes));
  devices_ = std::move(devices);
  HW_TAKE(book,
          service::AccessBook::open(shop_.store(), shop_.calendar().zone, secret_bytes, files_->access.permissions));
  book_ = std::move(book);
  router_.guard([this](const http::Route& route, http::Request& request) {
    auto refusal = unless_the_disk_fails([&] {
      return check_admission({{*book_, *devices_}, shop_, files_->access}, route, request, clock_());
    });
    return refusal ? std::move(refusal) : check_body_type(request);
  });
  return {};
}

void ShopSite::add_own_routes() {
  router_.add("GET", "/healthz", [](const http::Request&) { return http::Response::of(200, "text/plain", "alive\n"); });
  router_.add("GET", "/readyz", [this](const http::Request&) {
    Readiness readiness = readiness_of(shop_, files_->app_files(), clock_());
    if (const auto served = reach_.served())
      readiness.checks.push_back(certificate_check(served->certificate, clock_()));
    return readiness_answer(readiness);
  });
  router_.add("GET", "/metrics", [this](const http::Request&) {
    return http::Response::of(200, metrics_content_type, metrics_of(shop_, clock_()));
  });
  router_.otherwise([this](const http::Request& request) { return from_app(request); });
}

void ShopSite::add_routes() {
  add_api(router_, {shop_, floor_, clock_, channel_, forecasts_, proposals_, studies_, stores_, files_->contract,
                    reach_, group_.told, group_.outdated});
  add_join(router_, {*devices_, reach_, clock_, channel_});
  const AccessParts access{*book_, *devices_, shop_, reach_, clock_, channel_};
  add_sign_in_routes(router_, access);
  add_own_access_routes(router_, access);
  add_account_routes(router_, access);
}

http::Response ShopSite::answer(http::Request request) const {
  if (auto refusal = check_origin(request, reach_)) return *std::move(refusal);
  return router_.answer(std::move(request));
}

std::optional<http::Response> ShopSite::answer_before(http::Request head) const {
  if (auto refusal = check_origin(head, reach_)) return refusal;
  return router_.answer_before(std::move(head));
}

http::Response ShopSite::from_app(const http::Request& request) const {
  const bool is_api = request.path == "/api" || request.path.starts_with("/api/");
  if (files_->app && !is_api) return files_->app->answer(request);
  return http::problem({ErrorCode::not_found, fmt::format("there is nothing at {}", request.path)});
}

bool ShopSite::can_sign_in() const { return service::has_accounts(*book_, clock_()); }

// Weeks move by days; a whole plant's forecasts take seconds.
Result<std::string> ShopSite::plant_line(Instant now) {
  constexpr Duration weeks_last = Duration::seconds(1800);
  if (!weeks_at_ || now - *weeks_at_ > weeks_last || now < *weeks_at_) {
    HW_TAKE(weeks, service::weeks_ahead(shop_, forecasts_, now));
    weeks_ = std::move(weeks);
    weeks_at_ = now;
  }
  return formats::print_json(
      service::PlantLineView{now, service::group_machines(shop_, now), weeks_, service::outside_visits(shop_, now)});
}

void ShopSite::tell_of_plants() { channel_.publish({.event = "plants", .data = "{}"}); }

void ShopSite::end_streams() {
  live_.reset();
  channel_.close();
}

}  // namespace hw::web
