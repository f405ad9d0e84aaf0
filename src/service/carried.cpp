#include "src/service/carried.h"

#include <charconv>

#include "libs/formats/json.h"

namespace hw::service {
namespace {

struct Head {
  Carried carried;
  std::optional<Instant> late_from;
  std::int64_t relevant_bytes = 0;
};
BOOST_DESCRIBE_STRUCT(Head, (), (carried, late_from, relevant_bytes))

}  // namespace

std::string print(const MachineState& state) {
  const std::string head =
      formats::print_json(Head{state.carried, state.late_from, static_cast<std::int64_t>(state.relevant.size())});
  return fmt::format("{}:{}{}{}", head.size(), head, state.relevant, state.live);
}

Result<MachineState> parse_machine_state(std::string_view text) {
  std::size_t length = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), length);
  const auto begin = static_cast<std::size_t>(end - text.data()) + 1;
  const bool is_whole = error == std::errc{} && begin <= text.size() && *end == ':' && length <= text.size() - begin;
  if (!is_whole) return refuse(ErrorCode::corrupt, "a machine's counting state has no beginning");
  auto head = formats::parse_json<Head>(text.substr(begin, length));
  if (!head) return refuse(ErrorCode::corrupt, "a machine's counting state: {}", head.error().message);
  const std::string_view rest = text.substr(begin + length);
  const auto relevant_bytes = static_cast<std::size_t>(head->relevant_bytes);
  if (relevant_bytes > rest.size()) return refuse(ErrorCode::corrupt, "a machine's counting state is cut off");
  return MachineState{std::move(head->carried), head->late_from, std::string{rest.substr(0, relevant_bytes)},
                      std::string{rest.substr(relevant_bytes)}};
}

}  // namespace hw::service
