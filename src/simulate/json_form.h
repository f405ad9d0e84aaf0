#pragma once
// The simulated agent's documents in the JSON forms in which agents publish them over brokers.

#include <cstdint>
#include <string>
#include <string_view>

namespace hw::simulate {

enum class JsonForm : std::uint8_t { v1, v2 };

// `xml` is a document of documents.h.
std::string print_json_form(std::string_view xml, JsonForm form);

}  // namespace hw::simulate
