// Whatever is asked of labels: what is taken has codes that a reader can read, each of them an address.

#include <cmath>

#include "fuzz/targets.h"
#include "libs/formats/qr.h"
#include "libs/http/url.h"
#include "libs/values/assert.h"
#include "src/sheets/label_request.h"

namespace hw::fuzz {
namespace {

const std::vector<sheets::LabelledMachine> two_machines{{"mill1", "Mill 1", "Mill", "Hall"},
                                                        {"mill2", "Fräse 2", "Mill", "Hall"}};

void expect_readable_code(std::string_view base, std::string_view key) {
  const auto address = sheets::machine_address(base, key);
  if (!address) return;
  HW_ASSERT(http::parse_url(*address), "a label's code is an address");
  if (const auto code = formats::encode_qr(*address, formats::QrLevel::quartile)) {
    HW_ASSERT(code->side_modules() >= 21 && code->side_modules() <= 177, "a code has a size of the standard");
  }
}

}  // namespace

void label_order(std::string_view input) {
  const auto query = http::parse_query(input);
  if (!query) return;
  std::vector<sheets::LabelSetting> settings;
  for (const http::NamedValue& one : *query) settings.push_back({one.name, one.value});
  const auto order = sheets::parse_label_order(settings, two_machines);
  if (!order) return;
  HW_ASSERT(!order->machines.empty(), "an order is for machines");
  HW_ASSERT(std::isfinite(order->sheet.pitch_x_mm) && std::isfinite(order->sheet.label_width_mm),
            "a length is a number");
  for (const sheets::LabelledMachine& machine : order->machines) {
    expect_readable_code(order->base_address, machine.key);
  }
}

}  // namespace hw::fuzz
