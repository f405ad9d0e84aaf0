#include "tests/simulation/day_plan.h"

#include <algorithm>
#include <random>

#include "libs/values/sha256.h"

namespace hw::simulation {
namespace {

constexpr int days = 2;
constexpr int walks_a_day = 2;
constexpr int finding_percent = 60;  // of the phones, each day
constexpr int follow_ups_max = 4;

class Planning {
 public:
  explicit Planning(std::uint64_t seed) : random_(seed) {
    plan_.begins_at = *parse_instant("2026-03-02T05:00:00Z");  // Monday, 06:00 in Berlin
    plan_.ends_at = plan_.begins_at + Duration::hours(24 * days + 30);
  }

  DayPlan plan() && {
    for (std::size_t phone = 0; phone < phones; ++phone) plan_phone(phone);
    for (const char* machine : {"mill1", "mill2"}) plan_machine(machine);
    const auto by_time = [](const auto& a, const auto& b) { return a.at < b.at; };
    std::stable_sort(plan_.acts.begin(), plan_.acts.end(), by_time);
    std::stable_sort(plan_.changes.begin(), plan_.changes.end(), by_time);
    return std::move(plan_);
  }

 private:
  std::int64_t between(std::int64_t min, std::int64_t max) {
    return std::uniform_int_distribution<std::int64_t>(min, max)(random_);
  }
  bool chance(int percent) { return between(1, 100) <= percent; }

  // Days wrong one way or the other, a few minutes, or right.
  Duration clock_off() {
    if (chance(40)) return Duration{};
    return Duration::seconds(chance(50) ? between(-172'800, 172'800) : between(-600, 600));
  }

  void plan_phone(std::size_t phone) {
    plan_.clocks_off.push_back(clock_off());
    for (int day = 0; day < days; ++day) {
      for (int i = 0; i < walks_a_day; ++i) plan_walk(phone, plan_.begins_at + Duration::hours(24 * day));
      add(phone, plan_.begins_at + Duration::hours(24 * day) + Duration::seconds(between(600, 36'000)),
          MarkDone{chance(50) ? "filter" : "grease"});
      if (chance(finding_percent)) plan_finding(phone, plan_.begins_at + Duration::hours(24 * day));
    }
  }

  // One person finds something; several follow it up, each on a phone of their own, none at the same moment.
  void plan_finding(std::size_t phone, Instant day) {
    Instant at = day + Duration::seconds(between(60, 27'000));
    service::FindingEdit edit;
    edit.what = fmt::format("It leaks, says phone {}", phone);
    edit.severity = any_severity();
    if (chance(40)) edit.owner = any_person();
    if (chance(30)) edit.task = "grease";
    edit.photos = any_photos(phone, at);
    const std::string finding = add(phone, at, MakeFinding{std::move(edit)});
    for (auto left = between(0, follow_ups_max); left > 0; --left) {
      at = at + Duration::seconds(between(60, 9000));
      follow_up(static_cast<std::size_t>(between(0, phones - 1)), at, finding);
    }
  }

  void follow_up(std::size_t phone, Instant at, const std::string& finding) {
    if (chance(25)) {
      add(phone, at, SettleFinding{finding, {{}, fmt::format("tightened by phone {}", phone), any_photos(phone, at)}});
    } else if (chance(20)) {
      add(phone, at, ReopenFinding{finding, {{}, "it leaks again"}});
    } else {
      add(phone, at, ChangeFinding{finding, any_change(phone, at)});
    }
  }

  service::FindingChange any_change(std::size_t phone, Instant at) {
    service::FindingChange change;
    if (chance(50)) change.severity = any_severity();
    if (chance(50)) change.owner = chance(25) ? "" : any_person();
    if (chance(30)) change.due_on = chance(25) ? "" : "2026-03-06";
    if (chance(20)) change.task = chance(50) ? "" : "filter";
    change.note = "seen";
    change.photos = any_photos(phone, at);
    return change;
  }

  // One in three has a photo, which the phone sends as a message of its own.
  std::optional<std::vector<service::PhotoName>> any_photos(std::size_t phone, Instant at) {
    if (!chance(33)) return std::nullopt;
    const std::string bytes = fmt::format("\xFF\xD8\xFF photo {} of phone {}", plan_.acts.size(), phone);
    const std::string id = add(phone, at, KeepPhoto{bytes});
    return std::vector{service::PhotoName{id, print_hex(sha256(bytes))}};
  }

  service::Severity any_severity() { return static_cast<service::Severity>(between(0, 3)); }
  std::string any_person() { return fmt::format("Person {}", between(0, phones - 1)); }

  void plan_walk(std::size_t phone, Instant day) {
    Instant at = day + Duration::seconds(between(60, 27'000));
    const std::string walk = add(phone, at, BeginWalk{"shift", shop::shift_checks});
    auto checks = shop::shift_checks;
    std::shuffle(checks.begin(), checks.end(), random_);
    const auto alone = static_cast<std::size_t>(between(0, static_cast<std::int64_t>(checks.size())));
    for (std::size_t i = 0; i < alone; ++i) {
      at = at + Duration::seconds(between(2, 90));
      answer(phone, at, walk, {any_answer(checks[i])});
      if (chance(15)) answer(phone, at + Duration::seconds(1), walk, {any_answer(checks[i])});  // corrects it
    }
    if (alone == checks.size() || chance(25)) return;  // the rest is not walked
    std::vector<service::CheckAnswer> others;
    for (std::size_t i = alone; i < checks.size(); ++i) others.push_back(shop::good(checks[i], kind_of(checks[i])));
    add(phone, at + Duration::seconds(between(2, 90)), AnswerChecks{"shift", walk, true, std::move(others)});
  }

  static std::string kind_of(const std::string& check) {
    if (check == "look") return "look";
    if (check == "window") return "clean";
    return check == "coolant" ? "top up" : "reading";
  }

  service::CheckAnswer any_answer(const std::string& check) {
    const std::string kind = kind_of(check);
    if (kind == "reading") return shop::read(check, static_cast<double>(between(48, 72)) / 10);
    return chance(80) ? shop::good(check, kind) : shop::bad(check, kind);
  }

  void answer(std::size_t phone, Instant at, const std::string& walk, std::vector<service::CheckAnswer> answers) {
    add(phone, at, AnswerChecks{"shift", walk, false, std::move(answers)});
  }

  // An answer is at the machine of its walk. Gives the id.
  std::string add(std::size_t phone, Instant at, decltype(Act::what) what) {
    if (!std::holds_alternative<AnswerChecks>(what)) machine_ = chance(60) ? "mill1" : "mill2";
    const std::string id = shop::id_of(static_cast<int>(plan_.acts.size()) + 1);
    plan_.acts.push_back({phone, id, machine_, at, std::move(what)});
    return id;
  }

  void plan_machine(const std::string& machine) {
    const std::string_view marks = "##S.o?";
    for (Instant at = plan_.begins_at; at < plan_.ends_at; at = at + Duration::seconds(between(600, 9000))) {
      const auto mark = marks[static_cast<std::size_t>(between(0, static_cast<std::int64_t>(marks.size()) - 1))];
      plan_.changes.push_back({machine, at, mark});
    }
  }

  std::mt19937_64 random_;
  DayPlan plan_;
  std::string machine_;
};

}  // namespace

DayPlan plan_days(std::uint64_t seed) { return Planning(seed).plan(); }

}  // namespace hw::simulation
