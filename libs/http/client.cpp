#include "libs/http/client.h"

#include "libs/http/line.h"
#include "libs/http/response_reader.h"

namespace hw::http {
namespace {

using Clock = Line::Clock;
using DeadlineOf = std::function<Clock::time_point()>;

Clock::time_point after(Duration duration) { return Clock::now() + std::chrono::nanoseconds(duration.ns); }

// "5 s", "0.25 s"
std::string shown(Duration duration) { return fmt::format("{:g} s", duration.as_seconds()); }

std::string request_text(const Url& url, std::string_view method, const Headers& headers, std::string_view body) {
  std::string text = fmt::format("{} {} HTTP/1.1\r\nConnection: close\r\n", method, url.target);
  if (!headers.find("Host")) text += fmt::format("Host: {}\r\n", url.authority());
  if (!headers.find("Accept")) text += "Accept: */*\r\n";
  if (!body.empty() || method != "GET") text += fmt::format("Content-Length: {}\r\n", body.size());
  for (const Header& header : headers) text += header.name + ": " + header.value + "\r\n";
  return text.append("\r\n").append(body);
}

Result<void> refuse_redirect(int status, const Headers& headers) {
  const auto location = headers.find("Location");
  if (status < 300 || status > 399 || status == 304 || !location) return {};
  return refuse(ErrorCode::peer_misbehaved,
                "it redirects to {}, which is not followed; give that address if it is right", *location);
}

// Writes the request and carries the answer's bytes to the reader until it has all.
Result<void> carry(Line& line, const std::string& request, ResponseReader& reader, const DeadlineOf& deadline) {
  if (auto sent = line.write(request, deadline()); !sent) return sent;
  std::string bytes;
  while (!reader.done()) {
    if (auto got = line.read(bytes, deadline()); !got) return got;
    if (bytes.empty()) return reader.finish();
    if (auto fed = reader.feed(bytes); !fed) return fed;
  }
  return {};
}

// The same error with the URL in front, and with the time that was given where it was too short.
Error named(const Url& url, Error error, std::string_view given) {
  if (error.code == ErrorCode::timed_out) error.message += fmt::format(" ({})", given);
  return error.at(print(url));
}

struct Within {
  Duration connect;
  Clock::time_point whole;  // the end of all, where there is one
  std::string given;        // for the message
};

Result<void> exchange(const Url& url, const std::string& request, const std::string& ca_file, const CancelToken& cancel,
                      const Within& within, const DeadlineOf& deadline, ResponseReader& reader) {
  auto line = Line::open(url, ca_file, cancel, std::min(after(within.connect), within.whole));
  if (!line) return refuse(named(url, line.error(), shown(within.connect) + " to connect"));
  auto carried = carry(*line, request, reader, deadline);
  if (!carried) return refuse(named(url, carried.error(), within.given));
  return {};
}

// Collects an answer up to the limit.
struct Collector {
  std::size_t bytes_max;
  Response response;
  std::string body;

  Result<void> head(int status, const Headers& headers) {
    if (auto direct = refuse_redirect(status, headers); !direct) return direct;
    response.status = status;
    response.headers = headers;
    return {};
  }
  Result<void> data(std::string_view piece) {
    if (piece.size() > bytes_max - body.size()) {
      return refuse(ErrorCode::too_large, "the answer is longer than {} bytes", bytes_max);
    }
    body += piece;
    return {};
  }
};

}  // namespace

Result<Response> get(const Url& url, const GetOptions& options) { return send(url, "GET", "", options); }

Result<Response> send(const Url& url, std::string_view method, std::string_view body, const GetOptions& options) {
  Collector collector{options.body_bytes_max, {}, {}};
  ResponseReader reader([&](int status, const Headers& headers) { return collector.head(status, headers); },
                        [&](std::string_view piece) { return collector.data(piece); });
  const Clock::time_point end = after(options.answer_within);
  const Within within{options.connect_within, end, shown(options.answer_within) + " for the whole answer"};
  auto done = exchange(
      url, request_text(url, method, options.headers, body), options.ca_file, options.cancel, within,
      [&] { return end; }, reader);
  if (!done) return refuse(done.error());
  collector.response.body = std::move(collector.body);
  return std::move(collector.response);
}

Result<void> get_stream(const Url& url, const StreamOptions& options, const OnHead& on_head, const OnData& on_data) {
  std::optional<Error> from_caller;
  const auto kept = [&](Result<void> result) {
    if (!result) from_caller = result.error();
    return result;
  };
  ResponseReader reader(
      [&](int status, const Headers& headers) -> Result<void> {
        if (auto direct = refuse_redirect(status, headers); !direct) return direct;
        return kept(on_head(status, headers));
      },
      [&](std::string_view piece) { return kept(on_data(piece)); });
  const Within within{options.connect_within, Clock::time_point::max(), shown(options.silence_max) + " of silence"};
  auto done = exchange(
      url, request_text(url, "GET", options.headers, ""), options.ca_file, options.cancel, within,
      [&] { return after(options.silence_max); }, reader);
  if (from_caller) return refuse(*from_caller);
  return done;
}

}  // namespace hw::http
