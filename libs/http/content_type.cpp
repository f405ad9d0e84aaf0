#include "libs/http/content_type.h"

#include <algorithm>

#include "libs/http/headers.h"

namespace hw::http {
namespace {

struct Ending {
  std::string_view ending;
  std::string_view content_type;
};

constexpr Ending endings[] = {
    {".html", "text/html; charset=utf-8"},
    {".js", "text/javascript; charset=utf-8"},
    {".mjs", "text/javascript; charset=utf-8"},
    {".css", "text/css; charset=utf-8"},
    {".json", "application/json"},
    {".map", "application/json"},
    {".webmanifest", "application/manifest+json"},
    {".svg", "image/svg+xml"},
    {".png", "image/png"},
    {".jpg", "image/jpeg"},
    {".jpeg", "image/jpeg"},
    {".webp", "image/webp"},
    {".ico", "image/x-icon"},
    {".woff2", "font/woff2"},
    {".wasm", "application/wasm"},
    {".txt", "text/plain; charset=utf-8"},
    {".xml", "application/xml"},
    {".pdf", "application/pdf"},
};

}  // namespace

std::string content_type_of(std::string_view file_name) {
  const auto dot = std::min(file_name.rfind('.'), file_name.size());
  const std::string_view ending = file_name.substr(dot);
  for (const Ending& known : endings) {
    if (same_name(known.ending, ending)) return std::string(known.content_type);
  }
  return "application/octet-stream";
}

}  // namespace hw::http
