#pragma once
// The JSON form of MTConnect documents, version 1 and 2, as the XML form of the same document, so that what a document
// means is written down once, in the readers of XML.
//
//   version 1   "Streams": [{"DeviceStream": {"name": "m", "ComponentStreams": [{"ComponentStream": {...}}]}}]
//               a list's members are objects with one member, the element
//   version 2   "Streams": {"DeviceStream": [{"name": "m", "ComponentStream": [{...}]}]}
//               a list is one element as often as it has members
//
// In both, a plain member is an attribute, "value" the text ([1, 2, 3]: "1 2 3"), an object an element. jsonVersion
// says which it is; where it is missing, the lists themselves do.

#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw::feeds {

inline constexpr std::size_t document_bytes_max = 64 << 20;

// Refuses (bad_input) what is no JSON, more or other than one document, a name that cannot be an element's, (too_large)
// more than document_bytes_max; the message names `name`.
Result<std::string> xml_of_json(std::string_view document, std::string_view name);

}  // namespace hw::feeds
