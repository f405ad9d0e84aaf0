#pragma once
// Refusals as RFC 9457 problem details: application/problem+json with "type", "title", "status", "detail", "code" and
// "saying".

#include <string_view>

#include "libs/http/message.h"
#include "libs/values/error.h"

namespace hw::http {

// The one table from an error's code to the HTTP status that answers it.
int status_of(ErrorCode code);

// {"type":"about:blank","title":"Not Found","status":404,"detail":"no machine m7","code":"not-found"}
Response problem(const Error& error);

// The same for what HTTP itself refuses and no ErrorCode names (405, 408, 431 ...): without "code".
Response problem(int status, std::string_view detail);

}  // namespace hw::http
