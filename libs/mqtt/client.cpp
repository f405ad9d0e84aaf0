#include "libs/mqtt/client.h"

#include <algorithm>
#include <chrono>
#include <fstream>
#include <vector>

#include <mqtt/async_client.h>

namespace hw::mqtt {
namespace {

namespace paho = ::mqtt;

constexpr int at_least_once = 1;
constexpr int on_their_way_max = 60'000;  // unacknowledged messages; ids have 16 bits

int version_of(const BrokerUrl& url) { return url.version == Version::v5 ? MQTTVERSION_5 : MQTTVERSION_3_1_1; }

// Without the end of the line.
Result<std::string> read_password(const std::string& path) {
  std::ifstream file(path);
  std::string line;
  if (!std::getline(file, line)) return refuse(ErrorCode::bad_input, "the password file {} does not read", path);
  if (!line.empty() && line.back() == '\r') line.pop_back();
  return line;
}

// Return codes of MQTT 3.1.1 (4, 5) and reason codes of MQTT 5 (134, 135) for a user who is not let in.
bool is_refused_user(int code) { return code == 4 || code == 5 || code == 134 || code == 135; }

Error error_of(const BrokerUrl& url, std::string_view what, const paho::exception& trouble) {
  const int reason = trouble.get_reason_code() > 0 ? trouble.get_reason_code() : trouble.get_return_code();
  if (is_refused_user(reason)) {
    return {ErrorCode::not_allowed, fmt::format("{}: the broker does not let this user in", url.broker())};
  }
  return {ErrorCode::unreachable, fmt::format("{}: {}: {}", url.broker(), what, trouble.what())};
}

}  // namespace

class Client::Connection : public paho::callback {
 public:
  Connection(BrokerUrl url, ClientOptions options, Hearing hearing)
      : url_(std::move(url)),
        options_(std::move(options)),
        hearing_(std::move(hearing)),
        client_(address_of(url_), options_.client_id, paho::create_options(version_of(url_)), nullptr) {
    client_.set_callback(*this);
  }
  ~Connection() override { disconnect(); }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  Result<void> connect() {
    HW_TAKE(how, connect_options());
    return waited("cannot connect", [&] { return client_.connect(how); });
  }

  Result<void> subscribe(std::span<const std::string> filters) {
    const auto topics = paho::string_collection::create(std::vector<std::string>(filters.begin(), filters.end()));
    const paho::iasync_client::qos_collection levels(filters.size(), at_least_once);
    return waited("cannot subscribe", [&] { return client_.subscribe(topics, levels); });
  }

  Result<void> publish(const std::string& topic, std::string_view payload, Retained retained) {
    try {
      client_.publish(
          paho::make_message(topic, payload.data(), payload.size(), at_least_once, retained == Retained::yes));
      return {};
    } catch (const paho::exception& trouble) {
      const bool is_full = trouble.get_return_code() == MQTTASYNC_MAX_BUFFERED_MESSAGES ||
                           trouble.get_return_code() == MQTTASYNC_NO_MORE_MSGIDS;
      if (is_full) return refuse(ErrorCode::too_often, "{}: too many messages are on their way", url_.broker());
      return refuse(error_of(url_, "cannot publish", trouble));
    }
  }

  bool is_connected() const { return client_.is_connected(); }

  void disconnect() {
    try {
      if (client_.is_connected()) client_.disconnect(1000)->wait_for(within());
    } catch (const paho::exception&) {  // it is gone, which is what was wanted
    }
  }

 private:
  static std::string address_of(const BrokerUrl& url) {
    const std::string broker = url.broker();
    return (url.is_secure ? "ssl" : "tcp") + broker.substr(broker.find("://"));
  }
  std::chrono::milliseconds within() const { return std::chrono::milliseconds(options_.answer_within.ns / 1'000'000); }

  Result<paho::connect_options> connect_options() const {
    paho::connect_options how;
    how.set_mqtt_version(version_of(url_));
    if (url_.version == Version::v5) {
      how.set_clean_start(true);
    } else {
      how.set_clean_session(true);
    }
    how.set_keep_alive_interval(static_cast<int>(options_.keep_alive.ns / 1'000'000'000));
    how.set_connect_timeout(std::chrono::duration_cast<std::chrono::seconds>(within()));
    how.set_max_inflight(on_their_way_max);
    how.set_automatic_reconnect(false);
    if (!url_.user.empty()) how.set_user_name(url_.user);
    if (!url_.password_file.empty()) {
      HW_TAKE(password, read_password(url_.password_file));
      how.set_password(password);
    }
    if (url_.is_secure) how.set_ssl(tls_options());
    return how;
  }

  paho::ssl_options tls_options() const {
    paho::ssl_options tls;
    tls.set_enable_server_cert_auth(true);
    tls.set_verify(true);  // the certificate is the host's
    if (!url_.ca_file.empty()) tls.set_trust_store(url_.ca_file);
    return tls;
  }

  // Begins something and waits for its end.
  template <class Begin>
  Result<void> waited(std::string_view what, Begin begin) {
    try {
      const paho::token_ptr token = begin();
      if (!token->wait_for(within())) {
        return refuse(ErrorCode::timed_out, "{}: {}: no answer within {} s", url_.broker(), what,
                      options_.answer_within.as_seconds());
      }
      return {};
    } catch (const paho::exception& trouble) {
      return refuse(error_of(url_, what, trouble));
    }
  }

  void connection_lost(const std::string& cause) override {
    hearing_.lost(fmt::format("{}: {}", url_.broker(), cause.empty() ? "the connection was lost" : cause));
  }
  void message_arrived(paho::const_message_ptr message) override {
    const auto& payload = message->get_payload_ref();
    hearing_.message(
        {message->get_topic(), {payload.data(), payload.length()}, message->is_retained(), message->is_duplicate()});
  }

  BrokerUrl url_;
  ClientOptions options_;
  Hearing hearing_;
  paho::async_client client_;
};

Client::Client(BrokerUrl url, ClientOptions options, Hearing hearing)
    : connection_(std::make_unique<Connection>(std::move(url), std::move(options), std::move(hearing))) {}
Client::~Client() = default;

Result<void> Client::connect() { return connection_->connect(); }
Result<void> Client::subscribe(std::span<const std::string> filters) { return connection_->subscribe(filters); }
Result<void> Client::publish(const std::string& topic, std::string_view payload, Retained retained) {
  return connection_->publish(topic, payload, retained);
}
bool Client::is_connected() const { return connection_->is_connected(); }
void Client::disconnect() { connection_->disconnect(); }

}  // namespace hw::mqtt
