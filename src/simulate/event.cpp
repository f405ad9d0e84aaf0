#include "src/simulate/event.h"

#include <fmt/format.h>

#include "src/simulate/phase.h"

namespace hw::simulate {

namespace {

constexpr std::array<std::string_view, 8> execution_words{
    "READY", "ACTIVE", "INTERRUPTED", "STOPPED", "FEED_HOLD", "PROGRAM_STOPPED", "PROGRAM_COMPLETED", "OPTIONAL_STOP"};
constexpr std::array<std::string_view, 3> mode_words{"AUTOMATIC", "MANUAL", "MANUAL_DATA_INPUT"};

std::string_view execution_word(std::size_t index, Edition edition) {
  const bool is_old = edition == Edition::v1_3;
  const bool is_optional_stop = index == static_cast<std::size_t>(Execution::optional_stop);
  return is_old && is_optional_stop ? "PROGRAM_OPTIONAL_STOP" : execution_words.at(index);
}

// No more digits than there are: 3200, 12.5, 6685219.00000001.
std::string number(double value) { return fmt::format("{}", value); }

}  // namespace

std::string print_value(const Machine& machine, std::uint32_t item, double value) {
  const Signal signal = machine.tells.at(item).signal;
  if (counters::is_unknown(value)) return "UNAVAILABLE";
  const auto index = [&] { return static_cast<std::size_t>(value); };
  switch (signal) {
    case Signal::availability:
      return "AVAILABLE";
    case Signal::power_state:
      return value > 0 ? "ON" : "OFF";
    case Signal::execution:
      return std::string(execution_word(index(), machine.traits.edition));
    case Signal::controller_mode:
      return std::string(mode_words.at(index()));
    case Signal::rotary_mode:
      return value > 0 ? "CONTOUR" : "SPINDLE";
    case Signal::system:
      return value > 0 ? "Fault" : "Normal";
    default:
      return number(value);
  }
}

counters::Observation observation_of(const Machine& machine, const Event& event) {
  counters::Observation out{event.at, event.item, event.value};
  if (machine.tells.at(event.item).signal == Signal::execution && !counters::is_unknown(event.value)) {
    out.value = event.value == static_cast<double>(Execution::active) ? 1.0 : 0.0;
  }
  return out;
}

}  // namespace hw::simulate
