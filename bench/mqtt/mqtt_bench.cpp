// How many plain messages a second are taken from a private mosquitto on this computer, read, put in sequence and
// counted, beside a bare Paho subscriber that only counts their bytes.
//   mqtt_bench                prints one JSON object
//   mqtt_bench publish URL    what it calls for the publisher: a process of its own, so that its processor time is
//                             nobody's else

#include <algorithm>
#include <atomic>
#include <chrono>
#include <csignal>
#include <thread>
#include <unordered_map>
#include <vector>

#include <fmt/format.h>
#include <mqtt/async_client.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "libs/values/assert.h"
#include "src/feeds/broker_follower.h"
#include "src/service/machine_count.h"
#include "tests/mqtt/private_broker.h"

namespace hw::bench {
namespace {

constexpr int machines = 5'000, rounds = 6, observations_each = 10, turns = 3;
constexpr std::uint64_t messages = std::uint64_t{machines} * rounds;
const Instant begin = *parse_instant("2026-03-02T06:00:00Z");
const Instant present = begin + Duration::hours(1);

std::string key_of(int machine) { return fmt::format("m{}", machine); }

counters::MachineModel model_of_machine(int machine) {
  feeds::ModelMessage message{key_of(machine), {}, {}};
  message.items.push_back({"exec", "EVENT", "EXECUTION"});
  message.items.push_back({"on", "EVENT", "POWER_STATE"});
  message.items.push_back({.id = "speed",
                           .category = "SAMPLE",
                           .type = "ROTARY_VELOCITY",
                           .sub_type = "ACTUAL",
                           .units = "REVOLUTION/MINUTE",
                           .component = "Rotary",
                           .component_id = "c"});
  return model_of(message);
}

std::string message_of(int round) {
  std::string list;
  for (int n = 0; n < observations_each; ++n) {
    const Instant at = begin + Duration::seconds(round * observations_each + n);
    const bool is_word = n % 2 == 0;
    list += fmt::format(R"({}{{"at":"{}","item":"{}","value":{}}})", n == 0 ? "" : ",", print(at),
                        is_word ? "exec" : "speed",
                        is_word ? (n % 4 == 0 ? "\"ACTIVE\"" : "\"READY\"") : fmt::format("{}", 1000 + n));
  }
  return fmt::format(R"({{"run":"r","sequence":{},"alive_at":"{}","observations":[{}]}})", round + 1,
                     print(begin + Duration::seconds((round + 1) * observations_each)), list);
}

// All of it once.
void publish_all(const mqtt::BrokerUrl& url) {
  mqtt::Client client(url, {}, {[](const mqtt::Message&) {}, [](const std::string&) {}});
  HW_ASSERT(client.connect(), "the broker answers");
  for (int round = 0; round < rounds; ++round) {
    const std::string payload = message_of(round);
    for (int machine = 0; machine < machines; ++machine) {
      const std::string topic = fmt::format("hourwright/floor/{}/observations", key_of(machine));
      while (!client.publish(topic, payload, mqtt::Retained::no)) std::this_thread::yield();
    }
  }
  for (;;) ::pause();  // what is on its way goes out
}

pid_t start_publisher(const std::string& url) {
  const pid_t process = ::fork();
  HW_ASSERT(process >= 0, "a process can be made");
  if (process == 0) {
    ::execl("/proc/self/exe", "mqtt_bench", "publish", url.c_str(), nullptr);
    ::_exit(127);
  }
  return process;
}

void end(pid_t process) {
  ::kill(process, SIGKILL);
  ::waitpid(process, nullptr, 0);
}

double cpu_seconds() {
  rusage use{};
  ::getrusage(RUSAGE_SELF, &use);
  const auto seconds = [](const timeval& time) { return double(time.tv_sec) + double(time.tv_usec) * 1e-6; };
  return seconds(use.ru_utime) + seconds(use.ru_stime);
}

struct Measured {
  double per_second = 0, broker_cpu_s = 0, cpu_s = 0;
};

// From the first message to the last one.
template <class Count>
Measured measure(const mqtt_tests::PrivateBroker& broker, Count count) {
  using Clock = std::chrono::steady_clock;
  const double broker_before = broker.cpu_seconds(), before = cpu_seconds();
  const pid_t publisher = start_publisher(broker.url("/floor"));
  while (count() == 0) std::this_thread::sleep_for(std::chrono::milliseconds(1));
  const auto first_at = Clock::now();
  while (count() < messages) std::this_thread::sleep_for(std::chrono::milliseconds(1));
  const double seconds = std::chrono::duration<double>(Clock::now() - first_at).count();
  const Measured measured{double(messages) / seconds, broker.cpu_seconds() - broker_before, cpu_seconds() - before};
  end(publisher);
  return measured;
}

class CountingMachines : public feeds::RunSink {
 public:
  CountingMachines() {
    for (int n = 0; n < machines; ++n) counts_[key_of(n)].set_model(model_of_machine(n), begin);
  }
  void take(const feeds::RunBatch& batch) override {
    service::MachineCount& count = counts_.at(batch.device);
    count.alive_until(batch.position.alive_at);
    count.take(batch.observations, batch.received_at);
    ++taken_;
  }
  std::uint64_t taken() const { return taken_; }

