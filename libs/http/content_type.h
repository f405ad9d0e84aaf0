#pragma once
// Which Content-Type a file of the app is sent with.

#include <string>
#include <string_view>

namespace hw::http {

// By the ending of the name; "application/octet-stream" where it is unknown.
std::string content_type_of(std::string_view file_name);

}  // namespace hw::http
