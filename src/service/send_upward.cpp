#include "src/service/send_upward.h"

#include <algorithm>
#include <chrono>
#include <fstream>

#include <boost/json.hpp>

#include "libs/formats/json.h"
#include "libs/sql/storage_failed.h"

namespace hw::service {
namespace {

// Taking the last piece of a shop of years lasts.
constexpr Duration taken_within = Duration::seconds(600);

// What the group has to say against it, in its own words where it has some.
std::string refusal_in(const http::Response& answer) {
  boost::system::error_code error;
  const auto body = boost::json::parse(answer.text(), error);
  const auto* problem = error ? nullptr : body.if_object();
  const auto* detail = problem ? problem->if_contains("detail") : nullptr;
  return detail && detail->is_string() ? std::string{detail->get_string()} : fmt::format("status {}", answer.status);
}

// One try, with what it needs all along.
class Try {
 public:
  Try(Shipments& shipments, const Upward& upward, const http::CancelToken& cancel)
      : shipments_(shipments), upward_(upward), cancel_(cancel) {}

  Result<void> run() {
    HW_TAKE(there, ask());
    HW_TRY(hear_of_taken(there));
    HW_TAKE(last, shipments_.last_taken());
    const Instant now = upward_.clock();
    if (there.number != last) {
      HW_TAKE(whole, shipments_.whole(there.number + 1, now));
      return send(whole, there);
    }
    HW_TAKE(next, shipments_.next(now));
    return next ? send(*next, there) : Result<void>{};
  }

 private:
  Result<http::Response> call(std::string_view method, const std::string& path, std::string_view body) {
    http::GetOptions options;
    options.answer_within = taken_within;
    options.ca_file = upward_.ca_file;
    options.cancel = cancel_;
    options.headers.set("Authorization", "Bearer " + upward_.token);
    if (!body.empty()) options.headers.set("Content-Type", "application/octet-stream");
    HW_TAKE(answer, http::send(upward_.group.with(path), method, body, options));
    if (answer.status == 200) return std::move(answer);
    return refuse(ErrorCode::peer_misbehaved, "the group refuses: {}", refusal_in(answer));
  }

  Result<ShipmentsView> ask() {
    HW_TAKE(answer, call("GET", "/api/edge/shipments", ""));
    auto view = formats::parse_json<ShipmentsView>(answer.text());
    return view ? std::move(view) : refuse(view.error().at("what the group tells of shipments"));
  }

  // Of the last one the answer may have been lost.
  Result<void> hear_of_taken(const ShipmentsView& there) {
    HW_TAKE(last, shipments_.last_taken());
    if (there.number != last + 1) return {};
    HW_TAKE(waits, shipments_.next(upward_.clock()));
    if (!waits || waits->number != there.number || waits->sha256 != there.sha256) return {};
    return shipments_.taken(*waits);
  }

  Result<void> send(const Shipment& shipment, const ShipmentsView& there) {
    const auto count = static_cast<int>((shipment.bytes + upward_.piece_bytes - 1) / upward_.piece_bytes);
    std::vector<int> here;
    if (there.next && there.next->sha256 == shipment.sha256 && there.next->of == count) here = there.next->pieces;
    std::ifstream file(shipment.file, std::ios::binary);
    std::string bytes(upward_.piece_bytes, '\0');
    for (int piece = 0; piece < count; ++piece) {
      file.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
      const std::string_view read(bytes.data(), static_cast<std::size_t>(file.gcount()));
      if (std::find(here.begin(), here.end(), piece) != here.end()) continue;
      const std::string path = fmt::format("/api/edge/shipments/{}/pieces/{}?of={}&sha256={}", shipment.number, piece,
                                           count, shipment.sha256);
      HW_TAKE(answer, call("PUT", path, read));
      HW_TAKE(said, formats::parse_json<PieceTakenView>(answer.text()));
      if (said.taken) return shipments_.taken(shipment);
    }
    return refuse(ErrorCode::peer_misbehaved, "the group has all of shipment {} and has not taken it", shipment.number);
  }

  Shipments& shipments_;
  const Upward& upward_;
  const http::CancelToken& cancel_;
};

}  // namespace

Result<void> send_once(Shipments& shipments, const Upward& upward, const http::CancelToken& cancel) {
  return Try(shipments, upward, cancel).run();
}

SendUpward::SendUpward(OpenShop& shop, Shipments& shipments, Upward upward)
    : shop_(shop),
      shipments_(shipments),
      upward_(std::move(upward)),
      back_off_(std::min(upward_.every, upward_.wait_max), upward_.wait_max,
                std::hash<std::string>{}(upward_.group.host + upward_.token)) {
  state_.is_edge = true;
  shop_.set_upward(state_);
  thread_ = std::thread([this] { run(); });
}

SendUpward::~SendUpward() {
  {
    const std::lock_guard lock(mutex_);
    is_stopping_ = true;
  }
  cancel_.cancel();
  wake_.notify_all();
  thread_.join();
}

void SendUpward::run() {
  std::unique_lock lock(mutex_);
  while (!is_stopping_) {
    lock.unlock();
    const std::chrono::nanoseconds wait{look().ns};
    lock.lock();
    wake_.wait_for(lock, wait, [this] { return is_stopping_; });
  }
}

Duration SendUpward::look() {
  auto sent = Result<void>{};
  std::int64_t waiting = state_.waiting_rows;
  try {
    sent = send_once(shipments_, upward_, cancel_);
    waiting = shipments_.waiting().value_or(waiting);
  } catch (const sql::StorageFailed& failed) {
    sent = refuse(failed.error());
  }
  const std::string trouble = sent ? "" : sent.error().message;
  if (!sent && trouble != state_.trouble) upward_.report(fmt::format("nothing goes upward: {}", trouble));
  if (sent) state_.sent_at = upward_.clock();
  state_.waiting_rows = waiting;
  state_.trouble = trouble;
  shop_.set_upward(state_);
  if (!sent) return back_off_.after_failure();
  back_off_.succeeded();
  return upward_.every;
}

}  // namespace hw::service
