#include "src/simulate/agent_requests.h"

#include <charconv>
#include <initializer_list>

#include <fmt/format.h>

namespace hw::simulate {

namespace {

using http::Request;
using http::Response;

struct Target {
  std::string device;  // empty: all
  std::string what;    // probe, current, sample
};

// "/m01/probe", "/probe", "/m01", "/".
std::optional<Target> target_of(std::string_view path) {
  path.remove_prefix(1);
  if (path.ends_with('/')) path.remove_suffix(1);
  const auto is_request = [](std::string_view word) {
    return word == "probe" || word == "current" || word == "sample";
  };
  const std::size_t slash = path.find('/');
  if (slash == std::string_view::npos) {
    if (path.empty() || is_request(path)) return Target{"", path.empty() ? "probe" : std::string(path)};
    return Target{std::string(path), "probe"};
  }
  const std::string_view what = path.substr(slash + 1);
  if (!is_request(what)) return std::nullopt;
  return Target{std::string(path.substr(0, slash)), std::string(what)};
}

// A number of the query, its default, or nothing where it is no number.
std::optional<std::int64_t> number_of(const Request& request, std::string_view name, std::int64_t otherwise) {
  const auto text = request.query_value(name);
  if (!text) return otherwise;
  std::int64_t number = 0;
  const char* const end = text->data() + text->size();
  const auto [stop, error] = std::from_chars(text->data(), end, number);
  if (error != std::errc() || stop != end) return std::nullopt;
  return number;
}

class Answering {
 public:
  Answering(const std::shared_ptr<SharedAgent>& shared, const Request& request, const OnStream& on_stream)
      : shared_(shared), agent_(shared->agent), request_(request), on_stream_(on_stream), now_(shared->clock()) {}

  Response answer();

 private:
  Response answer_sample(std::optional<std::size_t> machine);
  Response open_stream(StreamAsk ask);
  Response send(Document document) const;
  Response refuse(int status, std::string_view code, std::string_view text) const {
    return send(agent_.error(status, code, text, now_));
  }

  const std::shared_ptr<SharedAgent>& shared_;
  const Agent& agent_;
  const Request& request_;
  const OnStream& on_stream_;
  const Instant now_;
};

Response Answering::send(Document document) const {
  const Faults& faults = shared_->faults;
  const char* const type = faults.says_html ? "text/html" : "text/xml";
  FaultyBody body = spoil(std::move(document.xml), faults);
  if (body.fills == 0) return Response::of(faults.says_html ? 200 : document.status, type, std::move(body.head));
  Response response = Response::stream(type, std::make_shared<FaultyBytes>(std::move(body)));
  response.status = document.status;
  return response;
}

Response Answering::answer() {
  if (request_.method != "GET") return refuse(405, "UNSUPPORTED", "only GET is understood");
  const auto target = target_of(request_.path);
  if (!target) return refuse(404, "INVALID_URI", "there are /probe, /current and /sample, also below /{device}");
  const auto machine = agent_.find(target->device);
  if (!machine && !target->device.empty()) return refuse(404, "NO_DEVICE", "no device " + target->device);
  for (const std::string_view name : {"path", "at"}) {
    if (request_.query_value(name)) return refuse(404, "UNSUPPORTED", fmt::format("{} is not understood", name));
  }
  if (target->what == "probe") return send(agent_.probe(machine, now_));
  if (target->what == "sample") return answer_sample(machine);
  if (request_.query_value("interval")) return refuse(404, "UNSUPPORTED", "only samples are streamed");
  return send(agent_.current(machine, now_));
}

Response Answering::answer_sample(std::optional<std::size_t> machine) {
  const auto from = number_of(request_, "from", static_cast<std::int64_t>(agent_.first_sequence()));
  const auto count = number_of(request_, "count", 100);
  // The name of interval before 1.2.
  const char* const interval_name = request_.query_value("frequency") ? "frequency" : "interval";
  const auto interval = number_of(request_, interval_name, 0);
  const auto heartbeat = number_of(request_, "heartbeat", 10'000);
  if (!from || *from < 0 || !count || !interval || *interval < 0 || !heartbeat || *heartbeat <= 0) {
    return refuse(400, "INVALID_REQUEST", "from, count, interval and heartbeat are whole numbers and not negative");
  }
  StreamAsk ask;
  ask.sample = {machine, static_cast<std::uint64_t>(*from), *count};
  if (!request_.query_value(interval_name)) return send(agent_.sample(ask.sample, now_));
  ask.interval = std::chrono::milliseconds(*interval);
  ask.heartbeat = std::chrono::milliseconds(*heartbeat);
  return open_stream(ask);
}

// What is out of range from the beginning is refused as a poll would be.
Response Answering::open_stream(StreamAsk ask) {
  Document first = agent_.sample(ask.sample, now_);
  if (first.status != 200 || shared_->faults.says_html) return send(std::move(first));
  const auto stream = std::make_shared<AgentStream>(shared_, ask);
  on_stream_(stream);
  return Response::stream(AgentStream::content_type(), stream);
}

}  // namespace

Response answer(const std::shared_ptr<SharedAgent>& agent, const Request& request, const OnStream& on_stream) {
  const std::lock_guard lock(agent->mutex);
  return Answering(agent, request, on_stream).answer();
}

}  // namespace hw::simulate
