#pragma once
// The program as it is called from a shell: one table of commands, each in a file of its own named <name>_command.cpp.
//
// Results go to standard output, refusals as one sentence to standard error. Exit status: 0 done, 1 refused, 2 wrong
// usage.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "libs/values/result.h"
#include "src/access/permission_table.h"
#include "src/copies/copy_report.h"
#include "src/copies/export_report.h"
#include "src/copies/move_report.h"
#include "src/copies/retention.h"
#include "src/proposal/stop_instance.h"
#include "src/record/verify.h"
#include "src/service/access_rows.h"
#include "src/service/examined.h"
#include "src/service/rebuild_report.h"
#include "src/service/records.h"

namespace CLI {
class App;
}

namespace hw::terminal {

// What a command says on standard output. It exits with 1 where what it looked at is not as it should be.
struct Said {
  Said(std::string says, bool as_it_should_be = true) : text(std::move(says)), is_as_it_should_be(as_it_should_be) {}
  Said(const char* says) : text(says) {}

  std::string text;
  bool is_as_it_should_be = true;
};

// What a command has to say, or why not. wrong_usage exits with 2, every other refusal with 1.
using Answer = Result<Said>;

struct ServeCall {
  std::string config;  // see settings.h: what stands there is in the others by now
  std::string data;
  std::optional<std::string> database;
  std::string database_file;  // with the database's address
  std::string listen = "127.0.0.1:8470";
  std::optional<std::string> listen_tls;
  std::vector<std::string> names;
  bool is_group = false;                    // all plants of the database
  std::optional<std::string> peer_address;  // at which the group's other servers reach this one
  double store_every_s = 5;                 // 0.05 to 3600
  std::optional<std::string> copies;
  int copies_hour = 2;  // 0 to 23
  copies::Retention keep;
};
// A plant's own server, which sends its group what changes.
struct EdgeCall {
  ServeCall serve;
  std::string upward;      // the plant's site at the group: http://north.shops.example:8470
  std::string token_file;  // with the token that the group gave
  std::string ca_file;     // https: certificates to trust instead of the system's
  double every_s = 10;     // 1 to 86400
};
struct FoundCall {
  std::string data;
  std::optional<std::string> database;  // a PostgreSQL database's address
  std::string plant;                    // its key; empty: the usual one
  std::string shop;
  bool is_looked_at = false;  // what would be founded is said, and nothing is made
  bool is_at_edge = false;    // its record is kept by a server at the plant itself; it has no file then
};
struct DemoCall {
  std::string listen = "127.0.0.1:8470";
  std::vector<std::string> names;
};
struct VerifyCall {
  std::string data;
  std::optional<std::string> noted;  // a head's hash from before
};

struct BackupCall {
  std::string file;
  std::string data = ".";
};
struct RestoreCall {
  std::string file;
  std::string data;
};
// Of export and import alike.
struct ExportCall {
  std::string folder;
  std::string data = ".";
};
struct CopyToCall {
  std::string data;
  std::string database;  // a PostgreSQL database's address
};
struct SupportCall {
  std::string file;
  std::string data = ".";
};

struct InstanceCall {
  std::string data;
  std::string out;
  int weeks = 12;  // 1 to 52
};

// What commands need that lies behind the terminal in the order of folders: main.cpp fills it in.
struct Entrances {
  std::function<Answer(const ServeCall&)> serve;
  std::function<Answer(const FoundCall&)> found;
  std::function<Answer(const DemoCall&)> demo;
  std::function<Result<record::Verdict>(const VerifyCall&)> verify;
  std::function<Result<service::ShopWithMachines>(const std::string& data)> look_into;
  std::function<Result<proposal::StopInstance>(const InstanceCall&)> instance = {};
  std::function<Result<std::string>(const std::string& data, const service::Grant&)> leave_grant = {};
  std::function<Result<std::vector<service::Account>>(const std::string& data)> accounts = {};
  std::function<Result<access::PermissionTable>()> permissions = {};
  std::function<Result<copies::CopyReport>(const BackupCall&)> make_copy = {};
  std::function<Result<copies::CopyReport>(const std::string& file)> check_copy = {};
  std::function<Result<copies::CopyReport>(const RestoreCall&)> restore_copy = {};
  std::function<Result<copies::MoveReport>(const CopyToCall&)> move_to_server = {};
  std::function<Result<service::RebuildReport>(const std::string& data)> rebuild = {};
  std::function<service::Examined(const std::string& data)> examine = {};
  std::function<Answer(const EdgeCall&)> edge = {};
  std::function<Result<copies::ExportReport>(const ExportCall&)> export_shop = {};
  std::function<Result<copies::ExportReport>(const ExportCall&)> import_shop = {};
};

// A command puts its options into the app; `answer` is what it says when it is the one that was called.
using AddCommand = void (*)(CLI::App& app, const Entrances& entrances, Answer& answer);

int run(int argc, char** argv, const Entrances& entrances);

}  // namespace hw::terminal
