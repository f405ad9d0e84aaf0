#include "src/simulate/faults.h"

#include <string_view>
#include <utility>

namespace hw::simulate {

namespace {

constexpr std::size_t piece_bytes = 64 * 1024;
constexpr std::uint64_t forever = std::uint64_t{1} << 40;
constexpr std::string_view page =
    "<!DOCTYPE html>\n<html><head><title>Sign in</title></head><body>Please sign in.</body></html>\n";

// Ten entities, each ten of the one before: ten thousand million characters when they are expanded.
std::string bomb() {
  std::string text = "<!DOCTYPE bomb [\n<!ENTITY a0 \"zzzzzzzzzz\">\n";
  for (int i = 1; i < 10; ++i) {
    const std::string before = "&a" + std::to_string(i - 1) + ";";
    text += "<!ENTITY a" + std::to_string(i) + " \"";
    for (int k = 0; k < 10; ++k) text += before;
    text += "\">\n";
  }
  return text + "]>\n";
}

// Where the first element after the header may stand.
std::size_t after_header(const std::string& xml) {
  const std::size_t header = xml.find("<Header");
  const std::size_t end = xml.find("/>", header);
  return end == std::string::npos ? xml.size() : end + 2;
}

std::string repeated(std::string_view text, std::size_t bytes) {
  std::string out;
  while (out.size() + text.size() <= bytes) out += text;
  return out;
}

FaultyBody with_filler(const std::string& xml, std::string_view open, std::string filler, std::uint64_t fills,
                       std::string_view close) {
  const std::size_t at = after_header(xml);
  return {xml.substr(0, at) + std::string(open), std::move(filler), fills, std::string(close) + xml.substr(at), false};
}

}  // namespace

FaultyBody spoil(std::string xml, const Faults& faults) {
  if (faults.says_html) return {std::string(page), {}, 0, {}, false};
  if (faults.says_doctype) {
    const std::size_t at = xml.find('\n') + 1;
    return {xml.substr(0, at) + bomb() + xml.substr(at), {}, 0, {}, false};
  }
  if (faults.never_ends) {
    return with_filler(xml, "<Extra>", repeated("<More x=\"1\"/>\n", piece_bytes), forever / piece_bytes, "</Extra>");
  }
  if (faults.says_gigabyte) {
    return with_filler(xml, "<Extra>", std::string(50'000, 'x'), 20'000, "</Extra>");
  }
  if (faults.breaks_off) return {xml.substr(0, xml.size() / 2), {}, 0, {}, true};
  return {std::move(xml), {}, 0, {}, false};
}

std::string FaultyBytes::take() {
  switch (step_) {
    case Step::head:
      step_ = body_.fills > 0 ? Step::filler : Step::tail;
      return body_.head;
    case Step::filler:
      if (--body_.fills == 0) step_ = Step::tail;
      return body_.filler;
    case Step::tail:
      return std::exchange(body_.tail, {});
  }
  return {};
}

// All is there from the beginning: one call is enough.
void FaultyBytes::on_wake(std::function<void()> wake) {
  if (wake) wake();
}

}  // namespace hw::simulate
