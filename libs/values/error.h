#pragma once
// One table of the ways in which a request can be refused. The API maps each code to an HTTP status, the command line
// to its exit status; nothing else decides by the text of a message.

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "libs/values/saying.h"

namespace hw {

enum class ErrorCode {
  bad_input,        // the input itself is wrong: the message says where and what would be right
  wrong_usage,      // the command or the request is put wrongly
  not_found,        // no such thing
  conflict,         // it clashes with what is already there, or comes too late
  too_large,        // beyond a stated limit
  unreachable,      // the other side cannot be reached or closed the line
  timed_out,        // the other side did not answer in time
  peer_misbehaved,  // the other side answered, but not in its protocol
  in_use,           // somebody else holds it: a port, a data folder
  disk_full,        // no room, or the file system refuses to write
  corrupt,          // what is stored is not what was stored
  unsupported,      // understood, but not done by this version
  not_joined,       // only devices that have joined may
  not_signed_in,    // who asks is not known, or not by this
  not_allowed,      // who asks may not
  too_often,        // tried too often; the message says when again
};

// The code's word as it stands in API answers, for example "bad-input".
std::string_view word_of(ErrorCode code);

struct Error {
  ErrorCode code = ErrorCode::bad_input;
  std::string message;                // one sentence: what, where (file, line, field), what would be right
  std::optional<Saying> saying = {};  // what the message says, where it is one that people meet

  // The same refusal with the place put in front: "devices.xml, line 7: ...".
  Error at(std::string_view place) const;
  bool operator==(const Error&) const = default;
};

}  // namespace hw
