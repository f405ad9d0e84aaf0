#include "src/terminal/labels_command.h"

#include <algorithm>
#include <fstream>
#include <map>
#include <memory>

#include <CLI/CLI.hpp>

#include "src/sheets/label_request.h"

namespace hw::terminal {
namespace {

struct LabelsCall {
  std::string data;
  std::string file;
  std::map<std::string, std::string> settings;  // by the names of sheets::label_setting_names; left out: not there
};

// "--pitch-x-mm" of "pitch_x_mm".
std::string option_of(std::string_view setting) {
  std::string option = "--" + std::string{setting};
  std::replace(option.begin(), option.end(), '_', '-');
  return option;
}

Result<void> write(const std::string& file, const std::string& bytes) {
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  out << bytes;
  out.close();
  if (out) return {};
  return refuse(ErrorCode::disk_full, "{}: the file cannot be written", file);
}

Answer print(const Entrances& entrances, const LabelsCall& options) {
  HW_TAKE(seen, entrances.look_into(options.data));
  std::vector<sheets::LabelledMachine> machines;
  for (const auto& record : seen.machines) machines.push_back(sheets::labelled(record.machine, seen.shop));
  std::vector<sheets::LabelSetting> settings;
  for (const auto& [name, value] : options.settings) settings.push_back({name, value});
  HW_TAKE(order, sheets::parse_label_order(settings, machines));
  HW_TAKE(pdf, sheets::print_labels(order));
  HW_TRY(write(options.file, pdf));
  return fmt::format("{}: {} labels\n", options.file, order.machines.size());
}

}  // namespace

void add_labels_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  const auto options = std::make_shared<LabelsCall>();
  CLI::App* command = app.add_subcommand("labels", "Prints labels with the machines' QR codes as PDF");
  command->add_option("--data", options->data, "the shop's data folder")->required()->type_name("DIR");
  for (const std::string_view name : sheets::label_setting_names) {
    const auto set = [options, name = std::string{name}](const std::string& value) { options->settings[name] = value; };
    CLI::Option* option = command->add_option_function<std::string>(option_of(name), set);
    if (name == "base") {
      option->required()->type_name("URL")->description("the server's address as phones reach it");
    } else {
      option->type_name("VALUE")->description(fmt::format("{} of GET /api/labels.pdf", name));
    }
  }
  command->add_option("file", options->file, "where the PDF is written")->required()->type_name("OUT.pdf");
  command->callback([options, &entrances, &answer] { answer = print(entrances, *options); });
}

}  // namespace hw::terminal
