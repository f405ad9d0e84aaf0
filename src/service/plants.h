#pragma once
// The plants of a group, as a server that shares their database with others needs them. A plant is held by one server
// at a time, which alone opens it, follows its feeds and writes its record; the others pass on to it what is asked of
// the plant.

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "src/service/store.h"

namespace hw::service {

// The group's own key: a plant without machines, whose people see all plants.
inline constexpr const char* group_key = "group";

struct PlantHolder {
  std::string server;
  std::string address;  // at which the other servers reach it: http://10.0.0.5:8470; empty: they do not
  std::string secret;   // by which it knows that a request comes from one of them
};

struct PlantSeen {
  std::string key;
  std::string title;
  std::optional<PlantHolder> held_by;
};

// What the holder of a plant told the others, as JSON of a PlantLineView.
struct PublishedLine {
  std::string plant;
  std::int64_t version = 0;  // another one each time
  std::string line;
};

class Plants {
 public:
  virtual ~Plants() = default;

  // All of the database in the order of their keys. Throws sql::StorageFailed where it does not answer, as the others
  // do.
  virtual Result<std::vector<PlantSeen>> all() = 0;
  // How many servers share the plants now, this one among them.
  virtual Result<int> servers() = 0;
  // The store of a plant, which this server holds until the store is gone; nothing where another server holds it.
  virtual Result<std::unique_ptr<Store>> take(const std::string& plant) = 0;

  // The same for looking at what is kept of it, whoever holds it; nothing may be written there.
  virtual std::unique_ptr<Store> look_at(const std::string& plant) = 0;

  // Tells the others the line of a plant that this server holds.
  virtual Result<void> publish(const std::string& plant, const std::string& line) = 0;
  // The lines of which another version is known, or none.
  virtual Result<std::vector<PublishedLine>> published(const std::map<std::string, std::int64_t>& known) = 0;
  // At which address the others reach this server from now on.
  virtual Result<void> announce(const std::string& address) = 0;
  virtual PlantHolder own() const = 0;
  // Whether nobody else can hold what this server took. It is false once the others have heard nothing of this server
  // for too long.
  virtual bool is_good() const = 0;
  // How often it has become false so far: what was opened before may be out of date.
  virtual std::uint64_t lapses() const = 0;
};

}  // namespace hw::service
