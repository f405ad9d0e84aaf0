// From text to tree: Boost.JSON's parser with a builder of our own, because its own keeps the last of two like keys,
// takes 1e309 for infinity, and is off by a bit in some doubles.

#include <charconv>
#include <cmath>
#include <iterator>
#include <vector>

#include <boost/json/basic_parser_impl.hpp>
#include <boost/json/src.hpp>

#include "libs/formats/json_parse.h"

namespace hw::formats {
namespace {

namespace json = boost::json;

// Hears the parser and builds values from the leaves up. A false answer stops the parser; why() then says more than the
// parser's own code.
class TreeBuilder {
 public:
  static constexpr std::size_t max_object_size = std::size_t(-1);
  static constexpr std::size_t max_array_size = std::size_t(-1);
  static constexpr std::size_t max_key_size = std::size_t(-1);
  static constexpr std::size_t max_string_size = std::size_t(-1);

  explicit TreeBuilder(std::string_view text) : text_(text) {}
  json::value take() { return std::move(values_.back()); }
  const std::string& why() const { return why_; }

  bool on_document_begin(json::error_code&) { return true; }
  bool on_document_end(json::error_code&) { return true; }
  bool on_object_begin(json::error_code&) { return true; }
  bool on_array_begin(json::error_code&) { return true; }

  bool on_object_end(std::size_t count, json::error_code& ec) {
    json::object object;
    object.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
      std::string& key = keys_[keys_.size() - count + i];
      if (!object.emplace(key, std::move(values_[values_.size() - count + i])).second) {
        return fail(ec, fmt::format("the field \"{}\" stands twice in the object that ends here", key));
      }
    }
    keys_.resize(keys_.size() - count);
    values_.resize(values_.size() - count);
    values_.emplace_back(std::move(object));
    return true;
  }

  bool on_array_end(std::size_t count, json::error_code&) {
    const auto first = values_.end() - static_cast<std::ptrdiff_t>(count);
    json::array array(std::make_move_iterator(first), std::make_move_iterator(values_.end()));
    values_.erase(first, values_.end());
    values_.emplace_back(std::move(array));
    return true;
  }

  bool on_key_part(json::string_view part, std::size_t, json::error_code&) { return add_part(part); }
  bool on_key(json::string_view part, std::size_t, json::error_code&) {
    add_part(part);
    keys_.push_back(std::exchange(string_, {}));
    return true;
  }
  bool on_string_part(json::string_view part, std::size_t, json::error_code&) { return add_part(part); }
  bool on_string(json::string_view part, std::size_t, json::error_code&) {
    add_part(part);
    values_.emplace_back(string_);
    string_.clear();
    return true;
  }

  bool on_number_part(json::string_view, json::error_code&) { return true; }
  bool on_int64(std::int64_t number, json::string_view literal, json::error_code&) {
    const bool is_minus_zero = number == 0 && literal_ending_with(literal).starts_with('-');
    values_.emplace_back(is_minus_zero ? json::value(-0.0) : json::value(number));
    return true;
  }
  bool on_uint64(std::uint64_t number, json::string_view, json::error_code&) {
    values_.emplace_back(number);
    return true;
  }
  bool on_double(double about, json::string_view literal, json::error_code& ec) {
    const std::string_view digits = literal_ending_with(literal);
    double number = 0;
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    if (read.ec == std::errc::result_out_of_range) number = std::fabs(about) < 1 ? std::copysign(0.0, about) : about;
    if (!std::isfinite(number)) return fail(ec, fmt::format("the number {} is beyond the range of a double", digits));
    values_.emplace_back(number);
    return true;
  }
  bool on_bool(bool value, json::error_code&) {
    values_.emplace_back(value);
    return true;
  }
  bool on_null(json::error_code&) {
    values_.emplace_back(nullptr);
    return true;
  }
  bool on_comment_part(json::string_view, json::error_code&) { return true; }
  bool on_comment(json::string_view, json::error_code&) { return true; }

 private:
  bool add_part(json::string_view part) {
    string_.append(part.data(), part.size());
    return true;
  }

  bool fail(json::error_code& ec, std::string why) {
    why_ = std::move(why);
    ec = json::make_error_code(json::error::exception);
    return false;
  }

  // The parser may give only the end of the number's text; the text itself lies in front of that.
  std::string_view literal_ending_with(json::string_view end_of_literal) const {
    const char* end = end_of_literal.data() + end_of_literal.size();
    const char* begin = end;
    while (begin != text_.data() && std::string_view("0123456789+-.eE").find(begin[-1]) != std::string_view::npos)
      --begin;
    return {begin, end};
  }

  std::string_view text_;
  std::vector<json::value> values_;  // finished, but not yet in the array or object that is around them
  std::vector<std::string> keys_;    // of the objects that are not finished yet
  std::string string_;
  std::string why_;
};

Error error_at(std::string_view text, std::size_t offset, ErrorCode code, std::string_view what) {
  const std::string_view before = text.substr(0, offset);
  const auto line = std::count(before.begin(), before.end(), '\n') + 1;
  const std::size_t line_begin = before.rfind('\n') + 1;  // npos + 1 is 0
  return {code, fmt::format("line {}, column {}: {}", line, offset - line_begin + 1, what)};
}

std::string_view without_byte_order_mark(std::string_view text) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  return text.starts_with(mark) ? text.substr(mark.size()) : text;
}

}  // namespace

Result<json::value> parse_json_tree(std::string_view text, const JsonLimits& limits) {
  if (text.size() > limits.bytes_max) {
    return refuse(ErrorCode::too_large, "JSON of {} bytes; at most {} are accepted", text.size(), limits.bytes_max);
  }
  text = without_byte_order_mark(text);
  json::parse_options options;
  options.max_depth = limits.depth_max;
  json::basic_parser<TreeBuilder> parser(options, text);
  json::error_code ec;
  const std::size_t parsed = parser.write_some(false, text.data(), text.size(), ec);
  if (ec == json::error::too_deep) {
    return refuse(
        error_at(text, parsed, ErrorCode::too_large, fmt::format("JSON nested deeper than {}", limits.depth_max)));
  }
  if (ec) {
    const std::string& why = parser.handler().why();
    const std::string what = why.empty() ? "no JSON: " + ec.message() : why;
    return refuse(error_at(text, parsed, ErrorCode::bad_input, what));
  }
  if (parsed < text.size()) {
    return refuse(error_at(text, parsed, ErrorCode::bad_input, "no JSON: something follows after the end"));
  }
  return parser.handler().take();
}

}  // namespace hw::formats
