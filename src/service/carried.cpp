#include "src/service/carried.h"

#include <charconv>

#include "libs/formats/json.h"

namespace hw::service {

std::string print(const MachineState& state) {
  const std::string carried = formats::print_json(state.carried);
  return fmt::format("{}:{}{}", carried.size(), carried, state.live);
}

Result<MachineState> parse_machine_state(std::string_view text) {
  std::size_t length = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), length);
  const auto begin = static_cast<std::size_t>(end - text.data()) + 1;
  const bool is_whole = error == std::errc{} && begin <= text.size() && *end == ':' && length <= text.size() - begin;
  if (!is_whole) return refuse(ErrorCode::corrupt, "a machine's counting state has no beginning");
  auto carried = formats::parse_json<Carried>(text.substr(begin, length));
  if (!carried) return refuse(ErrorCode::corrupt, "a machine's counting state: {}", carried.error().message);
  return MachineState{std::move(*carried), std::string{text.substr(begin + length)}};
}

}  // namespace hw::service
