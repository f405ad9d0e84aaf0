#include "bench/floor/big_shop.h"

#include <cstdlib>
#include <fstream>

#include <fmt/ostream.h>

#include "libs/values/assert.h"
#include "src/simulate/pace.h"
#include "src/simulate/source.h"

namespace hw::bench {
namespace {

simulate::Kind kind_of(int number) { return static_cast<simulate::Kind>(number % simulate::kinds); }

std::vector<simulate::MachineEntry> entries_of(int agent) {
  std::vector<simulate::MachineEntry> entries;
  for (int i = 0; i < BigShop::machines_each; ++i) {
    const int number = agent * BigShop::machines_each + i;
    entries.push_back({fmt::format("m{:03}", number), fmt::format("Machine {}", number), kind_of(number)});
  }
  return entries;
}

}  // namespace

BigShop::BigShop() {
  const Instant begin = now();
  for (int agent = 0; agent < agents_count; ++agent) {
    simulate::FloorPlan plan;
    plan.seed = static_cast<std::uint64_t>(agent) + 1;
    plan.begins_on = plan.zone.date_of(begin) - 7;
    plan.feed = simulate::FeedQuality::faithful;
    auto floor = std::make_unique<simulate::Floor>(plan, entries_of(agent));
    const Duration ahead = simulate::ahead_for_full_work(plan, begin);
    auto server = simulate::AgentServer::open(simulate::play(*floor, {begin, begin, 1, ahead}), {});
    HW_ASSERT(server, "an agent can be started");
    cells_.push_back({std::move(floor), std::move(*server)});
  }
}

void BigShop::found(const std::filesystem::path& program, const std::filesystem::path& data) const {
  const std::filesystem::path file = data.parent_path() / "shop.toml";
  {
    std::ofstream out(file);
    fmt::print(out, "format = \"hourwright-shop-1\"\n[plant]\nname = \"Two hundred machines\"\nzone = \"Etc/UTC\"\n");
    for (int agent = 0; agent < agents_count; ++agent) {
      fmt::print(out, "[[cell]]\nkey = \"cell-{0}\"\ntitle = \"Cell {0}\"\n", agent);
    }
    fmt::print(out, "[[person]]\nname = \"Ada\"\nskill = \"technician\"\nlead = true\n");
    for (int agent = 0; agent < agents_count; ++agent) {
      for (const auto& machine : entries_of(agent)) {
        fmt::print(out, "[[machine]]\nkey = \"{}\"\nname = \"{}\"\nkind = \"{}\"\ncell = \"cell-{}\"\nagent = \"{}\"\n",
                   machine.key, machine.name, print(machine.kind), agent, cells_[agent].agent->url());
      }
    }
  }
  const std::string command =
      fmt::format("'{}' found --data '{}' --shop '{}' > /dev/null", program.string(), data.string(), file.string());
  HW_ASSERT(std::system(command.c_str()) == 0, "the shop can be founded");
}

}  // namespace hw::bench
