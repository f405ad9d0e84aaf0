#pragma once
// The documents of an agent as text: MTConnectDevices, MTConnectStreams, MTConnectError, in the editions 1.3, 1.7 and
// 2.0 (they differ in namespace, header and words).

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "src/simulate/machine.h"
#include "src/simulate/source.h"

namespace hw::simulate {

struct SequenceRange {
  std::uint64_t first = 0;
  std::uint64_t next = 0;
  std::uint64_t buffer_next = 0;  // one more than the last sequence of the buffer
};

struct DocumentHead {
  Edition edition = Edition::v2_0;
  std::uint64_t instance_id = 0;
  std::string sender;
  std::size_t buffer_size = 0;
  Instant created_at;
  Instant model_changed_at;
  std::optional<SequenceRange> range;  // Streams only
};

// One observation of the buffer.
struct Kept {
  std::uint64_t sequence = 0;
  Arrival arrival;
};

// EQUIPMENT_TIMER -> EquipmentTimer.
std::string element_of(std::string_view type);

// With `agent_device` the agent itself is listed too, as it is since 1.7.
std::string print_devices(const DocumentHead& head, std::span<const Machine* const> machines, bool agent_device);

// By machine, component and category, as agents print; the order of sequence is kept within each.
std::string print_streams(const DocumentHead& head, const std::vector<Machine>& machines,
                          const std::vector<Kept>& list);

std::string print_error(const DocumentHead& head, std::string_view code, std::string_view text);

}  // namespace hw::simulate
