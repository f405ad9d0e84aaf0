#include <algorithm>

#include "src/service/make_views.h"
#include "src/service/round_standing.h"
#include "src/service/standing_answers.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

using catalogue::Check;
using catalogue::Rhythm;

constexpr int readings_shown = 10;
constexpr int readings_looked_at = 30;  // some of them were corrected
constexpr Duration past_shown = Duration::hours(7 * 24);

WalkView view_of(const WalkRecord& walk) {
  return {.walk = walk.walk,
          .by = walk.by,
          .began_at = walk.begun_at,
          .answered = static_cast<int>(standing_answers(walk).size()),
          .of = static_cast<int>(walk.checks.size())};
}

TurnAnswerView view_of(const AnswerRecord& record) {
  return {{record.answer}, record.by, record.happened_at, record.walk};
}

void add_turns(RoundView& view, const OpenShop& shop, const OpenMachine& machine, Rhythm rhythm, Instant now) {
  const RoundStanding standing = round_standing(shop.calendar(), machine, rhythm, now);
  if (standing.now) {
    const due::TurnStanding& turn = standing.turns[*standing.now];
    TurnView present = turn_view(standing, turn);
    for (const AnswerRecord* one : standing_answers(standing.walks_of(turn))) present.answers.push_back(view_of(*one));
    view.now = std::move(present);
  }
  if (rhythm == Rhythm::before_start_up) return;
  for (const due::TurnStanding& turn : standing.turns) {
    const bool is_over = turn.turn.ends_at <= now && turn.turn.ends_at > now - past_shown;
    if (is_over) view.past.push_back(turn_view(standing, turn));
  }
  std::reverse(view.past.begin(), view.past.end());
}

Result<std::vector<CheckValueView>> last_values(const OpenShop& shop, const std::string& machine, const Check& check) {
  std::vector<CheckValueView> views;
  if (!check.reading) return views;
  HW_TAKE(readings, shop.store().readings_of(machine, check.key, readings_looked_at));
  auto latest = without_corrected(std::move(readings));
  if (latest.size() > readings_shown) latest.resize(readings_shown);
  for (auto one = latest.rbegin(); one != latest.rend(); ++one) {
    views.push_back({*one->answer.value, one->answer.state.value_or("not judged"), one->happened_at, one->by});
  }
  return views;
}

Result<RoundCheckView> view_of(const OpenShop& shop, const OpenMachine& machine, const Check& check) {
  RoundCheckView view{.key = check.key,
                      .task = check.task,
                      .kind = std::string{word_of(check.kind)},
                      .title = check.title,
                      .point = check.point,
                      .steps = check.steps,
                      .caution = check.caution,
                      .reading = {},
                      .quantity_unit = check.quantity_unit,
                      .last = {}};
  if (check.reading) view.reading = text_of(*check.reading);
  HW_TAKE(last, last_values(shop, machine.record.machine.key, check));
  view.last = std::move(last);
  return view;
}

Result<MachineRoundsView> rounds_view(const OpenShop& shop, const OpenMachine& machine, Instant now) {
  const catalogue::Machine& what = machine.record.machine;
  MachineRoundsView view{what.key, what.name, what.kind, what.cell, point_views(machine.record), {}};
  for (const catalogue::Round& round : rounds_of(machine)) {
    RoundView& one = view.rounds.emplace_back();
    one.rhythm = word_of(round.rhythm);
    for (const Check& check : round.checks) {
      HW_TAKE(seen, view_of(shop, machine, check));
      one.checks.push_back(std::move(seen));
    }
    add_turns(one, shop, machine, round.rhythm, now);
  }
  return view;
}

}  // namespace

TurnView turn_view(const RoundStanding& standing, const due::TurnStanding& turn) {
  TurnView view{.on = turn.turn.on,
                .shift = turn.turn.shift,
                .begins_at = turn.turn.begins_at,
                .ends_at = turn.turn.ends_at,
                .state = std::string{word_of(turn.state)},
                .walks = {},
                .answers = {}};
  for (const WalkRecord* walk : standing.walks_of(turn)) view.walks.push_back(view_of(*walk));
  return view;
}

std::vector<RoundStandingView> standing_views(const OpenShop& shop, const OpenMachine& machine, Instant now) {
  std::vector<RoundStandingView> views;
  for (const Rhythm rhythm : rhythms_of(machine)) {
    const RoundStanding standing = round_standing(shop.calendar(), machine, rhythm, now);
    if (!standing.now) continue;
    const auto state = word_of(standing.turns[*standing.now].state);
    views.push_back({std::string{word_of(rhythm)}, std::string{state}});
  }
  return views;
}

Result<RoundsView> show_rounds(const OpenShop& shop, const std::optional<std::string>& machine, Instant now) {
  const auto lock = shop.look();
  if (machine) HW_TRY(shop.find(*machine));
  RoundsView view{.now = now, .machines = {}};
  for (const auto& open : shop.machines()) {
    if (machine && open->record.machine.key != *machine) continue;
    HW_TAKE(rounds, rounds_view(shop, *open, now));
    view.machines.push_back(std::move(rounds));
  }
  return view;
}

}  // namespace hw::service
