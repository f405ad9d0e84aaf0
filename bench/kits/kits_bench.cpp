// How fast orders are proposed for a shop of 200 machines with 5,000 parts and 40,000 needs, a year ahead.
//   kits_bench           prints one JSON object: seconds for all orders and for the demand alone
//   kits_bench --parts   prints the first parts as JSON for kits_numpy.py

#include <algorithm>
#include <cstring>
#include <ctime>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "libs/numerics/random.h"
#include "src/kits/demand.h"
#include "src/kits/propose_orders.h"

namespace {

using namespace hw;

constexpr std::size_t parts_count = 5000, needs_each = 8, suppliers_count = 50, compared = 100;
constexpr int days = 365;
const LocalDate today = LocalDate::of(2026, 3, 2);

// A task's due day: fourteen steps around a middle, as wide as a sixth of the way there.
kits::ExpectedNeed draw_expected(numerics::Random& random) {
  const double middle = random.between(10, 360), width = middle / 6;
  kits::ExpectedNeed need{{}, double(random.whole_between(1, 2)), random.log_between(60, 1000), 0};
  LocalDate before = today - 1;
  for (int n = 1; n <= 14; ++n) {
    const LocalDate on = std::max(today + static_cast<int>(middle + width * (n - 7.5) / 4), before + 1);
    need.due.push_back({on, n / 14.0});
    before = on;
  }
  return need;
}

kits::PartAhead draw_part(numerics::Random& random, std::size_t n) {
  kits::PartAhead part;
  part.key = fmt::format("part-{}", n);
  part.on_hand = random.whole_between(0, 6);
  for (std::size_t need = 0; need < needs_each; ++need) {
    if (need < 2) {
      part.needs.certain.push_back({today + random.whole_between(0, 60), double(random.whole_between(1, 2))});
    } else if (need < 6) {
      part.needs.expected.push_back(draw_expected(random));
    } else {
      part.needs.failures.push_back({random.log_between(1e-4, 5e-3), 1});
    }
  }
  part.supplier = n % suppliers_count;
  part.lead = part.supplier;
  part.price = random.log_between(3, 900);
  part.line_cost = 5;
  return part;
}

kits::StoresAhead draw_stores() {
  numerics::Random random(6);
  kits::StoresAhead stores;
  stores.today = today;
  stores.days = days;
  for (std::size_t n = 0; n < suppliers_count; ++n) {
    stores.leads.emplace_back(random.log_between(2, 40));
    stores.suppliers.push_back({fmt::format("supplier-{}", n), 30});
  }
  for (std::size_t n = 0; n < parts_count; ++n) stores.parts.push_back(draw_part(random, n));
  return stores;
}

template <class Work>
double best_of_five(const Work& work) {
  double best = 1e300;
  for (int round = 0; round < 5; ++round) {
    const std::clock_t begin = std::clock();
    work();
    best = std::min(best, static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC);
  }
  return best;
}

void print_parts(const kits::StoresAhead& stores) {
  fmt::print("{{\"days\":{},\"parts\":[", days);
  for (std::size_t n = 0; n < compared; ++n) {
    const kits::PartAhead& part = stores.parts[n];
    fmt::print("{}{{\"on_hand\":{},\"certain\":[", n > 0 ? "," : "", part.on_hand);
    for (const auto& need : part.needs.certain) {
      fmt::print("{}[{},{}]", &need == part.needs.certain.data() ? "" : ",", need.on - today, need.quantity);
    }
    fmt::print("],\"expected\":[");
    for (const auto& need : part.needs.expected) {
      fmt::print("{}{{\"quantity\":{},\"cycle\":{},\"due\":[", &need == part.needs.expected.data() ? "" : ",",
                 need.quantity, need.cycle_days);
      for (const auto& step : need.due) {
        fmt::print("{}[{},{}]", &step == need.due.data() ? "" : ",", step.on - today, step.chance);
      }
      fmt::print("]}}");
    }
    double rate = 0;
    for (const auto& need : part.needs.failures) rate += need.rate_per_day;
    fmt::print("],\"rate\":{}}}", rate);
  }
  fmt::print("]}}\n");
}

void measure(const kits::StoresAhead& stores) {
  std::size_t lines = 0, steps = 0;
  const double propose_s = best_of_five([&] {
    lines = 0;
    const auto proposal = kits::propose(stores);
    for (const auto& order : proposal->orders) lines += order.lines.size();
  });
  double met = 0, compared_met = 0;
  const double demand_s = best_of_five([&] {
    met = compared_met = 0;
    for (std::size_t n = 0; n < parts_count; ++n) {
      const kits::Demand demand(stores.parts[n].needs, today, days);
      for (int day = 0; day < days; ++day) met += demand.within(day, stores.parts[n].on_hand);
      if (n + 1 == compared) compared_met = met;
    }
  });
  double read = 0;
  const double read_s = best_of_five([&] {
    for (const auto& part : stores.parts) {
      for (const auto& need : part.needs.expected) {
        for (const auto& step : need.due) read += step.chance * need.quantity, ++steps;
      }
    }
  });
  fmt::print(
      "{{\"parts\":{},\"needs\":{},\"days\":{},\"propose_s\":{},\"demand_s\":{},\"read_s\":{},\"lines\":{},"
      "\"compared\":{},"
      "\"met\":{:.17g},\"kept\":{}}}\n",
      parts_count, parts_count * needs_each, days, propose_s, demand_s, read_s, lines, compared, compared_met,
      read > 0 ? 1 : 0);
}

}  // namespace

int main(int argc, char** argv) {
  const kits::StoresAhead stores = draw_stores();
  if (argc > 1 && std::strcmp(argv[1], "--parts") == 0) {
    print_parts(stores);
  } else {
    measure(stores);
  }
  return 0;
}
