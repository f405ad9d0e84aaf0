#pragma once
// What all labels have alike: a QR code of a page's address, the address in words below it, and pages of labels.

#include <functional>
#include <string>

#include "src/sheets/label_parts.h"
#include "src/sheets/label_sheet.h"

namespace hw::sheets {

inline constexpr std::size_t labels_max = 1000;

// A smaller module is not read surely by a phone at arm's length (common practice).
inline constexpr double module_mm_min = 0.4;

// The address of one of the server's pages: "http://shop.example:8470/machine/m01" for "/machine/" and "m01". Refuses
// (bad_input) a base that is no address of a server, or that has a query.
Result<std::string> page_address(std::string_view base_address, std::string_view page, std::string_view key);

// Code and address of a label. Refuses (bad_input) what is too small for them.
Result<void> draw_label_code(formats::PdfCanvas& canvas, const formats::MmBox& box, const std::string& address);
Result<void> draw_label_address(formats::PdfCanvas& canvas, const TextPart& part, const std::string& address);

// How many labels of what, and from which on.
struct LabelCount {
  std::string_view things;  // as refusals name them: "machines"
  std::size_t labels = 0;
  int first_label = 1;  // of the first page, row by row; those before it are used up
};

// The nth thing's label into its box.
using DrawLabel = std::function<Result<void>(formats::PdfCanvas&, const formats::MmBox&, std::size_t)>;

// As PDF. Refuses (bad_input) none, and a sheet that does not fit its page; too_large more than `labels_max`.
Result<std::string> print_label_pages(const LabelSheet& sheet, const LabelCount& count, const DrawLabel& draw);

}  // namespace hw::sheets
