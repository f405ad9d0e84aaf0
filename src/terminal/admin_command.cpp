#include "src/terminal/admin_command.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>
#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/access/session_limits.h"
#include "src/service/title.h"
#include "src/terminal/data_folder.h"

namespace hw::terminal {
namespace {

struct LinkSaid {
  std::string name;
  std::string link;
  std::string secret;
  Instant valid_until;
};
BOOST_DESCRIBE_STRUCT(LinkSaid, (), (name, link, secret, valid_until))

struct AdminCall {
  std::string data;
  std::string name;
  std::string role = "lead";
  std::string address = "http://127.0.0.1:8470";
  bool json = false;
};

Answer say_link(const AdminCall& call, const service::Grant& grant, const std::string& secret) {
  const LinkSaid said{call.name, call.address + "/enter#" + secret, secret, grant.ends_at};
  if (call.json) return Said{formats::print_json(said) + "\n"};
  return Said{fmt::format(
      "{}\n\nOpen it within 30 minutes, on this computer or over https; it is good once. {} chooses a password "
      "there.\n",
      said.link, call.name)};
}

Answer leave(const AdminCall& call, const Entrances& entrances, service::Grant grant) {
  grant.made_at = now();
  grant.ends_at = grant.made_at + access::console_link_life;
  HW_TAKE(secret, entrances.leave_grant(call.data, grant));
  return say_link(call, grant, secret);
}

Answer create(const AdminCall& call, const Entrances& entrances) {
  HW_TRY(service::check_title("NAME", call.name, "as it is to stand in the logbook"));
  auto role = access::parse_role(call.role);
  if (!role) return refuse(ErrorCode::wrong_usage, "--role: {}", role.error().message);
  if (*role == access::Role::outside) {
    return refuse(ErrorCode::wrong_usage,
                  "--role: outside service is let in by a lead, on the page Access, which asks for machines and a day");
  }
  return leave(call, entrances, {.kind = "link", .name = call.name, .role = *role});
}

Answer reset(const AdminCall& call, const Entrances& entrances) {
  HW_TAKE(accounts, entrances.accounts(call.data));
  const auto found = std::find_if(accounts.begin(), accounts.end(),
                                  [&](const service::Account& one) { return one.name == call.name && !one.ended_at; });
  if (found == accounts.end()) {
    return refuse(ErrorCode::not_found, "there is no account \"{}\" that goes on; admin create makes one", call.name);
  }
  return leave(call, entrances, {.kind = "reset", .name = call.name, .role = found->role});
}

CLI::App* add_deed(CLI::App& command, const char* name, const char* says, const std::shared_ptr<AdminCall>& call) {
  CLI::App* deed = command.add_subcommand(name, says);
  deed->add_option("name", call->name, "the person's name, as it stands in the logbook")->required();
  add_data_option(*deed, call->data);
  deed->add_option("--at", call->address, "the server's address, as the person reaches it")
      ->type_name("ADDRESS")
      ->capture_default_str();
  deed->add_flag("--json", call->json, "JSON instead of text");
  return deed;
}

}  // namespace

void add_admin_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  CLI::App* command = app.add_subcommand("admin", "Lets people in, from the server's own computer");
  command->require_subcommand(1);
  auto call = std::make_shared<AdminCall>();
  CLI::App* made = add_deed(*command, "create", "An account, by a one-time link that it prints", call);
  made->add_option("--role", call->role, "viewer, operator, technician, lead")->capture_default_str();
  made->callback([call, &entrances, &answer] { answer = create(*call, entrances); });
  add_deed(*command, "reset", "A new one-time link for somebody who has lost what to sign in with", call)
      ->callback([call, &entrances, &answer] { answer = reset(*call, entrances); });
}

}  // namespace hw::terminal
