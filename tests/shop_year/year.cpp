#include "tests/shop_year/year.h"

#include <algorithm>
#include <deque>

#include "tests/shop_year/people.h"

namespace hw::shop_year {
namespace {

constexpr int phones = 4;
constexpr std::size_t differences_told = 8;

// A phone keeps what was entered until it has an answer.
struct Phone {
  std::string by;
  Duration clock_off;
  std::deque<Act> outbox;
};

// A message that is still under way although nobody waits for it any more.
struct Straggler {
  Act act;
  Instant sent_at;
};

// The server's part of the world that is lost with a kill, or put back.
struct Kept {
  Books books;
  Heard heard;
};

class Year {
 public:
  Year(std::uint64_t seed, const YearOptions& options)
      : options_(options), chance_(seed), floor_(founded_at()), server_(options.open_store), books_(founded_at()) {
    heard_ = {{1, 1}, founded_at()};
    for (const std::string& machine : machines) floor_.turn(machine, '.', founded_at());
    for (int i = 0; i < phones; ++i) phones_.push_back({fmt::format("Person {}", i), any_clock(), {}});
    time_ = time_ + Duration::seconds(60);
    hear_agent();
    store();
    back_up();
  }

  YearResult live() && {
    const Instant end = founded_at() + Duration::hours(24 * options_.days);
    while (time_ < end && result_.differences.empty()) {
      time_ = time_ + Duration::seconds(chance_.between(60, chance_.percent(50) ? 3600 : 172'800));
      is_fresh_ = false;
      happen();
    }
    if (result_.differences.empty()) finish();
    return std::move(result_);
  }

 private:
  Instant now() const { return time_ + clock_off_; }
  Instant shown_by(const Phone& phone) const { return time_ + phone.clock_off; }

  Duration any_clock() {
    if (chance_.percent(50)) return {};
    return Duration::seconds(chance_.percent(30) ? chance_.between(-200'000, 200'000) : chance_.between(-600, 600));
  }

  void happen() {
    const auto what = chance_.between(1, 100);
    if (what <= 27) return floor_.turn(any_machine(), any_mark(), time_);
    if (what <= 57) return enter();
    if (what <= 86) return reach_server();
    if (what <= 89) return restart();
    if (what <= 90) return floor_.agent_begins_anew(time_);
    if (what <= 92) return set_clocks();
    if (what <= 95) return chance_.percent(15) && options_.is_put_back ? put_back() : store_and_back_up();
    if (what <= 97) return straggle();
    if (what <= 98) return compare();
    agent_is_reached();
  }

  std::string any_machine() { return chance_.one_of(machines); }
  char any_mark() {
    constexpr std::string_view marks = "###S..###SS..o.?";
    return marks[static_cast<std::size_t>(chance_.between(0, static_cast<std::int64_t>(marks.size()) - 1))];
  }
  Phone& any_phone() { return phones_[static_cast<std::size_t>(chance_.between(0, phones - 1))]; }

  void enter() {
    Phone& phone = any_phone();
    const LocalDate today = server_.shop().calendar().zone.date_of(time_);
    for (auto more = chance_.between(1, 4); more > 0; --more) {
      phone.outbox.push_back(people_.act(phone.by, shown_by(phone), today));
    }
    if (!chance_.percent(10) || !std::holds_alternative<MarkDone>(phone.outbox.back().what)) return;
    const Act done = phone.outbox.back();
    post(phone);
    time_ = time_ + Duration::seconds(chance_.between(2, 12));
    phone.outbox.push_back(people_.undoing(done, shown_by(phone)));
    post(phone);
  }

  void hear_agent() {
    const auto batch = floor_.answer(heard_, time_, now());
    server_.take(batch);
    if (chance_.percent(5)) server_.take(batch);  // its answer got lost, so it comes again
    is_fresh_ = true;
  }
  void agent_is_reached() {
    hear_agent();
    if (chance_.percent(40)) store();
  }

  void reach_server() {
    if (chance_.percent(70)) agent_is_reached();
    post(any_phone());
  }

  // In order, or the last one first; an answer may get lost, and a copy may be under way for long.
  void post(Phone& phone) {
    if (phone.outbox.size() > 1 && chance_.percent(10))
      std::rotate(phone.outbox.begin(), phone.outbox.end() - 1, phone.outbox.end());
    while (!phone.outbox.empty() && result_.differences.empty()) {
      const Act act = phone.outbox.front();
      const Instant sent_at = shown_by(phone);
      if (chance_.percent(5)) stragglers_.push_back({act, sent_at});
      if (chance_.percent(4)) return;  // it does not arrive
      deliver(act, sent_at);
      if (chance_.percent(10)) {
        ++result_.sent_again;
        return;  // the answer does not arrive: it will be sent again
      }
      phone.outbox.pop_front();
    }
  }

  void straggle() {
    if (stragglers_.empty()) return;
    const Straggler one = stragglers_.front();
    stragglers_.pop_front();
    deliver(one.act, one.sent_at);
  }

  void deliver(const Act& act, Instant sent_at) {
    const auto hours_at = [&](const std::string& machine, Instant at) -> std::optional<double> {
      if (!can_compare_hours()) return std::nullopt;
      return floor_.hours(machine, "#", at, heard_);
    };
    const bool is_right = books_.hear(act, sent_at, now(), hours_at);
    for (const Act& one : options_.tamper ? options_.tamper(act) : std::vector{act}) {
      const auto told = tell(server_.shop(), one, sent_at, now());
      if (told.has_value() == is_right) continue;
      differ({fmt::format("{}: it was {}, right is the other", name_of(act),
                          told ? "kept" : "refused (" + told.error().message + ")")});
    }
    ++(is_right ? result_.kept : result_.refused);
  }

  // Everything that there is has been told just now, and the server counts up to the right moment.
  bool can_compare_hours() const {
    return is_fresh_ && clock_off_ == Duration{} && heard_.alive_at == time_ && heard_.is_exact;
  }

  void store() {
    server_.store_counting(now());
    stored_ = heard_;
  }

  void began_again(const feeds::Position& known) {
    heard_ = stored_;
    is_fresh_ = false;
    if (known != heard_.position) differ({"the server does not know how far it has heard the agent"});
  }

  void restart() {
    ++result_.restarts;
    if (chance_.percent(40)) store();
    began_again(server_.restart());
    if (chance_.percent(50)) compare();
  }

  void back_up() {
    server_.back_up();
    backed_up_ = Kept{books_, stored_};
  }
  void store_and_back_up() {
    store();
    back_up();
  }

  // The phones do not know of it, and go on.
  void put_back() {
    ++result_.put_back;
    const feeds::Position known = server_.put_back();
    books_ = backed_up_->books;
    stored_ = backed_up_->heard;
    began_again(known);
    compare();
  }

  void set_clocks() {
    if (chance_.percent(50)) any_phone().clock_off = any_clock();
    if (has_wandering_clock_) clock_off_ = clock_off_ == Duration{} ? any_clock() : Duration{};
  }

  void differ(std::vector<std::string> found) {
    if (found.empty()) return;
    if (found.size() > differences_told) found.resize(differences_told);
    for (std::string& one : found) result_.differences.push_back(fmt::format("{}: {}", print(time_), one));
  }

  void compare() {
    if (chance_.percent(70)) hear_agent();
    ++result_.compared;
    const bool is_live = can_compare_hours();
    result_.compared_live += is_live ? 1 : 0;
    differ(differences({server_, books_, floor_, heard_, now(), is_live}));
    differ(refused_views(server_, now(), false));
  }

  // All is sent, the clock is right, the agent is there.
  void finish() {
    clock_off_ = {};
    hear_agent();
    store();
    for (Phone& phone : phones_) {
      while (!phone.outbox.empty() && result_.differences.empty()) post(phone);
    }
    began_again(server_.restart());
    hear_agent();
    compare();
    differ(broken(server_));
    differ(refused_views(server_, now(), chance_.percent(5)));
    if (result_.differences.empty()) result_.record_sha256 = server_.record_sha256();
    for (const std::string& machine : machines) result_.lost_h += floor_.unknown_h(machine, time_, heard_);
  }

  const YearOptions& options_;
  Chance chance_;
  Instant time_ = founded_at();  // the right time
  bool has_wandering_clock_ = chance_.percent(50);
  Duration clock_off_;  // how far the server's clock is ahead
  Floor floor_;
  Server server_;
  Books books_;
  People people_{chance_, books_};
  Heard heard_;   // what the server has heard ...
  Heard stored_;  // ... and what of it would be there after a kill
  std::optional<Kept> backed_up_;
  bool is_fresh_ = false;  // the agent has told everything up to time_
  std::vector<Phone> phones_;
  std::deque<Straggler> stragglers_;
  YearResult result_;
};

}  // namespace

YearResult live_year(std::uint64_t seed, const YearOptions& options) { return Year(seed, options).live(); }

}  // namespace hw::shop_year
