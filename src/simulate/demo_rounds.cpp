#include "src/simulate/demo_rounds.h"

#include <algorithm>

#include "libs/values/assert.h"
#include "src/due/round_turns.h"
#include "src/service/round_entries.h"
#include "src/service/round_standing.h"
#include "src/simulate/demo_gauges.h"
#include "src/simulate/demo_people.h"

namespace hw::simulate {
namespace {

using catalogue::Check;
using catalogue::CheckKind;
using catalogue::Rhythm;
using due::RoundTurn;

constexpr Duration days_walked = Duration::hours(24 * 14);
constexpr Duration weeks_walked = Duration::hours(24 * 7 * 12);
constexpr int missed_per_mille = 60;
constexpr int half_per_mille = 50;
constexpr int not_begun_yet_per_mille = 450;
constexpr int half_so_far_per_mille = 250;
constexpr int not_so_per_mille = 12;
constexpr int falling_per_mille = 60;  // of the machines

enum class HowFar { not_begun, half, whole };

// Of a start-up the turn is the hour before the first shift.
std::vector<RoundTurn> turns_before(const catalogue::PlantCalendar& calendar, Rhythm rhythm, Instant now) {
  if (rhythm != Rhythm::before_start_up) {
    const Duration back = rhythm == Rhythm::week ? weeks_walked : days_walked;
    return due::turns_of(rhythm, calendar, {now - back, now});
  }
  auto turns = due::turns_of(Rhythm::day, calendar, {now - days_walked, now});
  for (RoundTurn& turn : turns) {
    turn.begins_at = turn.begins_at - Duration::seconds(1200);
    turn.ends_at = turn.begins_at + Duration::seconds(900);
  }
  return turns;
}

// One machine's people on their rounds, entry after entry.
class Walking {
 public:
  Walking(const service::MachineRecord& machine, const service::ShopRecord& shop, const DemoUse& use,
          std::uint64_t seed, Instant now)
      : shop_(shop),
        use_(use),
        now_(now),
        dice_(mix(seed, hash_of("rounds of " + machine.machine.key))),
        gauges_(Dice(mix(seed, hash_of("gauges of " + machine.machine.key))), dice_.chance(falling_per_mille)) {
    machine_.record = machine;
  }

  std::vector<service::Entry> walk_all() && {
    for (const catalogue::Round& round : service::rounds_of(machine_)) {
      const auto turns = turns_before(shop_.calendar, round.rhythm, now_);
      for (std::size_t i = 0; i < turns.size(); ++i) {
        share_ = static_cast<double>(i + 1) / static_cast<double>(turns.size());
        walk(round, turns[i]);
      }
    }
    return std::move(entries_);
  }

 private:
  HowFar how_far(const catalogue::Round& round, const RoundTurn& turn) {
    const bool runs = now_ < turn.ends_at;
    const auto drawn = dice_.between(1, 1000);
    const int not_begun = runs ? not_begun_yet_per_mille : missed_per_mille;
    const int half = runs ? half_so_far_per_mille : half_per_mille;
    if (drawn <= not_begun && (runs || round.rhythm != Rhythm::week)) return HowFar::not_begun;
    return drawn <= not_begun + half && round.checks.size() > 1 ? HowFar::half : HowFar::whole;
  }

  void walk(const catalogue::Round& round, const RoundTurn& turn) {
    const HowFar far = how_far(round, turn);
    if (far == HowFar::not_begun) return;
    at_ = turn.begins_at + Duration::seconds(dice_.between(240, 1500));
    by_ = somebody(shop_, catalogue::Skill::machine_operator, dice_);
    service::WalkEdit edit{signature(), {}};
    for (const Check& check : round.checks) edit.checks.push_back(check.key);
    service::Entry entry = new_entry(service::begun_kind, edit);
    tell_begun(entry, &machine_, round.rhythm, edit);
    keep(std::move(entry));
    answer(round, edit.id, far == HowFar::half ? round.checks.size() / 2 : round.checks.size());
  }

  // Readings and what is not so one by one, the others by one press at the end.
  void answer(const catalogue::Round& round, const std::string& walk, std::size_t checks) {
    std::vector<service::CheckAnswer> others;
    for (std::size_t i = 0; i < checks; ++i) {
      const Check& check = round.checks[i];
      at_ = at_ + Duration::seconds(dice_.between(8, 40));
      service::CheckAnswer answer = answer_at(check);
      const bool is_one_of_the_rest = !answer.value && !answer.quantity && answer.answer == "as it should be";
      if (is_one_of_the_rest)
        others.push_back(std::move(answer));
      else
        tell(round.rhythm, {signature(), walk, false, {std::move(answer)}, {}});
    }
    if (!others.empty()) tell(round.rhythm, {signature(), walk, true, std::move(others), {}});
  }

  service::CheckAnswer answer_at(const Check& check) {
    service::CheckAnswer answer;
    answer.check = check.key;
    answer.kind = word_of(check.kind);
    answer.title = check.title;
    if (check.reading) {
      answer.value = gauges_.next(check.key, *check.reading, share_);
      answer.unit = check.reading->unit;
      return answer;
    }
    answer.answer = dice_.chance(not_so_per_mille) ? "not so" : "as it should be";
    if (check.kind == CheckKind::top_up && dice_.chance(400)) {
      answer.quantity = static_cast<double>(dice_.between(1, 8));
    }
    return answer;
  }

  void tell(Rhythm rhythm, const service::AnswersEdit& edit) {
    service::Entry entry = new_entry(kind_of(edit), edit);
    HW_ASSERT(tell_answers(entry, &machine_, rhythm, edit), "the demo's people write down what can be");
    keep(std::move(entry));
  }

  service::Signature signature() { return {uuid_of(dice_, at_), by_, at_, at_}; }

  service::Entry new_entry(std::string_view kind, const service::Signature& signature) const {
    service::Entry entry;
    entry.id = signature.id;
    entry.kind = kind;
    entry.machine = machine_.record.machine.key;
    entry.by = signature.by;
    entry.at = entry.happened_at = at_;
    entry.device_at = at_;
    entry.counters = use_.totals_ago((now_ - at_).as_hours() / 24);
    return entry;
  }

  // Who walks now has not come further than now.
  void keep(service::Entry entry) {
    if (entry.at < now_) entries_.push_back(std::move(entry));
  }

  const service::ShopRecord& shop_;
  const DemoUse& use_;
  Instant now_;
  Dice dice_;
  DemoGauges gauges_;
  service::OpenMachine machine_;
  std::vector<service::Entry> entries_;
  double share_ = 0;  // of the turns
  Instant at_;
  std::string by_;
};

}  // namespace

std::vector<service::Entry> demo_rounds(const service::MachineRecord& machine, const service::ShopRecord& shop,
                                        const DemoUse& use, std::uint64_t seed, Instant now) {
  return Walking(machine, shop, use, seed, now).walk_all();
}

}  // namespace hw::simulate
