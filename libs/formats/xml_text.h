#pragma once
// Text as it stands in an XML document, in an element or in an attribute between double quotes.

#include <string>
#include <string_view>

namespace hw::formats {

// & < > " as references; control characters, which XML 1.0 does not have, as blanks.
std::string escape_xml(std::string_view text);

}  // namespace hw::formats
