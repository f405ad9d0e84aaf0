#pragma once
// A PDF as others read it: Poppler's tools (pdftoppm, pdftotext, pdfinfo, pdfimages) and zbarimg. For tests only.

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <regex>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "libs/formats/pdf_canvas.h"
#include "libs/values/assert.h"

namespace hw::formats {

// A word and where it stands on its page.
struct WordThere {
  std::string text;
  MmBox box;
};

class PdfReading {
 public:
  explicit PdfReading(const std::string& bytes) {
    std::string form = (std::filesystem::temp_directory_path() / "hw_pdf_XXXXXX").string();
    HW_ASSERT(::mkdtemp(form.data()) != nullptr, "a temporary folder can be made");
    folder_ = form;
    std::ofstream(folder_ / "read.pdf", std::ios::binary) << bytes;
  }
  PdfReading(const PdfReading&) = delete;
  ~PdfReading() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }

  int pages() const { return std::stoi(after("Pages:", said("pdfinfo read.pdf"))); }
  // Of the first page.
  MmSize page_size() const {
    const std::string text = after("Page size:", said("pdfinfo read.pdf"));
    MmSize points;
    HW_ASSERT(std::sscanf(text.c_str(), "%lf x %lf", &points.width_mm, &points.height_mm) == 2, "pdfinfo has a size");
    return {points.width_mm * mm_per_point, points.height_mm * mm_per_point};
  }
  // Whether there is a picture of dots in it; two lines are the head of the list.
  bool has_images() const { return lines_of(said("pdfimages -list read.pdf")).size() > 2; }

  // What zbarimg reads from a page (from 1), or from the part of it, as printed with so many dots an inch.
  std::vector<std::string> codes(int page, int dots_per_inch, const std::optional<MmBox>& part = {}) const {
    said(fmt::format("pdftoppm -png -gray -singlefile -r {} -f {} -l {} {} read.pdf page", dots_per_inch, page, page,
                     part ? cut_of(*part, dots_per_inch) : ""));
    return lines_of(said("zbarimg --quiet --raw -Sdisable -Sqrcode.enable page.png 2>/dev/null"));
  }

  // How dark that part of a page is, 0 (white) to 1 (black).
  double darkness(int page, const MmBox& part) const {
    constexpr int dots_per_inch = 200;
    said(fmt::format("pdftoppm -gray -singlefile -r {} -f {} -l {} {} read.pdf part", dots_per_inch, page, page,
                     cut_of(part, dots_per_inch)));
    std::ifstream in(folder_ / "part.pgm", std::ios::binary);
    std::string format;
    int width = 0, height = 0, white = 0;
    in >> format >> width >> height >> white;
    in.get();
    double sum = 0;
    for (int c = in.get(); c != EOF; c = in.get()) sum += c;
    return 1 - sum / (static_cast<double>(white) * width * height);
  }

  // All words of a page in their order, a blank after each.
  std::string text(int page) const {
    std::string all;
    for (const auto& word : words(page)) all += word.text + " ";
    return all;
  }

  std::vector<WordThere> words(int page) const {
    const std::string text = said(fmt::format("pdftotext -bbox -f {} -l {} read.pdf -", page, page));
    static const std::regex word(R"re(<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)</word>)re");
    std::vector<WordThere> all;
    for (std::sregex_iterator at(text.begin(), text.end(), word), end; at != end; ++at) {
      const auto mm = [&](std::size_t group) { return std::stod((*at)[group]) * mm_per_point; };
      all.push_back({without_escapes((*at)[5]), {mm(1), mm(2), mm(3) - mm(1), mm(4) - mm(2)}});
    }
    return all;
  }

 private:
  static constexpr double mm_per_point = 25.4 / 72;

  static std::string without_escapes(std::string text) {
    for (const auto& [escape, letter] : {std::pair{"&apos;", "'"}, std::pair{"&quot;", "\""}, std::pair{"&lt;", "<"},
                                         std::pair{"&gt;", ">"}, std::pair{"&amp;", "&"}}) {
      const std::string sought = escape;
      for (auto at = text.find(sought); at != std::string::npos; at = text.find(sought, at + 1)) {
        text.replace(at, sought.size(), letter);
      }
    }
    return text;
  }
  static std::string cut_of(const MmBox& part, int dots_per_inch) {
    const auto dots = [&](double mm) { return static_cast<int>(mm / 25.4 * dots_per_inch + 0.5); };
    return fmt::format("-x {} -y {} -W {} -H {}", dots(part.left_mm), dots(part.top_mm), dots(part.width_mm),
                       dots(part.height_mm));
  }
  std::string said(const std::string& command) const {
    std::FILE* output = ::popen(fmt::format("cd '{}' && {}", folder_.string(), command).c_str(), "r");
    HW_ASSERT(output != nullptr, "a command can be run");
    std::string text;
    for (int c = std::fgetc(output); c != EOF; c = std::fgetc(output)) text += static_cast<char>(c);
    const int status = ::pclose(output);
    constexpr int nothing_read = 4 << 8;  // zbarimg's way to say that there is no code
    HW_ASSERT(status == 0 || status == nothing_read, "the tools of tools/packages/test.txt are there and read it");
    return text;
  }
  static std::string after(const std::string& label, const std::string& text) {
    const auto at = text.find(label);
    HW_ASSERT(at != std::string::npos, "pdfinfo says it");
    return text.substr(at + label.size());
  }
  static std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
      const auto end = std::min(text.find('\n', at), text.size());
      lines.push_back(text.substr(at, end - at));
      at = end + 1;
    }
    return lines;
  }

  std::filesystem::path folder_;
};

}  // namespace hw::formats
