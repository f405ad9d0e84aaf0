#include "src/service/broker_sink.h"

#include <algorithm>

#include <fmt/format.h>

#include "src/service/idle_fills.h"

namespace hw::service {

BrokerSink::BrokerSink(OpenShop& shop, std::string feed, const std::vector<MessagePosition>& positions,
                       std::function<void(std::string_view)> report)
    : shop_(shop), feed_(std::move(feed)), report_(std::move(report)) {
  std::unordered_map<std::string_view, const MessagePosition*> stored;
  for (const MessagePosition& one : positions) stored[one.machine] = &one;
  for (const auto& machine : shop_.machines()) {
    if (machine->record.feed != feed_) continue;
    const std::string& key = machine->record.machine.key;
    Machine& followed = machines_[machine->record.device];
    followed.open = machine.get();
    device_of_[key] = machine->record.device;
    if (const auto there = stored.find(key); there != stored.end()) {
      followed.position = {there->second->run, there->second->next_sequence, there->second->alive_at};
      followed.stored = followed.position;
    }
  }
}

std::vector<feeds::FollowedMachine> BrokerSink::followed() const {
  std::vector<feeds::FollowedMachine> followed;
  for (const auto& [device, machine] : machines_) {
    const counters::MachineModel* const model = machine.open->count.model();
    followed.push_back({device, {machine.position, model ? std::optional{*model} : std::nullopt}});
  }
  return followed;
}

void BrokerSink::tell(const feeds::RunBatch& batch) const {
  for (const auto& note : batch.notes) report_(fmt::format("feed {}: {}", feed_, note.machine + " " + note.text));
  if (const auto& lost = batch.interruption) {
    report_(fmt::format("feed {}: {}: unknown from {} to {}: {}", feed_, batch.device, print(lost->from),
                        print(lost->to), lost->why));
  }
}

void BrokerSink::take(const feeds::RunBatch& batch) {
  tell(batch);
  const auto found = machines_.find(batch.device);
  if (found == machines_.end()) return;
  const auto lock = shop_.change();
  OpenMachine& machine = *found->second.open;
  if (batch.model) {
    machine.count.set_model(*batch.model, batch.received_at);
    tell_idle_fills(machine, *batch.model, feed_, report_);
  }
  // First that all is told up to then: what the batch leaves out between two values did not change.
  machine.count.alive_until(batch.position.alive_at);
  if (!batch.observations.empty()) {
    machine.count.take(batch.observations, batch.received_at);
    ++machine.counts_version;
  }
  found->second.position = batch.position;
}

void BrokerSink::add_positions(CountingStep& step) const {
  for (const auto& [device, machine] : machines_) {
    const feeds::RunPosition& at = machine.position;
    if (at.next_sequence == 0 || at == machine.stored) continue;
    step.message_positions.push_back({machine.open->record.machine.key, at.run, at.next_sequence, at.alive_at});
  }
}

void BrokerSink::stored(const CountingStep& step) {
  for (const MessagePosition& one : step.message_positions) {
    const auto device = device_of_.find(one.machine);
    if (device == device_of_.end()) continue;
    Machine& machine = machines_.at(device->second);
    machine.stored = {one.run, one.next_sequence, one.alive_at};
    if (on_stored_) on_stored_(device->second, machine.stored);
  }
}

}  // namespace hw::service
