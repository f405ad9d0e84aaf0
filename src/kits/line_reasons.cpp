#include "src/kits/line_reasons.h"

#include <algorithm>
#include <cmath>

namespace hw::kits {
namespace {

constexpr double amount_worth_saying = 0.05;

// As the sentence says it.
double to_a_tenth(double quantity) { return std::round(10 * quantity) / 10; }

void say_what_stops_need(std::vector<Sentence>& says, const LineFacts& facts) {
  double quantity = 0;
  LocalDate first{};
  for (const CertainNeed& need : facts.cover.part().needs.certain) {
    if (need.on > facts.today + facts.until_day) continue;
    first = quantity > 0 ? std::min(first, need.on) : need.on;
    quantity += need.quantity;
  }
  if (quantity <= 0) return;
  const std::string until = print(facts.today + facts.until_day);
  says.push_back(sentence({"needed-for-stops", {{"first", print(first)}, {"until", until}}, {{"quantity", quantity}}},
                          "agreed stops need {:g} until {}, the first on {}", quantity, until, print(first)));
}

void say_what_falls_due(std::vector<Sentence>& says, const LineFacts& facts) {
  double quantity = 0;
  for (const ExpectedNeed& need : facts.cover.part().needs.expected) {
    quantity += expected_by_day(need, facts.today, facts.until_day + 1).back();
  }
  if (quantity < amount_worth_saying) return;
  const std::string until = print(facts.today + facts.until_day);
  says.push_back(sentence({"needed-when-due", {{"until", until}}, {{"quantity", to_a_tenth(quantity)}}},
                          "{:.1f} expected until {} for what falls due", quantity, until));
}

void say_what_failures_need(std::vector<Sentence>& says, const LineFacts& facts) {
  double quantity = 0;
  for (const FailureNeed& need : facts.cover.part().needs.failures) {
    quantity += need.rate_per_day * (facts.until_day + 1) * need.quantity;
  }
  if (quantity < amount_worth_saying) return;
  const std::string until = print(facts.today + facts.until_day);
  says.push_back(sentence({"needed-for-failures", {{"until", until}}, {{"quantity", to_a_tenth(quantity)}}},
                          "{:.1f} expected until {} for failures", quantity, until));
}

void say_how_long_it_takes(std::vector<Sentence>& says, const LineFacts& facts) {
  says.push_back(facts.cover.lead().working());
}

void say_that_it_is_late(std::vector<Sentence>& says, const LineFacts& facts) {
  if (facts.line.when != When::late) return;
  const double now = percent_reached(facts.line.chance_now), wanted = percent_reached(facts.cover.part().wanted);
  says.push_back(sentence({"too-late-to-be-sure", {}, {{"chance", now}, {"wanted", wanted}}},
                          "even ordered today it is there in time with {:g} % only, not {:g} %", now, wanted));
}

void say_what_is_open(std::vector<Sentence>& says, const LineFacts& facts) {
  const auto& open = facts.cover.part().open;
  if (open.empty()) return;
  const auto oldest = std::max_element(open.begin(), open.end(),
                                       [](const OpenOrder& a, const OpenOrder& b) { return a.age_days < b.age_days; });
  double quantity = 0;
  for (const OpenOrder& order : open) quantity += order.quantity;
  const double by_now = percent_reached(facts.cover.lead().within(oldest->age_days));
  says.push_back(
      sentence({"order-open", {}, {{"quantity", quantity}, {"days", double(oldest->age_days)}, {"chance", by_now}}},
               "{:g} are ordered, the oldest for {} d; by then {:g} % of deliveries are there", quantity,
               oldest->age_days, by_now));
}

void say_that_it_joins(std::vector<Sentence>& says, const LineFacts& facts) {
  if (!facts.joins) return;
  const std::string last = print(facts.line.last_on);
  says.push_back(sentence({"joins-an-order", {{"last", last}}},
                          "it has time until {}, but joins an order that goes anyway", last));
}

void say_why_it_is_more(std::vector<Sentence>& says, const LineFacts& facts) {
  const QuantityRange& range = facts.choice.range;
  const double quantity = facts.line.quantity;
  if (quantity > range.least) {
    says.push_back(sentence({"more-costs-less", {}, {{"quantity", quantity}, {"least", range.least}}},
                            "{:g} rather than the {:g} that would do: fewer orders cost less than holding them",
                            quantity, range.least));
  } else if (range.least > range.least_needed) {
    says.push_back(sentence({"minimum-raises", {}, {{"quantity", range.least}, {"least", range.least_needed}}},
                            "{:g} instead of {:g}, the least that can be ordered", range.least, range.least_needed));
  }
}

void say_what_shelf_life_does(std::vector<Sentence>& says, const LineFacts& facts) {
  const QuantityRange& range = facts.choice.range;
  if (!range.shelf_life_max) return;
  const double quantity = facts.line.quantity;
  if (quantity > *range.shelf_life_max) {
    const double used = percent_reached(facts.used_in_time);
    says.push_back(sentence({"may-outlive-shelf", {}, {{"quantity", quantity}, {"chance", used}}},
                            "all {:g} are used within their shelf life with {:g} % only", quantity, used));
  } else if (quantity + facts.cover.part().pack > *range.shelf_life_max) {
    says.push_back(sentence({"shelf-life-limits", {}, {{"quantity", quantity}}},
                            "not more than {:g}, which are used within their shelf life", quantity));
  }
}

}  // namespace

double percent_reached(double chance) { return std::floor(1000 * chance + 1e-9) / 10; }

std::vector<Sentence> reasons_of(const LineFacts& facts) {
  std::vector<Sentence> says;
  for (const auto say :
       {say_that_it_is_late, say_what_stops_need, say_what_falls_due, say_what_failures_need, say_how_long_it_takes,
        say_what_is_open, say_that_it_joins, say_why_it_is_more, say_what_shelf_life_does}) {
    say(says, facts);
  }
  return says;
}

}  // namespace hw::kits
