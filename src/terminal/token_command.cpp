#include "src/terminal/token_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/service/accounts.h"
#include "src/service/title.h"
#include "src/service/tokens.h"
#include "src/terminal/data_folder.h"

namespace hw::terminal {
namespace {

struct TokenSaid {
  std::string title;
  std::string role;
  std::string secret;
  Instant ends_at;
};
BOOST_DESCRIBE_STRUCT(TokenSaid, (), (title, role, secret, ends_at))

struct TokenCall {
  std::string data;
  std::string title = "a program";
  std::string role;
  std::vector<std::string> permissions;
  std::vector<std::string> machines;
  int days = 0;
  bool json = false;
};

Result<service::Grant> grant_of(const TokenCall& call, const Entrances& entrances) {
  HW_TRY(service::check_title("--title", call.title, "the program or the screen that will use it"));
  service::Grant grant{.kind = "token", .name = call.title};
  const auto role = access::parse_role(call.role);
  if (!role) return refuse(ErrorCode::wrong_usage, "--role: {}", role.error().message);
  grant.role = *role;
  if (!call.permissions.empty()) grant.permissions = call.permissions;
  if (!call.machines.empty()) grant.machines = call.machines;
  HW_TAKE(table, entrances.permissions());
  HW_TRY(service::check_permissions(table, grant.role, grant.permissions));
  HW_TAKE(shop, entrances.look_into(call.data));
  service::MachineKeys keys;
  for (const auto& machine : shop.machines) keys.push_back(machine.machine.key);
  HW_TRY(service::check_machines(grant.role, grant.machines, keys));
  return grant;
}

Answer create(const TokenCall& call, const Entrances& entrances) {
  HW_TAKE(grant, grant_of(call, entrances));
  grant.made_at = now();
  grant.ends_at = grant.made_at + Duration::hours(std::int64_t{24} * call.days);
  HW_TAKE(secret, entrances.leave_grant(call.data, grant));
  const TokenSaid said{call.title, call.role, secret, grant.ends_at};
  if (call.json) return Said{formats::print_json(said) + "\n"};
  return Said{fmt::format("{}\n", secret)};
}

}  // namespace

void add_token_command(CLI::App& app, const Entrances& entrances, Answer& answer) {
  CLI::App* command = app.add_subcommand("token", "Lets other programs in");
  command->require_subcommand(1);
  CLI::App* made = command->add_subcommand("create", "A token, printed once: Authorization: Bearer TOKEN");
  auto call = std::make_shared<TokenCall>();
  add_data_option(*made, call->data);
  made->add_option("--role", call->role, "outside, viewer, operator, technician, lead")->required();
  made->add_option("--expires", call->days, "how many days it is good")
      ->required()
      ->type_name("DAYS")
      ->check(CLI::Range(1, 3660));
  made->add_option("--title", call->title, "what it is for")->capture_default_str();
  made->add_option("--only", call->permissions, "of the role's permissions, with commas between")->delimiter(',');
  made->add_option("--machines", call->machines, "of outside service: keys, with commas between")->delimiter(',');
  made->add_flag("--json", call->json, "JSON instead of text");
  made->callback([call, &entrances, &answer] { answer = create(*call, entrances); });
}

}  // namespace hw::terminal
