#include "src/simulate/agent.h"

#include <algorithm>

#include <fmt/format.h>

#include "libs/values/assert.h"

namespace hw::simulate {

Agent::Agent(const std::vector<Machine>& machines, AgentOptions options, Instant at)
    : machines_(machines), options_(std::move(options)), ring_(options_.buffer_size), model_changed_at_(at) {
  HW_ASSERT(options_.buffer_size > 0, "a buffer of at least one observation");
  for (const Machine& machine : machines_) last_.emplace_back(machine.tells.size());
  restart(options_.instance_id, at);
}

std::optional<std::size_t> Agent::find(std::string_view device) const {
  for (std::size_t i = 0; i < machines_.size(); ++i) {
    if (machines_[i].entry.key == device || machines_[i].uuid == device) return i;
  }
  return std::nullopt;
}

void Agent::restart(std::uint64_t instance_id, Instant at) {
  options_.instance_id = instance_id;
  first_ = 1;
  size_ = 0;
  for (std::uint32_t machine = 0; machine < machines_.size(); ++machine) {
    for (std::uint32_t item = 0; item < last_[machine].size(); ++item) {
      keep({machine, {at, at, item, counters::unknown_value}});
    }
  }
}

void Agent::append(const std::vector<Arrival>& arrivals) {
  for (const Arrival& arrival : arrivals) keep(arrival);
}

void Agent::keep(const Arrival& arrival) {
  const Kept kept{next_sequence(), arrival};
  ring_[kept.sequence % ring_.size()] = kept;
  last_.at(arrival.machine).at(arrival.event.item) = kept;
  if (size_ < ring_.size()) {
    ++size_;
  } else {
    ++first_;
  }
}

void Agent::drop_buffer() {
  if (size_ == 0) return;
  first_ = next_sequence() - 1;
  size_ = 1;
}

void Agent::go_back(std::uint64_t steps) {
  if (size_ > 0) size_ -= std::min(size_ - 1, steps);
}

DocumentHead Agent::head(std::optional<std::size_t> machine, Instant now) const {
  DocumentHead head;
  head.edition = machine ? machines_.at(*machine).traits.edition : Edition::v2_0;
  head.instance_id = options_.instance_id;
  head.sender = options_.sender;
  head.buffer_size = options_.buffer_size;
  head.created_at = now;
  head.model_changed_at = model_changed_at_;
  return head;
}

Document Agent::probe(std::optional<std::size_t> machine, Instant now) const {
  std::vector<const Machine*> shown;
  for (std::size_t i = 0; i < machines_.size(); ++i) {
    if (!machine || *machine == i) shown.push_back(&machines_[i]);
  }
  return {200, print_devices(head(machine, now), shown, !machine), 0, 0};
}

Document Agent::streams(const std::vector<Kept>& list, std::optional<std::size_t> machine, std::uint64_t next,
                        Instant now) const {
  DocumentHead top = head(machine, now);
  top.range = SequenceRange{first_sequence(), next, next_sequence()};
  const std::size_t observations = list.size();
  return {200, print_streams(top, machines_, list), next, observations};
}

Document Agent::current(std::optional<std::size_t> machine, Instant now) const {
  std::vector<Kept> list;
  for (std::size_t i = 0; i < machines_.size(); ++i) {
    if (machine && *machine != i) continue;
    list.insert(list.end(), last_[i].begin(), last_[i].end());
  }
  return streams(list, machine, next_sequence(), now);
}

std::optional<Document> Agent::refusal_of(const SampleAsk& ask, Instant now) const {
  if (ask.count <= 0 || static_cast<std::uint64_t>(ask.count) > ring_.size()) {
    return error(404, "OUT_OF_RANGE", fmt::format("count must be 1 to {}", ring_.size()), now);
  }
  if (!ask.from || (*ask.from >= first_sequence() && *ask.from <= next_sequence())) return std::nullopt;
  return error(404, "OUT_OF_RANGE",
               fmt::format("from must be {} to {}, {} is not", first_sequence(), next_sequence(), *ask.from), now);
}

Document Agent::sample(const SampleAsk& ask, Instant now) const {
  if (auto refusal = refusal_of(ask, now)) return *refusal;
  std::uint64_t next = ask.from.value_or(first_);
  std::vector<Kept> list;
  for (; next < next_sequence() && static_cast<std::int64_t>(list.size()) < ask.count; ++next) {
    const Kept& kept = ring_[next % ring_.size()];
    if (!ask.machine || *ask.machine == kept.arrival.machine) list.push_back(kept);
  }
  return streams(list, ask.machine, next, now);
}

Document Agent::error(int status, std::string_view code, std::string_view text, Instant now) const {
  return {status, print_error(head(std::nullopt, now), code, text), 0, 0};
}

}  // namespace hw::simulate
