#pragma once
// Labels for machines: one a machine, with a QR code that opens the machine's page, and in words whose label it is and
// which address the code holds.

#include <string>
#include <vector>

#include "src/service/records.h"
#include "src/sheets/label_drawing.h"

namespace hw::sheets {

struct LabelledMachine {
  std::string key;
  std::string name;
  std::string kind;  // in words
  std::string cell;  // in words
};

// Kind and cell in the shop's words, and by their keys where it has none.
LabelledMachine labelled(const catalogue::Machine& machine, const service::ShopRecord& shop);

struct LabelOrder {
  std::string base_address;  // of the server as phones reach it: "http://shop.example:8470"
  std::vector<LabelledMachine> machines;
  LabelSheet sheet;
  int first_label = 1;  // of the first sheet, row by row; those before it are used up
};

// What a label's code holds: the address of the machine's page. Refuses (bad_input) a base that is no address of a
// server, or that has a query.
Result<std::string> machine_address(std::string_view base_address, std::string_view machine_key);

// The labels in the order of the machines, as PDF; the same order gives the same bytes. Names too long for their place
// are shortened. Refuses (bad_input) no machine at all, a sheet that does not fit its page, and labels that are too
// small for their code or their address in words; too_large more than `labels_max`.
Result<std::string> print_labels(const LabelOrder& order);

}  // namespace hw::sheets
