#include "src/web/forwarding.h"

#include <array>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>

#include "libs/http/client.h"
#include "libs/http/problem.h"

namespace hw::web {
namespace {

constexpr const char* by_server = "X-Hourwright-Server";  // the receiver's secret
constexpr const char* for_address = "X-Hourwright-Remote";
constexpr const char* for_line = "X-Hourwright-Line";

constexpr int waiting_max = 6;
constexpr Duration answer_within = Duration::seconds(20);
constexpr std::chrono::seconds head_within{5};  // of a stream of events

// They are about one line between two programs (RFC 9110, section 7.6.1), or the server's own affair.
constexpr std::array of_the_line{"Connection", "Content-Length", "Transfer-Encoding", "Date",  "Keep-Alive",
                                 "TE",         "Trailer",        "Upgrade",           "Expect"};

http::Headers without_those_of_the_line(http::Headers headers) {
  for (const char* name : of_the_line) headers.remove(name);
  return headers;
}

http::Headers passed_on(const http::Request& request, const service::PlantHolder& holder) {
  http::Headers headers = without_those_of_the_line(request.headers);
  headers.set(by_server, holder.secret);
  headers.set(for_address, request.remote_address);
  headers.set(for_line, request.is_tls ? "tls" : "plain");
  return headers;
}

// Compares in a time that does not depend on where they differ.
bool is_same_secret(std::string_view a, std::string_view b) {
  if (a.size() != b.size() || a.empty()) return false;
  unsigned char differ = 0;
  for (std::size_t i = 0; i < a.size(); ++i) differ = static_cast<unsigned char>(differ | (a[i] ^ b[i]));
  return differ == 0;
}

// Events from the holder, handed on as they come. A client that reads too slowly is ended: it begins anew and fetches
// what is.
class ForwardedEvents : public http::ByteStream {
 public:
  ForwardedEvents(const http::Url& url, http::Headers headers) {
    http::StreamOptions options;
    options.headers = std::move(headers);
    options.silence_max = Duration::seconds(45);
    options.cancel = cancel_;
    thread_ = std::thread([this, url, options] { run(url, options); });
  }
  ~ForwardedEvents() override {
    cancel_.cancel();
    thread_.join();
  }

  // Waits for the head of the answer. An Error where there is none.
  Result<std::pair<int, http::Headers>> head() {
    std::unique_lock lock(mutex_);
    wake_head_.wait_for(lock, head_within, [this] { return head_ || is_closed_; });
    if (head_) return *head_;
    return refuse(ErrorCode::unreachable, "{}", trouble_.empty() ? "the plant's server does not answer" : trouble_);
  }

  std::string take() override {
    const std::lock_guard lock(mutex_);
    return std::exchange(waiting_, {});
  }
  bool closed() const override {
    const std::lock_guard lock(mutex_);
    return is_closed_;
  }
  void on_wake(std::function<void()> wake) override {
    const std::lock_guard calling(waking_);
    {
      const std::lock_guard lock(mutex_);
      if (wake && (!waiting_.empty() || is_closed_)) wake();
    }
    wake_ = std::move(wake);
  }

 private:
  static constexpr std::size_t waiting_bytes_max = 1024 * 1024;

  void run(const http::Url& url, const http::StreamOptions& options) {
    const auto on_head = [this](int status, const http::Headers& headers) -> Result<void> {
      const std::lock_guard lock(mutex_);
      head_ = std::pair{status, headers};
      wake_head_.notify_all();
      return {};
    };
    const auto ended = http::get_stream(url, options, on_head, [this](std::string_view piece) { return add(piece); });
    {
      const std::lock_guard lock(mutex_);
      is_closed_ = true;
      if (!ended) trouble_ = ended.error().message;
    }
    wake_head_.notify_all();
    call_wake();
  }
  Result<void> add(std::string_view piece) {
    {
      const std::lock_guard lock(mutex_);
      if (waiting_.size() + piece.size() > waiting_bytes_max) return refuse(ErrorCode::too_large, "the client is slow");
      waiting_ += piece;
    }
    call_wake();
    return {};
  }
  void call_wake() {
    const std::lock_guard calling(waking_);
    if (wake_) wake_();
  }

  http::CancelToken cancel_;
  mutable std::mutex mutex_;
  std::condition_variable wake_head_;
  std::optional<std::pair<int, http::Headers>> head_;
  std::string waiting_;
  bool is_closed_ = false;
  std::string trouble_;
  std::mutex waking_;  // held while wake_ is called: see ByteStream::on_wake
  std::function<void()> wake_;
  std::thread thread_;
};

http::Response forward_events(const http::Url& url, http::Headers headers) {
  auto events = std::make_shared<ForwardedEvents>(url, std::move(headers));
  const auto head = events->head();
  if (!head) return try_again_soon(head.error().message);
  http::Response response{head->first, without_those_of_the_line(head->second), {}};
  response.body = http::StreamBody{std::move(events)};
  return response;
}

}  // namespace

bool take_forwarded(http::Request& request, std::string_view own_secret) {
  const bool is_trusted = is_same_secret(request.headers.find(by_server).value_or(""), own_secret);
  if (is_trusted) {
    request.remote_address = request.headers.find(for_address).value_or("");
    request.is_tls = request.headers.find(for_line) == "tls";
  }
  for (const char* name : {by_server, for_address, for_line}) request.headers.remove(name);
  return is_trusted;
}

http::Response try_again_soon(std::string_view says) {
  http::Response response = http::problem({ErrorCode::unreachable, std::string{says}});
  response.status = 503;
  response.headers.set("Retry-After", "2");
  return response;
}

// One of the places to wait at a server, as long as it is there.
class Forwarding::Place {
 public:
  Place(Forwarding& all, const std::string& server) : all_(all), server_(server) {
    const std::lock_guard lock(all_.mutex_);
    is_free_ = all_.waiting_[server_] < waiting_max;
    if (is_free_) ++all_.waiting_[server_];
  }
  ~Place() {
    const std::lock_guard lock(all_.mutex_);
    if (is_free_) --all_.waiting_[server_];
  }
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;
  bool is_free() const { return is_free_; }

 private:
  Forwarding& all_;
  std::string server_;
  bool is_free_ = false;
};

http::Response Forwarding::forward(const http::Request& request, const service::PlantHolder& holder) {
  const Place place(*this, holder.server);
  if (!place.is_free()) return try_again_soon("the plant's server is slow to answer");
  auto url = http::parse_url(holder.address);
  if (!url) return try_again_soon("the server that holds the plant cannot be reached from this one");
  url->target = request.target;
  http::Headers headers = passed_on(request, holder);
  if (headers.lists("Accept", "text/event-stream")) return forward_events(*url, std::move(headers));
  http::GetOptions options;
  options.headers = std::move(headers);
  options.answer_within = answer_within;
  options.connect_within = Duration::seconds(2);
  auto answer = http::send(*url, request.method, request.body, options);
  if (!answer) return try_again_soon(answer.error().message);
  answer->headers = without_those_of_the_line(answer->headers);
  return std::move(*answer);
}

}  // namespace hw::web
