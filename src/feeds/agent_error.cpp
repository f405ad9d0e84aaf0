#include "src/feeds/agent_error.h"

#include <charconv>

#include "src/feeds/vocabulary.h"

namespace hw::feeds {
namespace {

constexpr std::size_t text_bytes_max = 500;
constexpr std::string_view out_of_range = "OUT_OF_RANGE";

bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }

}  // namespace

Error AgentError::as_error() const {
  const std::string what = text.empty() ? "no text" : text;
  return {ErrorCode::peer_misbehaved, fmt::format("the agent answers {}: {}", code.empty() ? "an error" : code, what)};
}

void AgentErrorReading::start(const formats::XmlName& name, const formats::XmlAttributes& attributes) {
  ++depth_;
  takes_text_ = false;
  const std::string_view code = attributes.find("errorCode").value_or("");
  if (name.local == "Header" && depth_ == 1) {
    error_.instance_id = read_whole(attributes.find("instanceId").value_or(""));
  } else if (name.local == "Errors" && errors_depth_ == 0) {
    errors_depth_ = depth_;
  } else if (name.local == "Error" || (errors_depth_ != 0 && depth_ == errors_depth_ + 1)) {
    begin_error(code.empty() ? upper_words(name.local) : code);
  } else if (name.local == "ErrorMessage" && error_.text.empty()) {
    takes_text_ = true;
  }
}

void AgentErrorReading::begin_error(std::string_view code) {
  if (!error_.code.empty() && (error_.code == out_of_range || code != out_of_range)) return;
  error_.code = code.substr(0, text_bytes_max);
  error_.text.clear();
  takes_text_ = true;
}

void AgentErrorReading::text(std::string_view text) {
  if (!takes_text_) return;
  error_.text = trim(text).substr(0, text_bytes_max);
}

void AgentErrorReading::end(const formats::XmlName&) {
  if (depth_ == errors_depth_) errors_depth_ = 0;
  --depth_;
  takes_text_ = false;
}

std::string upper_words(std::string_view pascal) {
  std::string words;
  for (std::size_t i = 0; i < pascal.size() && words.size() < text_bytes_max; ++i) {
    if (i > 0 && is_capital(pascal[i]) && !is_capital(pascal[i - 1])) words += '_';
    words += pascal[i] >= 'a' && pascal[i] <= 'z' ? static_cast<char>(pascal[i] - 'a' + 'A') : pascal[i];
  }
  return words;
}

std::uint64_t read_whole(std::string_view text) {
  std::uint64_t number = 0;
  const auto [stopped, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc{} && stopped == text.data() + text.size() ? number : 0;
}

std::string version_of(std::string_view name_space) {
  const std::size_t colon = name_space.rfind(':');
  if (colon == std::string_view::npos) return {};
  const std::string_view version = name_space.substr(colon + 1);
  const bool is_version =
      !version.empty() && version.size() < 12 && version.find_first_not_of("0123456789.") == std::string_view::npos;
  return is_version ? std::string(version) : std::string();
}

}  // namespace hw::feeds
