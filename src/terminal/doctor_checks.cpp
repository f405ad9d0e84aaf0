#include "src/terminal/doctor_checks.h"

#include <algorithm>

#include <boost/describe.hpp>

#include "libs/certificates/tls_folder.h"
#include "libs/formats/json.h"
#include "libs/http/client.h"
#include "libs/mqtt/client.h"
#include "src/copies/copy_name.h"
#include "src/copies/copy_state.h"
#include "src/terminal/share_folder.h"

namespace hw::terminal {
namespace {

namespace fs = std::filesystem;
using service::Check;

// As GET /readyz answers.
struct ReadyAnswer {
  bool ready = true;
  std::vector<Check> checks;
};
BOOST_DESCRIBE_STRUCT(ReadyAnswer, (), (ready, checks))

http::GetOptions soon() {
  http::GetOptions options;
  options.connect_within = Duration::seconds(3);
  options.answer_within = Duration::seconds(5);
  return options;
}

Result<http::Response> ask(const std::string& listen, std::string_view path) {
  HW_TAKE(url, http::parse_url(fmt::format("http://{}{}", listen, path)));
  return http::get(url, soon());
}

// A server that asks who we are does not say; that it answers at all is enough then.
void add_own_checks(std::vector<Check>& checks, const std::string& listen) {
  const auto answer = ask(listen, "/readyz");
  if (!answer) return;
  const auto ready = formats::parse_json<ReadyAnswer>(answer->text());
  if (!ready) return;
  for (const Check& check : ready->checks) checks.push_back({"server: " + check.name, check.result, check.detail});
}

std::optional<copies::GoodCopy> newest_in(const fs::path& folder, std::error_code& error) {
  std::optional<copies::GoodCopy> newest;
  for (const auto& one : fs::directory_iterator(folder, error)) {
    const auto made_at = copies::parse_copy_name(one.path().filename().string());
    std::error_code unreadable;
    if (made_at && (!newest || *made_at > newest->made_at)) newest = {*made_at, one.file_size(unreadable)};
  }
  return newest;
}

}  // namespace

Check share_check() {
  const auto share = share_folder();
  if (!share) return {"program files", "fail", share.error().message + "; install the program again"};
  for (const char* part : {"library", "api/openapi.yaml", "app/dist/index.html"}) {
    if (fs::exists(*share / part)) continue;
    return {"program files", "warn",
            fmt::format("{} is missing: make build, or install the program again", (*share / part).string())};
  }
  return {"program files", "pass", "library, contract and app are there"};
}

Check zone_check(const std::optional<service::ShopWithMachines>& shop) {
  const std::string name = shop ? shop->shop.calendar.zone.name() : "Europe/Berlin";
  const auto zone = Zone::find(name);
  if (!zone) return {"zone", "fail", zone.error().message + ": install the package tzdata"};
  return {"zone", "pass", fmt::format("{} is known", name)};
}

std::optional<Check> certificate_check(const fs::path& data, Instant now) {
  const certificates::TlsFolder folder{data / "tls"};
  std::error_code error;
  if (!fs::exists(folder.server_file(), error)) return std::nullopt;
  const auto served = certificates::read_served(folder, now);
  if (!served) return Check{"certificate", "fail", served.error().message + "; hourwright tls init makes a new one"};
  const Instant ends_at = served->certificate.ends_at;
  const std::string ends_on = print(ends_at).substr(0, 10);
  if (ends_at - now > Duration::hours(24 * 14)) return Check{"certificate", "pass", "it ends on " + ends_on};
  return Check{"certificate", "warn",
               fmt::format("it ends on {}: a running server renews its own authority's by itself; for one of your own, "
                           "hourwright tls use",
                           ends_on)};
}

Check copies_check(const DoctorCall& call, Instant now) {
  if (!call.copies) {
    return {"copies", "warn", "say with --copies where they are; where there are none, serve with --copies DIR"};
  }
  std::error_code error;
  copies::CopyState state{copies::Keeping::nightly, newest_in(*call.copies, error), ""};
  if (error) state.trouble = fmt::format("{}: {}", *call.copies, error.message());
  if (!error && !state.last_good) state.trouble = "there is none in the folder";
  const bool is_well = concern_of(state, now) == copies::Concern::none;
  return {"copies", is_well ? "pass" : "warn", says(state, now)};
}

std::vector<Check> server_checks(const DoctorCall& call) {
  const auto alive = ask(call.listen, "/healthz");
  if (!alive && alive.error().code == ErrorCode::unreachable) {
    return {{"server", "pass", fmt::format("nobody listens at {}: the port is free for it", call.listen)}};
  }
  if (!alive || alive->text() != "alive\n") {
    return {{"server", "warn",
             fmt::format("something else answers at {}: give the server another port by --listen, or "
                         "end that",
                         call.listen)}};
  }
  std::vector<Check> checks{{"server", "pass", fmt::format("it answers at {}", call.listen)}};
  add_own_checks(checks, call.listen);
  return checks;
}

namespace {

Check agent_check(const service::FeedRecord& feed) {
  const std::string name = "agent " + feed.key;
  const auto url = http::parse_url(feed.url);
  if (!url) return {name, "fail", "its address does not read; it was said when the shop was founded"};
  const auto answer = http::get(*url, soon());
  const bool is_there = answer || answer.error().code == ErrorCode::too_large;
  if (is_there) return {name, "pass", fmt::format("{} answers", url->host)};
  return {name, "warn",
          fmt::format("{} does not answer ({}): is it on, and does this computer reach its network?", url->host,
                      word_of(answer.error().code))};
}

Check broker_check(const service::FeedRecord& feed) {
  const std::string name = "broker " + feed.key;
  const auto url = mqtt::parse_broker_url(feed.url);
  if (!url) return {name, "fail", "its address does not read; it was said when the shop was founded"};
  mqtt::Client client(*url, {.answer_within = Duration::seconds(3)},
                      {[](const mqtt::Message&) {}, [](const std::string&) {}});
  if (const auto connected = client.connect(); !connected) {
    return {name, "warn",
            fmt::format("{}: is it on, does this computer reach its network, and does it know the user?",
                        connected.error().message)};
  }
  return {name, "pass", fmt::format("{} lets this computer in", url->broker())};
}

}  // namespace

std::vector<Check> feed_checks(const service::ShopWithMachines& shop) {
  std::vector<Check> checks;
  for (const auto& feed : shop.shop.feeds) {
    checks.push_back(mqtt::is_broker_url(feed.url) ? broker_check(feed) : agent_check(feed));
  }
  return checks;
}

}  // namespace hw::terminal
