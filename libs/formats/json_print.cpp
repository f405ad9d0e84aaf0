#include "libs/formats/json_print.h"

#include <charconv>
#include <cmath>

#include <boost/json/array.hpp>
#include <boost/json/object.hpp>

#include "libs/formats/utf8.h"

namespace hw::formats {
namespace {

void print_escaped(std::string& out, char control) {
  switch (control) {
    case '"':
      out += "\\\"";
      break;
    case '\\':
      out += "\\\\";
      break;
    case '\n':
      out += "\\n";
      break;
    case '\r':
      out += "\\r";
      break;
    case '\t':
      out += "\\t";
      break;
    default:
      fmt::format_to(std::back_inserter(out), "\\u{:04x}", static_cast<unsigned char>(control));
  }
}

bool is_as_it_stands(char letter) {
  const auto byte = static_cast<unsigned char>(letter);
  return byte >= 0x20 && byte < 0x80 && byte != '"' && byte != '\\';
}

// number = [ "-" ] ( "0" / %x31-39 *DIGIT ) [ "." 1*DIGIT ] [ "e" / "E" [ "+" / "-" ] 1*DIGIT ], RFC 8259.
bool is_json_number(std::string_view text) {
  const auto skip_digits = [&text] {
    const std::size_t digits = std::min(text.find_first_not_of("0123456789"), text.size());
    text.remove_prefix(digits);
    return digits;
  };
  const auto skip_one_of = [&text](std::string_view letters) {
    const bool is_there = !text.empty() && letters.find(text.front()) != std::string_view::npos;
    text.remove_prefix(is_there ? 1 : 0);
    return is_there;
  };
  skip_one_of("-");
  if (!skip_one_of("0") && skip_digits() == 0) return false;
  if (skip_one_of(".") && skip_digits() == 0) return false;
  if (skip_one_of("eE")) {
    skip_one_of("+-");
    if (skip_digits() == 0) return false;
  }
  return text.empty();
}

}  // namespace

// Fixed notation where a person would write it so; beyond that the exponent is shorter.
void JsonPrinting::print(double number) {
  HW_ASSERT(std::isfinite(number), "a number that is printed as JSON is finite");
  const double size = std::fabs(number);
  const bool is_plain = size == 0 || (size >= 1e-6 && size < 1e17);
  char digits[64];
  const auto end = std::to_chars(digits, digits + sizeof digits, number,
                                 is_plain ? std::chars_format::fixed : std::chars_format::scientific);
  out.append(digits, end.ptr);
}

void JsonPrinting::print(const ExactNumber& number) {
  HW_ASSERT(is_json_number(number.text), "an exact number is a JSON number");
  out += number.text;
}

void JsonPrinting::print(std::string_view text) {
  out += '"';
  while (!text.empty()) {
    std::size_t length = 0;
    while (length < text.size() && is_as_it_stands(text[length])) ++length;
    out.append(text.substr(0, length));
    text.remove_prefix(length);
    if (text.empty()) break;
    const std::size_t letter_bytes = utf8_letter_bytes(text);
    if (letter_bytes > 1) {
      out.append(text.substr(0, letter_bytes));
    } else if (letter_bytes == 1) {
      print_escaped(out, text.front());
    } else {
      out += "\xEF\xBF\xBD";  // U+FFFD
    }
    text.remove_prefix(std::max<std::size_t>(1, letter_bytes));
  }
  out += '"';
}

void JsonPrinting::print(const boost::json::value& tree) {
  if (const auto* array = tree.if_array()) return print_list<boost::json::value>(*array);
  if (const auto* object = tree.if_object()) return print_object(*object);
  if (const auto* text = tree.if_string()) return print(std::string_view(text->data(), text->size()));
  if (const auto* number = tree.if_double()) return print(*number);
  if (const auto* integer = tree.if_int64()) return print(*integer);
  if (const auto* large = tree.if_uint64()) return print(*large);
  if (const auto* value = tree.if_bool()) return print(*value);
  out += "null";
}

void JsonPrinting::print_object(const boost::json::object& object) {
  char before = '{';
  for (const auto& member : object) {
    print_member(before, std::string_view(member.key().data(), member.key().size()), member.value());
  }
  close(before, '{', '}');
}

}  // namespace hw::formats
