#include "src/service/photo_type.h"

namespace hw::service {
namespace {

constexpr std::string_view jpeg = "image/jpeg";
constexpr std::string_view png = "image/png";
constexpr std::string_view webp = "image/webp";

constexpr std::size_t webp_word_at = 8;

}  // namespace

std::optional<std::string_view> photo_type_of(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xD8\xFF")) return jpeg;
  if (bytes.starts_with("\x89PNG\r\n\x1A\n")) return png;
  if (bytes.starts_with("RIFF") && bytes.size() > webp_word_at && bytes.substr(webp_word_at).starts_with("WEBP")) {
    return webp;
  }
  return std::nullopt;
}

bool is_photo_type(std::string_view content_type) {
  return content_type == jpeg || content_type == png || content_type == webp;
}

}  // namespace hw::service
