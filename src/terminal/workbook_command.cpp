#include "src/terminal/workbook_command.h"

#include <memory>

#include <CLI/CLI.hpp>

#include "libs/formats/byte_source.h"
#include "libs/formats/new_file.h"
#include "src/catalogue/shop_files.h"
#include "src/catalogue/shop_workbook.h"
#include "src/terminal/share_folder.h"

namespace hw::terminal {
namespace {

Result<std::string> shop_text(const std::string& file) {
  HW_TAKE(source, formats::open_file(file));
  return formats::read_all(*source, std::size_t{16} << 20);
}

Answer write(const std::string& out, std::string file) {
  if (file.empty()) {
    HW_TAKE(share, share_folder());
    file = (share / "demo" / "shop.toml").string();
  }
  HW_TAKE(text, shop_text(file));
  HW_TAKE(shop, catalogue::parse_shop(text, file));
  HW_TAKE(bytes, catalogue::print_shop_workbook(shop));
  HW_TAKE(written, formats::NewFile::begin(out));
  HW_TRY(written.add(bytes));
  HW_TRY(written.close());
  HW_TRY(written.keep());
  return fmt::format("{}: {} with {} machines; fill it in, then: hourwright found --data DIR --shop {}\n", out,
                     shop.plant, shop.machines.size(), out);
}

}  // namespace

void add_workbook_command(CLI::App& app, const Entrances&, Answer& answer) {
  const auto out = std::make_shared<std::string>();
  const auto file = std::make_shared<std::string>();
  CLI::App* command =
      app.add_subcommand("workbook", "Writes a workbook to fill in with one's own shop, or a shop's file as one");
  command->add_option("OUT.xlsx", *out, "where the workbook is written; it must not be there")->required();
  command->add_option("--shop", *file, "the shop's file; without it the invented shop's")->type_name("SHOP.toml");
  command->callback([=, &answer] { answer = write(*out, *file); });
}

}  // namespace hw::terminal
