#include "src/copies/copy_head.h"

#include <algorithm>
#include <array>

#include "libs/formats/json.h"

namespace hw::copies {
namespace {

constexpr std::array<std::string_view, 3> copied_names = {"hourwright.db", "tls/authority.pem", "tls/server.pem"};

std::string first_line() { return fmt::format("{}{}", first_words, form); }

tl::unexpected<Error> refuse_stranger() { return refuse(ErrorCode::bad_input, "is no copy that Hourwright made"); }

}  // namespace

bool is_copied(std::string_view name) {
  return std::find(copied_names.begin(), copied_names.end(), name) != copied_names.end();
}

std::string print_head(const CopyHead& head) {
  return fmt::format("{}\n{}\n", first_line(), formats::print_json(head));
}

Result<HeadRead> parse_head(std::string_view text) {
  const auto first = text.find('\n');
  if (!text.starts_with(first_words) || first == std::string_view::npos) return refuse_stranger();
  if (text.substr(0, first) != first_line()) {
    return refuse(ErrorCode::unsupported, "is a copy of another form (\"{}\"): the version that made it reads it",
                  text.substr(0, std::min<std::size_t>(first, 40)));
  }
  const auto second = text.find('\n', first + 1);
  if (second == std::string_view::npos) return refuse_stranger();
  auto head = formats::parse_json<CopyHead>(text.substr(first + 1, second - first - 1));
  if (!head) return refuse(head.error().at("its head"));
  const bool has_all = !head->files.empty() && head->files.front().name == copied_names.front();
  for (const CopiedFile& file : head->files) {
    if (!has_all || !is_copied(file.name)) return refuse(ErrorCode::bad_input, "its head lists what no copy has");
  }
  return HeadRead{std::move(*head), second + 1};
}

}  // namespace hw::copies
