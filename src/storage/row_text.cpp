#include "src/storage/row_text.h"

#include <charconv>
#include <cmath>

#include "libs/formats/utf8.h"

namespace hw::storage {
namespace {

constexpr std::size_t line_bytes_max = 4096;
constexpr std::size_t number_bytes_max = 32;
constexpr std::size_t cell_bytes_max = std::size_t{64} << 20;

template <class Number>
Result<Number> number_of(const std::string& text) {
  Number number{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error == std::errc{} && end == text.data() + text.size() && std::isfinite(static_cast<double>(number))) {
    return number;
  }
  return refuse(ErrorCode::bad_input, "\"{}\" is no number that a row may have", text);
}

std::string_view text_of(std::span<const std::byte> bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

bool is_of_number(char one) {
  return (one >= '0' && one <= '9') || one == '-' || one == '+' || one == '.' || one == 'e';
}

}  // namespace

void append_cell(fmt::memory_buffer& out, const sql::Parameter::Value& value) {
  const auto at = fmt::appender(out);
  if (const auto* whole = std::get_if<std::int64_t>(&value)) {
    fmt::format_to(at, "i{}", *whole);
  } else if (const auto* number = std::get_if<double>(&value)) {
    fmt::format_to(at, "d{}", *number == 0 ? 0.0 : *number);
  } else if (const auto* text = std::get_if<std::string_view>(&value)) {
    fmt::format_to(at, "t{}:", text->size());
    out.append(*text);
  } else if (const auto* blob = std::get_if<std::span<const std::byte>>(&value)) {
    fmt::format_to(at, "b{}:", blob->size());
    out.append(text_of(*blob));
  } else {
    out.push_back('-');
  }
}

sql::Parameter parameter_of(const Cell& cell) {
  return std::visit(
      [](const auto& value) -> sql::Parameter {
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, std::monostate>) {
          return nullptr;
        } else {
          return value;
        }
      },
      cell);
}

Result<bool> RowReader::is_at_end() {
  if (begin_ < end_) return false;
  HW_TAKE(count, source_.read(buffer_));
  begin_ = 0;
  end_ = count;
  return count == 0;
}

Result<char> RowReader::peek() {
  HW_TAKE(is_over, is_at_end());
  if (is_over) return refuse(ErrorCode::bad_input, "{}: it ends too early", source_.name());
  return buffer_[begin_];
}

Result<std::string> RowReader::until(char end, std::size_t bytes_max) {
  std::string text;
  for (;;) {
    HW_TAKE(next, peek());
    pass();
    if (next == end) return text;
    if (text.size() == bytes_max) {
      return refuse(ErrorCode::bad_input, "\"{}...\": too long for what it is", text.substr(0, 40));
    }
    text += next;
  }
}

Result<std::string> RowReader::line() { return until('\n', line_bytes_max); }

// "-5" and then a null are "-5-": a minus belongs to a number at its front and behind its "e" only.
Result<std::string> RowReader::number_text() {
  std::string text;
  for (;;) {
    HW_TAKE(next, peek());
    const bool is_sign = next == '-' || next == '+';
    const bool may_be_signed = text.empty() || text.back() == 'e';
    if (!is_of_number(next) || (is_sign && !may_be_signed) || text.size() == number_bytes_max) return text;
    text += next;
    pass();
  }
}

Result<std::string> RowReader::counted_bytes() {
  HW_TAKE(length_text, until(':', number_bytes_max));
  HW_TAKE(length, number_of<std::uint64_t>(length_text));
  if (length > cell_bytes_max) return refuse(ErrorCode::bad_input, "a value of {} bytes; 64 MiB is the most", length);
  std::string bytes;
  while (bytes.size() < length) {
    HW_TRY(peek());
    const std::size_t count = std::min(end_ - begin_, static_cast<std::size_t>(length) - bytes.size());
    bytes.append(buffer_, begin_, count);
    begin_ += count;
  }
  return bytes;
}

Result<Cell> RowReader::cell() {
  HW_TAKE(kind, peek());
  pass();
  if (kind == '-') return Cell{};
  if (kind == 'i' || kind == 'd') {
    HW_TAKE(text, number_text());
    if (kind == 'd') return number_of<double>(text).map([](double number) { return Cell{number}; });
    return number_of<std::int64_t>(text).map([](std::int64_t whole) { return Cell{whole}; });
  }
  if (kind != 't' && kind != 'b') return refuse(ErrorCode::bad_input, "'{}' is no kind of value", kind);
  HW_TAKE(bytes, counted_bytes());
  if (kind == 'b') {
    const auto* first = reinterpret_cast<const std::byte*>(bytes.data());
    return Cell{sql::Blob(first, first + bytes.size())};
  }
  if (formats::is_utf8(bytes) && bytes.find('\0') == std::string::npos) return Cell{std::move(bytes)};
  return refuse(ErrorCode::bad_input, "a text that is not UTF-8, or holds the character 0");
}

Result<void> RowReader::row(std::vector<Cell>& row) {
  for (Cell& place : row) {
    HW_TAKE(read, cell());
    place = std::move(read);
  }
  HW_TAKE(end, peek());
  if (end != '\n') return refuse(ErrorCode::bad_input, "a row of more values than its table has columns");
  pass();
  return {};
}

}  // namespace hw::storage
