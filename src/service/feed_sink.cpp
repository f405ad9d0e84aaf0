#include "src/service/feed_sink.h"

#include <algorithm>

#include "src/service/idle_fills.h"

namespace hw::service {

namespace {

// A set-up names the agent's device by its name or its uuid.
bool is_of(const MachineRecord& record, const counters::MachineModel& model) {
  return record.device == model.name || record.device == model.uuid;
}

}  // namespace

OpenMachine* FeedSink::machine_of(std::string_view name) {
  for (const auto& machine : shop_.machines()) {
    const counters::MachineModel* model = machine->count.model();
    if (machine->record.feed == feed_ && model && model->name == name) return machine.get();
  }
  return nullptr;
}

std::optional<Error> FeedSink::trouble_of(const OpenMachine& machine) const {
  const counters::MachineModel* model = machine.count.model();
  const bool is_told = model && std::find(devices_.begin(), devices_.end(), model->name) != devices_.end();
  if (devices_.empty() || is_told) return std::nullopt;
  const std::string& device = machine.record.device;
  const std::string others = fmt::format("{}", fmt::join(devices_, ", "));
  return Error{ErrorCode::not_found, fmt::format("the agent has no device \"{}\"; it has: {}", device, others),
               Saying{"feed-no-device", {{"device", device}, {"others", others}}}};
}

void FeedSink::take_models(const std::vector<counters::MachineModel>& models, Instant now) {
  devices_.clear();
  for (const auto& model : models) {
    devices_.push_back(model.name);
    for (const auto& machine : shop_.machines()) {
      if (machine->record.feed != feed_ || !is_of(machine->record, model)) continue;
      machine->count.set_model(model, now);
      tell_idle_fills(*machine, model, feed_, report_);
    }
  }
}

Result<void> FeedSink::take(const feeds::Batch& batch) {
  for (const auto& note : batch.notes) report_(fmt::format("feed {}: {}", feed_, note.machine + " " + note.text));
  for (const auto& lost : batch.interruptions) {
    report_(fmt::format("feed {}: {}: unknown from {} to {}: {}", feed_, lost.machine, print(lost.from), print(lost.to),
                        lost.why));
  }
  const auto lock = shop_.change();
  if (batch.models) take_models(*batch.models, batch.received_at);
  // First that all is told up to then: what the batch leaves out between two values did not change.
  for (const auto& machine : shop_.machines()) {
    if (machine->record.feed == feed_) machine->count.alive_until(batch.alive_at);
  }
  for (const auto& one : batch.machines) {
    OpenMachine* machine = machine_of(one.machine);
    if (!machine || one.observations.empty()) continue;
    machine->count.take(one.observations, batch.received_at);
    ++machine->counts_version;
  }
  position_ = batch.position;
  alive_at_ = batch.alive_at;
  return {};
}

void FeedSink::add_positions(CountingStep& step) const {
  if (position_.next_sequence > 0 && position() != stored_) step.positions.push_back(position());
}

void FeedSink::stored(const CountingStep& step) {
  for (const FeedPosition& position : step.positions) {
    if (position.feed == feed_) stored_ = position;
  }
}

namespace {

// All that is not stored yet. The caller holds a lock.
CountingStep unsaved_step(const OpenShop& shop, const std::vector<CountedFeed*>& feeds) {
  CountingStep step;
  for (const auto& machine : shop.machines()) {
    if (auto part = machine->count.unsaved(machine->record.machine.key)) step.machines.push_back(std::move(*part));
  }
  for (const CountedFeed* feed : feeds) feed->add_positions(step);
  return step;
}

Result<void> keep(Store& store, const CountingStep& step) {
  HW_TAKE(writing, store.begin());
  HW_TRY(writing->put_counting(step));
  return writing->commit();
}

// Machines to which something came too late to be counted in its place are counted anew from their record.
Result<void> recount_late(OpenShop& shop, Instant now) {
  for (const auto& machine : shop.machines()) {
    const auto lock = shop.change();
    if (machine->count.has_late()) ++machine->past_version;
    HW_TRY(machine->count.recount_late(shop.store(), machine->record.machine.key, now));
  }
  return {};
}

}  // namespace

Result<void> store_counting(OpenShop& shop, const std::vector<CountedFeed*>& feeds, Instant now) {
  CountingStep step;
  {
    const auto lock = shop.change();
    step = unsaved_step(shop, feeds);
  }
  if (step.machines.empty() && step.positions.empty() && step.message_positions.empty()) return {};
  HW_TRY(keep(shop.store(), step));
  {
    const auto lock = shop.change();
    for (const auto& part : step.machines) {
      HW_TAKE(machine, shop.find(part.record.machine));
      machine->count.saved(part);
    }
    for (CountedFeed* feed : feeds) feed->stored(step);
  }
  return recount_late(shop, now);
}

}  // namespace hw::service