 private:
  std::unordered_map<std::string, service::MachineCount> counts_;
  std::atomic<std::uint64_t> taken_ = 0;
};

Measured measure_ours(const mqtt_tests::PrivateBroker& broker, const mqtt::BrokerUrl& url) {
  CountingMachines sink;
  feeds::BrokerFeed feed;
  feed.url = url;
  feed.clock = [] { return present; };
  for (int n = 0; n < machines; ++n) feed.machines.push_back({key_of(n), {{}, model_of_machine(n)}});
  feeds::BrokerFollower follower(std::move(feed), sink);
  http::CancelToken stop;
  std::thread thread([&] { follower.run(stop); });
  while (!follower.view().connected_since) std::this_thread::yield();
  // It may be connected and not subscribed yet.
  std::this_thread::sleep_for(std::chrono::milliseconds(500));
  const Measured measured = measure(broker, [&] { return sink.taken(); });
  stop.cancel();
  thread.join();
  return measured;
}

Measured measure_bare(const mqtt_tests::PrivateBroker& broker, const mqtt::BrokerUrl& url) {
  std::atomic<std::uint64_t> count = 0, bytes = 0;
  ::mqtt::async_client client(fmt::format("tcp://127.0.0.1:{}", url.port), "", ::mqtt::create_options(MQTTVERSION_5));
  client.set_message_callback([&](const ::mqtt::const_message_ptr& message) {
    bytes += message->get_payload_ref().length();
    ++count;
  });
  ::mqtt::connect_options how;
  how.set_mqtt_version(MQTTVERSION_5);
  how.set_clean_start(true);
  client.connect(how)->wait();
  client.subscribe("hourwright/floor/+/observations", 1)->wait();
  const Measured measured = measure(broker, [&] { return count.load(); });
  client.disconnect()->wait();
  HW_ASSERT(bytes > messages, "the bytes are counted");
  return measured;
}

Measured median(std::vector<Measured> all) {
  std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.per_second < b.per_second; });
  return all[all.size() / 2];
}

std::string shown(const Measured& one) {
  return fmt::format(
      R"({{"messages_per_s": {:.0f}, "observations_per_s": {:.0f}, "broker_cpu_s": {:.2f}, "cpu_s": {:.2f}}})",
      one.per_second, one.per_second * observations_each, one.broker_cpu_s, one.cpu_s);
}

void run() {
  const mqtt_tests::PrivateBroker broker(
      "allow_anonymous true\nmax_queued_messages 0\nmax_inflight_messages 0\nmax_packet_size 1000000\n");
  const mqtt::BrokerUrl url = *mqtt::parse_broker_url(broker.url("/floor"));
  std::vector<Measured> ours, bare;
  for (int turn = 0; turn < turns; ++turn) {
    ours.push_back(measure_ours(broker, url));
    bare.push_back(measure_bare(broker, url));
  }
  fmt::print("{{\"machines\": {}, \"messages\": {}, \"observations_each\": {}, \"ours\": {}, \"bare\": {}}}\n",
             machines, messages, observations_each, shown(median(ours)), shown(median(bare)));
}

}  // namespace
}  // namespace hw::bench

int main(int count, char** words) {
  if (count == 3) {
    hw::bench::publish_all(*hw::mqtt::parse_broker_url(words[2]));
  } else {
    hw::bench::run();
  }
}
