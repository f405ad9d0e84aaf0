#pragma once
// A small shop in a data folder, and what the folder holds when nobody has it open.

#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "src/counters/live_count.h"
#include "src/service/store.h"

namespace hw::faults {

struct ShopMachine {
  std::string key;
  std::string feed;         // the feed's key
  std::string agent;        // its address
  std::string device = {};  // the agent's name of it; empty: its key
};

// The only task of every machine: due every 100 operating hours.
inline constexpr std::string_view task_key = "filter";

// Machines with a UTC calendar; feeds in the order in which they are first named. A folder that names a plant
// of a database on a server is for that one; a file's plant has the key `plant`, where one is said.
void found_shop(const std::filesystem::path& folder, const std::vector<ShopMachine>& machines,
                const std::string& plant = "");

// One machine as it was stored.
struct KeptMachine {
  counters::MachineModel model;
  Instant begin;                                                // where its count begins
  counters::Snapshot snapshot;                                  // as of the moment that was asked for
  std::map<std::string, std::vector<service::DayRecord>> days;  // by counter; the open day as of the snapshot
};

struct KeptShop {
  std::map<std::string, KeptMachine> machines;
  std::map<std::string, service::FeedPosition> positions;  // by feed
};

// Opens the folder's store, which nobody else may have open; `at`: as of when the counts are taken.
KeptShop read_shop(const std::filesystem::path& folder, Instant at);

// The stored positions, beside a server that has the folder open or in which one was killed. Changes nothing.
std::map<std::string, service::FeedPosition> read_positions(const std::filesystem::path& folder);

}  // namespace hw::faults
