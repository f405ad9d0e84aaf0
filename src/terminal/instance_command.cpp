#include "src/terminal/instance_command.h"

#include <memory>

#include <CLI/CLI.hpp>

#include "libs/formats/json.h"
#include "libs/values/whole_file.h"

namespace hw::terminal {
namespace {

Answer write_instance(const Entrances& entrances, const InstanceCall& call) {
  HW_TAKE(made, entrances.instance(call));
  HW_TRY(write_whole_file(call.out, formats::print_json(made.instance) + "\n", ReadableBy::everybody));
  std::size_t tasks = 0;
  for (const auto& machine : made.instance.machines) tasks += machine.tasks.size();
  return fmt::format("{}: {} machines with {} tasks, {} days from {} on; {} tasks have no date and are left out\n",
                     call.out, made.instance.machines.size(), tasks, made.instance.days, print(made.slots.first_day()),
                     made.left_out.size());
}

}  // namespace

void add_instance_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  const auto call = std::make_shared<InstanceCall>();
  CLI::App* command = app.add_subcommand("instance", "Writes what a shop has ahead as an instance for `plan`");
  command->add_option("--data", call->data, "the shop's data folder")->required()->type_name("DIR");
  command->add_option("--weeks", call->weeks, "weeks from today on")->check(CLI::Range(1, 52));
  command->add_option("--out", call->out, "write the instance to this file")->required()->type_name("FILE");
  command->callback([call, &entrances, &answer] { answer = write_instance(entrances, *call); });
}

}  // namespace hw::terminal
