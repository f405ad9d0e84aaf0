#pragma once
// What a photo is by its first bytes, whatever it is called. Only these three are kept: pictures that a browser shows
// and never runs (no SVG, which may hold a script).
//
//   JPEG   FF D8 FF                        ITU-T T.81, annex B: start of image, then the next marker
//   PNG    89 "PNG" CR LF 1A LF            W3C PNG, 5.2: the signature
//   WebP   "RIFF" four bytes "WEBP"        RFC 9649, 2.4: the file header

#include <optional>
#include <string_view>

namespace hw::service {

// "image/jpeg", "image/png", "image/webp"; nothing where it begins like none of them.
std::optional<std::string_view> photo_type_of(std::string_view bytes);

// Whether a photo may be sent under that media type: one of the three, in small letters, without parameters.
bool is_photo_type(std::string_view content_type);

}  // namespace hw::service
