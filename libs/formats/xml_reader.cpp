#include "libs/formats/xml_reader.h"

#include <algorithm>
#include <new>

#include <expat.h>

#include "libs/values/assert.h"

namespace hw::formats {
namespace {

constexpr int block_bytes = 64 << 10;

// One pass over the name: expat has already made sure that it is a name; only the first colon counts.
XmlName name_of(const char* text) {
  const char* local = text;
  const char* end = text;
  for (; *end != '\0'; ++end) {
    if (*end == ':' && local == text) local = end + 1;
  }
  const std::size_t prefix_length = local == text ? 0 : static_cast<std::size_t>(local - text) - 1;
  return {{text, prefix_length}, {local, static_cast<std::size_t>(end - local)}};
}

}  // namespace

// What expat calls: C functions that only pass on.
struct XmlReader::Callbacks {
  static XmlReader& reader(void* user) { return *static_cast<XmlReader*>(user); }
  static void start(void* user, const char* name, const char** attributes) {
    reader(user).heard_start(name, attributes);
  }
  static void end(void* user, const char* name) { reader(user).heard_end(name); }
  static void text(void* user, const char* text, int length) {
    reader(user).heard_text(text, static_cast<std::size_t>(length));
  }
  static void doctype(void* user, const char*, const char*, const char*, int) {
    reader(user).refuse({ErrorCode::bad_input,
                         "a DOCTYPE is not accepted, because entities can be made to expand without limit; remove it"});
  }
};

std::optional<std::string_view> XmlAttributes::find(std::string_view name) const {
  for (const XmlAttribute& attribute : attributes_) {
    if (attribute.name.local == name && attribute.name.prefix.empty()) return attribute.value;
  }
  return std::nullopt;
}

void XmlReader::ParserFree::operator()(XML_ParserStruct* parser) const { XML_ParserFree(parser); }

XmlReader::XmlReader(XmlHandler& handler, std::string name, XmlLimits limits)
    : handler_(handler), name_(std::move(name)), limits_(limits), parser_(XML_ParserCreate(nullptr)) {
  if (parser_ == nullptr) throw std::bad_alloc();
  XML_SetUserData(parser_.get(), this);
  XML_SetElementHandler(parser_.get(), Callbacks::start, Callbacks::end);
  XML_SetCharacterDataHandler(parser_.get(), Callbacks::text);
  XML_SetStartDoctypeDeclHandler(parser_.get(), Callbacks::doctype);
}

XmlReader::~XmlReader() = default;

Result<void> XmlReader::feed(std::span<const char> piece) {
  if (error_) return refused();
  while (!piece.empty()) {
    const std::size_t length = std::min(piece.size(), static_cast<std::size_t>(block_bytes));
    fed_bytes_ += length;
    auto fed = after_parse(XML_Parse(parser_.get(), piece.data(), static_cast<int>(length), XML_FALSE));
    if (!fed) return fed;
    piece = piece.subspan(length);
  }
  return {};
}

Result<void> XmlReader::finish() {
  if (error_) return refused();
  return after_parse(XML_Parse(parser_.get(), nullptr, 0, XML_TRUE));
}

Result<void> XmlReader::read(ByteSource& source) {
  while (!error_) {
    void* buffer = XML_GetBuffer(parser_.get(), block_bytes);
    if (buffer == nullptr) throw std::bad_alloc();
    const auto got = source.read({static_cast<char*>(buffer), static_cast<std::size_t>(block_bytes)});
    if (!got) return refuse_from_source(got.error());
    if (*got == 0) return finish();
    fed_bytes_ += *got;
    if (auto fed = after_parse(XML_ParseBuffer(parser_.get(), static_cast<int>(*got), XML_FALSE)); !fed) return fed;
  }
  return refused();
}

Result<void> XmlReader::refuse_from_source(const Error& error) {
  error_ = error;
  return refused();
}

Result<void> XmlReader::after_parse(int status) {
  if (!error_ && status != XML_STATUS_OK) {
    const XML_Error code = XML_GetErrorCode(parser_.get());
    if (code == XML_ERROR_NO_MEMORY) throw std::bad_alloc();  // no fault of the document's
    refuse({ErrorCode::bad_input, fmt::format("not well-formed XML: {}", XML_ErrorString(code))});
  }
  // What expat holds back is a tag that has not ended yet.
  const auto parsed_bytes = static_cast<std::uint64_t>(std::max<XML_Index>(0, XML_GetCurrentByteIndex(parser_.get())));
  if (!error_ && fed_bytes_ > parsed_bytes + limits_.tag_bytes_max + block_bytes) {
    refuse({ErrorCode::too_large, fmt::format("a tag or comment longer than {} bytes", limits_.tag_bytes_max)});
  }
  return refused();
}

Result<void> XmlReader::refused() const {
  if (error_) return hw::refuse(*error_);
  return {};
}

void XmlReader::refuse(const Error& error) {
  if (error_) return;
  error_ = error.at(fmt::format("{}, line {}, column {}", name_, line(), column()));
  XML_StopParser(parser_.get(), XML_FALSE);
}

std::uint64_t XmlReader::line() const { return XML_GetCurrentLineNumber(parser_.get()); }
std::uint64_t XmlReader::column() const { return XML_GetCurrentColumnNumber(parser_.get()) + 1; }

// expat may still call the handlers of the tag that it is in after it was stopped; they must not be heard.
void XmlReader::heard_start(const char* name, const char** attributes) {
  give_text();
  if (error_) return;
  if (++depth_ > limits_.depth_max) {
    refuse({ErrorCode::too_large, fmt::format("elements nested deeper than {}", limits_.depth_max)});
    return;
  }
  attributes_.clear();
  for (; *attributes != nullptr; attributes += 2) attributes_.push_back({name_of(attributes[0]), attributes[1]});
  const XmlName element = name_of(name);
  if (depth_ == 1) find_root_namespace(element);
  handler_.start(*this, element, XmlAttributes(attributes_));
}

void XmlReader::heard_end(const char* name) {
  give_text();
  if (error_) return;
  --depth_;
  handler_.end(*this, name_of(name));
}

void XmlReader::heard_text(const char* text, std::size_t length) {
  if (text_.size() + length > limits_.text_bytes_max) {
    refuse({ErrorCode::too_large, fmt::format("a text longer than {} bytes", limits_.text_bytes_max)});
    return;
  }
  text_.append(text, length);
}

void XmlReader::give_text() {
  if (text_.empty()) return;
  if (!error_) handler_.text(*this, text_);
  text_.clear();
}

void XmlReader::find_root_namespace(const XmlName& root) {
  for (const XmlAttribute& attribute : attributes_) {
    const bool is_plain = root.prefix.empty() && attribute.name == XmlName{"", "xmlns"};
    const bool is_prefixed = !root.prefix.empty() && attribute.name == XmlName{"xmlns", root.prefix};
    if (is_plain || is_prefixed) root_namespace_ = attribute.value;
  }
}

Result<void> read_xml(ByteSource& source, XmlHandler& handler, XmlLimits limits) {
  return XmlReader(handler, source.name(), limits).read(source);
}

}  // namespace hw::formats
