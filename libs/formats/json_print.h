#pragma once
// The parts of json.h that print. Include json.h.

#include <cstdint>
#include <string>
#include <string_view>

#include <boost/json/value.hpp>

namespace hw::formats {

// Each appends one JSON value to the text.
void append_json_text(std::string& out, std::string_view text);
void append_json_number(std::string& out, double number);  // must be finite
void append_json_number(std::string& out, std::int64_t number);
void append_json_number(std::string& out, std::uint64_t number);
void append_json_tree(std::string& out, const boost::json::value& tree);
// The digits must be a JSON number as it stands in RFC 8259.
void append_json_exact(std::string& out, std::string_view digits);

}  // namespace hw::formats
