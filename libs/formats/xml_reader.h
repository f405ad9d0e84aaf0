#pragma once
// XML as a stream of start, text and end: fed in pieces of any size, nothing held but the path to where it is.
// DOCTYPE is refused, so that there are no entities but the five of XML itself and nothing can expand.
// Namespaces: names come apart into prefix and local name; only the root's own namespace is looked up.

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "libs/formats/byte_source.h"

struct XML_ParserStruct;

namespace hw::formats {

struct XmlName {
  std::string_view prefix;  // "x" of x:Motion; empty where there is none
  std::string_view local;   // "Motion"
  bool operator==(const XmlName&) const = default;
};

struct XmlAttribute {
  XmlName name;
  std::string_view value;  // entities resolved
};

// In the order of the document, namespace declarations among them.
class XmlAttributes {
 public:
  explicit XmlAttributes(std::span<const XmlAttribute> attributes) : attributes_(attributes) {}
  auto begin() const { return attributes_.begin(); }
  auto end() const { return attributes_.end(); }
  std::size_t size() const { return attributes_.size(); }
  // The value of the attribute without a prefix, or nothing.
  std::optional<std::string_view> find(std::string_view name) const;

 private:
  std::span<const XmlAttribute> attributes_;
};

class XmlReader;

// What hears the document. All views are valid only during the call. A handler that cannot accept what it hears calls
// reader.refuse(); nothing more is heard then.
class XmlHandler {
 public:
  virtual ~XmlHandler() = default;
  virtual void start(XmlReader& reader, const XmlName& name, const XmlAttributes& attributes) = 0;
  // All the text between two tags in one piece, CDATA included, blanks as they stand; not called where there is none.
  virtual void text(XmlReader& reader, std::string_view text) = 0;
  virtual void end(XmlReader& reader, const XmlName& name) = 0;
};

struct XmlLimits {
  std::size_t depth_max = 128;
  std::size_t text_bytes_max = 16 << 20;  // between two tags
  std::size_t tag_bytes_max = 1 << 20;    // of one tag, comment or instruction
};

class XmlReader {
 public:
  // The handler must outlive the reader; the name is what errors call the document.
  XmlReader(XmlHandler& handler, std::string name, XmlLimits limits = {});
  ~XmlReader();
  XmlReader(const XmlReader&) = delete;
  XmlReader& operator=(const XmlReader&) = delete;

  // The next piece of the document, cut anywhere. After an error every further call gives the same error.
  // Errors: bad_input with name, line and column; too_large beyond a limit; whatever the handler refused with.
  Result<void> feed(std::span<const char> piece);
  // The document is over: refuses one that is cut off or empty.
  Result<void> finish();
  // The whole source to its end, then finish(), without a copy between source and parser.
  Result<void> read(ByteSource& source);

  // For handlers: stops here. The place is put in front of the message.
  void refuse(const Error& error);
  // The namespace that the root element is in, from its start on; empty where it has none.
  const std::string& root_namespace() const { return root_namespace_; }
  // Where the reader stands, both from 1.
  std::uint64_t line() const;
  std::uint64_t column() const;

 private:
  struct Callbacks;
  struct ParserFree {
    void operator()(XML_ParserStruct* parser) const;
  };

  Result<void> after_parse(int status);
  Result<void> refused() const;
  Result<void> refuse_from_source(const Error& error);
  void heard_start(const char* name, const char** attributes);
  void heard_end(const char* name);
  void heard_text(const char* text, std::size_t length);
  void give_text();
  void find_root_namespace(const XmlName& root);

  XmlHandler& handler_;
  std::string name_;
  XmlLimits limits_;
  std::unique_ptr<XML_ParserStruct, ParserFree> parser_;
  std::vector<XmlAttribute> attributes_;  // reused from tag to tag
  std::string text_;                      // reused from tag to tag
  std::string root_namespace_;
  std::size_t depth_ = 0;
  std::uint64_t fed_bytes_ = 0;
  std::optional<Error> error_;
};

// The whole document from the source; its name is the source's.
Result<void> read_xml(ByteSource& source, XmlHandler& handler, XmlLimits limits = {});

}  // namespace hw::formats
