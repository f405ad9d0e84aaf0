#pragma once
// The agent's refusals: MTConnectError documents, <Error errorCode="OUT_OF_RANGE">text</Error> and, since 2.6, elements
// of their own, <OutOfRange><ErrorMessage>text</ErrorMessage></OutOfRange>.

#include <cstdint>
#include <string>
#include <string_view>

#include "libs/formats/xml_reader.h"

namespace hw::feeds {

struct AgentError {
  std::uint64_t instance_id = 0;
  std::string code;  // OUT_OF_RANGE, whatever the form
  std::string text;

  // "the agent answers OUT_OF_RANGE: 'at' must be greater than 5"
  Error as_error() const;
  bool operator==(const AgentError&) const = default;
};

// Hears the inside of such a document. Of several errors the first stays, but OUT_OF_RANGE goes before all.
class AgentErrorReading {
 public:
  void start(const formats::XmlName& name, const formats::XmlAttributes& attributes);
  void text(std::string_view text);
  void end(const formats::XmlName& name);
  const AgentError& error() const { return error_; }

 private:
  void begin_error(std::string_view code);

  AgentError error_;
  int depth_ = 0;         // below the root
  int errors_depth_ = 0;  // of <Errors>, 0 outside
  bool takes_text_ = false;
};

// OutOfRange -> OUT_OF_RANGE.
std::string upper_words(std::string_view pascal);

// The number in the text; 0 where there is none or it does not fit 64 bits.
std::uint64_t read_whole(std::string_view text);

// The version at the end of a namespace: "1.3" of urn:mtconnect.org:MTConnectStreams:1.3; empty where there is none.
std::string version_of(std::string_view name_space);

}  // namespace hw::feeds
