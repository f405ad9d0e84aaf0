#include "src/terminal/serve_command.h"

#include <memory>

#include <CLI/CLI.hpp>

namespace hw::terminal {
namespace {

void add_listen(CLI::App& command, std::string& listen, std::vector<std::string>& names) {
  command.add_option("--listen", listen, "where to listen; port 0 takes any that is free")
      ->type_name("ADDR:PORT")
      ->capture_default_str();
  command
      .add_option("--name", names, "a name or address by which phones reach this computer; as often as there are some")
      ->type_name("NAME")
      ->allow_extra_args(false);
}

CLI::Option* add_database(CLI::App& command, std::optional<std::string>& database) {
  return command
      .add_option("--database", database,
                  "the address of the PostgreSQL database that holds the shop, noted in DIR; else DIR/hourwright.db")
      ->type_name("postgresql://HOST/DATABASE");
}

void add_copies(CLI::App& command, ServeCall& call) {
  command
      .add_option("--copies", call.copies, "a folder, best on another disk, for a checked copy of the shop each night")
      ->type_name("DIR");
  command.add_option("--copies-hour", call.copies_hour, "the hour of the plant's clock at which copies are made")
      ->type_name("HOUR")
      ->check(CLI::Range(0, 23))
      ->capture_default_str();
  const std::pair<const char*, int*> kept[] = {{"--copies-daily", &call.keep.daily},
                                               {"--copies-weekly", &call.keep.weekly},
                                               {"--copies-monthly", &call.keep.monthly}};
  for (const auto& [option, count] : kept) {
    command.add_option(option, *count, "of how many days, weeks or months the last copy is kept")
        ->type_name("N")
        ->check(CLI::Range(0, 1000))
        ->capture_default_str();
  }
}

void add_serving(CLI::App& command, ServeCall& call) {
  command.add_option("--config", call.config, "a file of settings in place of /etc/hourwright/hourwright.toml")
      ->type_name("FILE");
  command.add_option("--data", call.data, "the shop's data folder")->required()->type_name("DIR");
  add_listen(command, call.listen, call.names);
  command.add_option("--listen-tls", call.listen_tls, "where to listen for HTTPS, with the certificate of DIR/tls")
      ->type_name("ADDR:PORT");
  command.add_option("--store-every", call.store_every_s, "how often what was counted is stored")
      ->type_name("SECONDS")
      ->check(CLI::Range(0.05, 3600.0))
      ->capture_default_str();
  add_copies(command, call);
}

}  // namespace

void add_serve_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  CLI::App* command = app.add_subcommand("serve", "Serves the shop of a data folder and follows its feeds");
  auto call = std::make_shared<ServeCall>();
  add_serving(*command, *call);
  auto* database = add_database(*command, call->database);
  command->add_option("--database-file", call->database_file, "a file with that address, which may hold a password")
      ->type_name("FILE")
      ->excludes(database);
  auto* group = command->add_flag("--group", call->is_group,
                                  "serves all plants of the database, each at PLANT.NAME, beside other servers");
  command->add_option("--peer-address", call->peer_address, "at which the group's other servers reach this one")
      ->type_name("http://HOST:PORT")
      ->needs(group);
  command->callback([call, &entrances, &answer] { answer = entrances.serve(*call); });
}

void add_edge_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  CLI::App* command = app.add_subcommand(
      "edge", "Serves a plant at the plant, whatever its link does, and sends its group what changes");
  auto call = std::make_shared<EdgeCall>();
  add_serving(*command, call->serve);
  command->add_option("--upward", call->upward, "the plant's site at its group")
      ->required()
      ->type_name("http://HOST:PORT");
  command->add_option("--token-file", call->token_file, "a file with the token that the group gave, and nothing else")
      ->required()
      ->type_name("FILE");
  command->add_option("--ca-file", call->ca_file, "https: certificates to trust instead of the system's")
      ->type_name("FILE");
  command->add_option("--send-every", call->every_s, "how often the group is told")
      ->type_name("SECONDS")
      ->check(CLI::Range(1.0, 86400.0))
      ->capture_default_str();
  command->callback([call, &entrances, &answer] { answer = entrances.edge(*call); });
}

void add_found_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  CLI::App* command = app.add_subcommand("found", "Makes a new shop in a data folder from its file");
  auto call = std::make_shared<FoundCall>();
  command->add_option("--data", call->data, "the new shop's data folder")->required()->type_name("DIR");
  add_database(*command, call->database);
  command
      ->add_option("--plant", call->plant,
                   "the shop's key among others of a database, for good: small letters, digits and -; else plant")
      ->type_name("KEY");
  auto* file = command->add_option("--shop", call->shop, "the shop's file, as demo/shop.toml, or workbook")
                   ->type_name("SHOP.toml|SHOP.xlsx");
  command->add_flag("--check", call->is_looked_at, "says what would be founded, and makes nothing");
  auto* edge = command->add_flag("--edge", call->is_at_edge,
                                 "instead: a plant of a group whose record a server at the plant keeps and sends");
  edge->excludes(file);
  command->callback([call, file, edge, &entrances, &answer] {
    if (file->count() + edge->count() == 0) throw CLI::RequiredError("--shop or --edge");
    answer = entrances.found(*call);
  });
}

void add_demo_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  CLI::App* command = app.add_subcommand("demo", "Makes the invented shop in a temporary folder and serves it");
  auto call = std::make_shared<DemoCall>();
  add_listen(*command, call->listen, call->names);
  command->callback([call, &entrances, &answer] { answer = entrances.demo(*call); });
}

}  // namespace hw::terminal
