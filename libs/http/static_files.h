#pragma once
// The built app as a table in memory, made once at the start from a folder; nothing outside the table can be reached.
// "x.js.br" and "x.js.gz" beside "x.js" are its compressed forms and no entries of their own.

#include <filesystem>
#include <map>
#include <string>

#include "libs/http/message.h"
#include "libs/values/result.h"

namespace hw::http {

class StaticFiles {
 public:
  // Reads all files below the folder. Refuses a folder that is missing or has no index.html (not_found), and one
  // of more than 256 MiB (too_large). Names that begin with '.' are left out, and so are symbolic links.
  static Result<StaticFiles> load(const std::filesystem::path& folder);

  // GET and HEAD; else 405. "/" is index.html; so is each unknown path whose last segment has no dot (a page that the
  // app itself shows); any other unknown path is 404. Files under /assets/ bear their hash in the name and are
  // "immutable" for a year, all others "no-cache" with an ETag. Answers If-None-Match by 304 and Accept-Encoding by br,
  // gzip or the plain form.
  Response answer(const Request& request) const;

  std::size_t size() const { return table_.size(); }

 private:
  struct Form {
    SharedBytes bytes;  // null: there is no such form
    std::string etag;
  };
  struct File {
    std::string content_type;
    std::string cache_control;
    Form plain, brotli, gzip;
  };
  static Result<Form> read(const std::filesystem::path& file, std::string_view etag_suffix);
  const File* find(std::string_view path) const;
  static const Form& form_for(const Request& request, const File& file, std::string_view& encoding);

  std::map<std::string, File, std::less<>> table_;  // by path: "/assets/app-4f2a.js"
};

}  // namespace hw::http
