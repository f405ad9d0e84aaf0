#include "libs/http/static_files.h"

#include <fstream>
#include <iterator>
#include <vector>

#include <openssl/evp.h>

#include "libs/http/content_type.h"
#include "libs/http/problem.h"
#include "libs/values/assert.h"

namespace hw::http {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t folder_bytes_max = 256ULL * 1024 * 1024;
constexpr std::size_t etag_bytes = 16;  // of SHA-256: enough to tell two versions of a file apart
constexpr std::string_view hashed_folder = "/assets/";

std::string etag_of(std::string_view bytes, std::string_view suffix) {
  unsigned char digest[EVP_MAX_MD_SIZE];
  const int done = EVP_Digest(bytes.data(), bytes.size(), digest, nullptr, EVP_sha256(), nullptr);
  HW_ASSERT(done == 1, "SHA-256 is always there");
  std::string out = "\"";
  for (std::size_t i = 0; i < etag_bytes; ++i) out += fmt::format("{:02x}", digest[i]);
  return fmt::format("{}{}\"", out, suffix);
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

// Calls `each` with every comma-separated element of the header.
template <class Each>
void for_each_element(std::optional<std::string_view> header, const Each& each) {
  std::string_view left = header.value_or("");
  while (!left.empty()) {
    const auto comma = std::min(left.find(','), left.size());
    each(trimmed(left.substr(0, comma)));
    left.remove_prefix(std::min(comma + 1, left.size()));
  }
}

// "br", "gzip;q=0.5"; q=0 means: do not send me this.
bool accepts(const Request& request, std::string_view coding) {
  bool accepted = false;
  for_each_element(request.headers.find("Accept-Encoding"), [&](std::string_view element) {
    const auto semicolon = std::min(element.find(';'), element.size());
    if (!same_name(trimmed(element.substr(0, semicolon)), coding)) return;
    const std::string_view weight = trimmed(element.substr(std::min(semicolon + 1, element.size())));
    accepted = !(weight.starts_with("q=0") && weight.find_first_not_of("0.", 2) == std::string_view::npos);
  });
  return accepted;
}

// The weak comparison of RFC 9110 section 13.1.2.
bool has_it_already(const Request& request, std::string_view etag) {
  bool same = false;
  for_each_element(request.headers.find("If-None-Match"), [&](std::string_view element) {
    if (element.starts_with("W/")) element.remove_prefix(2);
    same = same || element == "*" || element == etag;
  });
  return same;
}

bool is_compressed_form(const fs::path& file) {
  const std::string ending = file.extension().string();
  return (ending == ".br" || ending == ".gz") && fs::exists(fs::path(file).replace_extension());
}

// All files below the folder, those left out whose name (or a folder's on the way) begins with a dot.
std::vector<fs::path> files_below(const fs::path& folder) {
  std::vector<fs::path> files;
  for (auto it = fs::recursive_directory_iterator(folder); it != fs::recursive_directory_iterator(); ++it) {
    if (it->path().filename().string().starts_with('.')) {
      it.disable_recursion_pending();
    } else if (!it->is_symlink() && it->is_regular_file() && !is_compressed_form(it->path())) {
      files.push_back(it->path());
    }
  }
  return files;
}

Result<void> check_folder(const fs::path& folder) {
  std::error_code none;
  if (!fs::is_regular_file(folder / "index.html", none)) {
    return refuse(ErrorCode::not_found, "{} has no index.html; right is the folder of the built app", folder.string());
  }
  std::uintmax_t bytes = 0;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) bytes += entry.file_size();
  }
  if (bytes > folder_bytes_max) {
    return refuse(ErrorCode::too_large, "{} holds {} bytes; the app may have {} at most", folder.string(), bytes,
                  folder_bytes_max);
  }
  return {};
}

}  // namespace

Result<StaticFiles::Form> StaticFiles::read(const fs::path& file, std::string_view etag_suffix) {
  std::ifstream in(file, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  if (!in) return refuse(ErrorCode::not_found, "{} cannot be read", file.string());
  std::string etag = etag_of(bytes, etag_suffix);
  return Form{std::make_shared<const std::string>(std::move(bytes)), std::move(etag)};
}

Result<StaticFiles> StaticFiles::load(const fs::path& folder) {
  if (const auto sound = check_folder(folder); !sound) return refuse(sound.error());
  StaticFiles files;
  for (const fs::path& path : files_below(folder)) {
    const std::string key = "/" + path.lexically_relative(folder).generic_string();
    File file;
    file.content_type = content_type_of(key);
    file.cache_control = key.starts_with(hashed_folder) ? "public, max-age=31536000, immutable" : "no-cache";
    for (const auto& [ending, suffix, form] : {std::tuple{"", "", &file.plain}, std::tuple{".br", "-br", &file.brotli},
                                               std::tuple{".gz", "-gz", &file.gzip}}) {
      const fs::path sibling = path.string() + ending;
      if (!fs::is_regular_file(fs::symlink_status(sibling))) continue;
      auto read_form = read(sibling, suffix);
      if (!read_form) return refuse(read_form.error());
      *form = std::move(*read_form);
    }
    files.table_.emplace(key, std::move(file));
  }
  return files;
}

const StaticFiles::File* StaticFiles::find(std::string_view path) const {
  if (const auto found = table_.find(path); found != table_.end()) return &found->second;
  const bool is_page = path.substr(path.rfind('/') + 1).find('.') == std::string_view::npos;
  return is_page ? &table_.find("/index.html")->second : nullptr;
}

const StaticFiles::Form& StaticFiles::form_for(const Request& request, const File& file, std::string_view& encoding) {
  encoding = "br";
  if (file.brotli.bytes && accepts(request, encoding)) return file.brotli;
  encoding = "gzip";
  if (file.gzip.bytes && accepts(request, encoding)) return file.gzip;
  encoding = "";
  return file.plain;
}

Response StaticFiles::answer(const Request& request) const {
  if (request.method != "GET" && request.method != "HEAD") {
    Response refusal = problem(405, fmt::format("{} does not take {}", request.path, request.method));
    refusal.headers.add("Allow", "GET, HEAD");
    return refusal;
  }
  const File* file = find(request.path);
  if (file == nullptr) return problem(404, fmt::format("there is nothing at {}", request.path));
  std::string_view encoding;
  const Form& form = form_for(request, *file, encoding);
  Response response = Response::empty(has_it_already(request, form.etag) ? 304 : 200);
  response.headers = {{"ETag", form.etag}, {"Cache-Control", file->cache_control}, {"Vary", "Accept-Encoding"}};
  if (response.status == 304) return response;
  response.headers.add("Content-Type", file->content_type);
  if (!encoding.empty()) response.headers.add("Content-Encoding", std::string(encoding));
  response.body = form.bytes;
  return response;
}

}  // namespace hw::http
