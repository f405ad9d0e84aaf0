#pragma once
// Servers of one group in this process, on a database of the test's own with the plants "north" and "south" and the
// group itself.

#include <map>
#include <memory>
#include <string>
#include <string_view>

#include "libs/http/client.h"
#include "libs/sql/test_folder.h"
#include "src/storage/shared_database.h"
#include "src/web/group_server.h"
#include "tests/postgres/test_database.h"

namespace hw::group {

struct Member {
  std::unique_ptr<storage::SharedDatabase> database;
  std::unique_ptr<web::GroupServer> server;
};

class GroupScene {
 public:
  GroupScene();

  // A server of that name takes part from now on. `sign_lasts`: how long the others wait for a sign of it.
  Member& join(const std::string& name, Duration sign_lasts = Duration::seconds(60));
  // It ends in an orderly way.
  void leave(const std::string& name);
  Member& member(const std::string& name) { return members_.at(name); }

  // Asks a server about a plant as the plant's lead's program does. Status 0: there was no answer.
  http::Response ask(const std::string& server, const std::string& plant, std::string_view method,
                     const std::string& target, std::string_view body = "", http::Headers more = {});
  // PUT of bytes of any kind.
  http::Response put_bytes(const std::string& server, const std::string& plant, const std::string& target,
                           std::string_view bytes);
  // One more plant, whose record is kept at its edge.
  void await_plant(const std::string& plant);
  // The name of the server that holds the plant; empty: none of them.
  std::string holder_of(const std::string& plant);
  // The header that lets in at the plant.
  const std::string& pass_of(const std::string& plant) const { return passes_.at(plant); }
  const std::string& address() const { return database_.address(); }

 private:
  TestDatabase database_;
  sql::TestFolder folder_;
  std::map<std::string, std::string> passes_;
  std::map<std::string, Member> members_;
};

// What the plants are founded with.
service::ShopRecord shop_named(const std::string& plant);
service::MachineRecord lathe();

// "01941f29-7c00-7aaa-8bbb-000000000007" of 7.
std::string id_of(int number);
// The body by which a task is marked done.
std::string done_body(int id);
inline constexpr std::string_view done_target = "/api/machines/l1/tasks/filter/done";
// How many entries the plant's logbook has, as the server tells it.
std::size_t entries_of(const http::Response& logbook);

}  // namespace hw::group
