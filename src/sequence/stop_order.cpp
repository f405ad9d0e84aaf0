#include "src/sequence/stop_order.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <queue>
#include <tuple>
#include <unordered_map>

#include "libs/values/assert.h"
#include "src/sequence/outline.h"

namespace hw::sequence {
namespace {

using catalogue::EnergyState;
using Done = std::uint64_t;  // a bit for each work

constexpr double same_place = 1e-9;
constexpr int states = 3;

int level_of(EnergyState state) { return static_cast<int>(state); }

// Where one is in the work: what is done, where one stands, in which state, after how many changes.
struct Moment {
  Done done = 0;
  double place = 0;
  int level = 0;
  int changes = 0;
  auto operator<=>(const Moment&) const = default;
};

struct MomentHash {
  std::size_t operator()(const Moment& moment) const {
    std::uint64_t mixed = moment.done * 0x9E3779B97F4A7C15U;
    mixed ^= std::hash<double>()(moment.place) + static_cast<std::uint64_t>(moment.level * 97 + moment.changes);
    return (mixed ^ mixed >> 29) * 0xBF58476D1CE4E5B9U;
  }
};

struct Known {
  double length = 0;
  Moment before;
  std::vector<int> works;  // done since then
  bool is_first = false;
  bool is_final = false;
};

class Ordering {
 public:
  Ordering(const std::vector<StopWork>& works, double start_place) : works_(works) {
    for (const StopWork& work : works) {
      Done needs = 0;
      for (const int other : work.after) needs |= Done{1} << other;
      needs_.push_back(needs);
    }
    all_ = works.empty() ? 0 : ~Done{0} >> (64 - works.size());
    start_.place = start_place;
    for (std::size_t work = 0; work < works.size(); ++work) by_place_.push_back(work);
    std::sort(by_place_.begin(), by_place_.end(),
              [&](std::size_t a, std::size_t b) { return works[a].place < works[b].place; });
  }

  bool can_all_be_done() const {
    Done done = 0;
    for (Done before = 1; before != done;) {
      before = done;
      for (int level = 0; level < states; ++level) done = all_doable(done, level);
    }
    return done == all_;
  }

  StopOrder shortest() {
    changes_most_ = changes_to_go(0, 0);
    reach(start_, 0, start_);
    while (!queue_.empty()) {
      const Moment moment = std::get<Moment>(queue_.top());
      queue_.pop();
      Known& known = known_.at(moment);
      if (known.is_final || is_outdone(moment, known.length)) continue;
      known.is_final = true;
      if (moment.done == all_ && moment.level == 0) return walked(moment, known.length);
      go_on(moment, known.length);
    }
    HW_ASSERT(false, "works that can be done have an order");
    return {};
  }

 private:
  bool is_doable(std::size_t work, Done done, int level) const {
    return (done >> work & 1) == 0 && level_of(works_[work].state) == level && (needs_[work] & ~done) == 0;
  }

  // All that can be done in that state, wherever it is.
  Done all_doable(Done done, int level) const {
    for (bool is_more = true; is_more;) {
      is_more = false;
      for (std::size_t work = 0; work < works_.size(); ++work) {
        if (!is_doable(work, done, level)) continue;
        done |= Done{1} << work;
        is_more = true;
      }
    }
    return done;
  }

  // The fewest changes from there to the end, back in production. To do all that can be done is never wrong.
  int changes_to_go(Done done, int level) {
    const auto begin = std::pair(all_doable(done, level), level);
    if (const auto there = changes_.find(begin); there != changes_.end()) return there->second;
    std::map<std::pair<Done, int>, int> seen{{begin, 0}};
    std::queue<std::pair<Done, int>> next({begin});
    while (!next.empty()) {
      const auto here = next.front();
      next.pop();
      if (here.first == all_ && here.second == 0) return changes_[begin] = seen[here];
      for (const int to : {here.second - 1, here.second + 1}) {
        if (to < 0 || to >= states) continue;
        const auto there = std::pair(all_doable(here.first, to), to);
        if (seen.emplace(there, seen[here] + 1).second) next.push(there);
      }
    }
    HW_ASSERT(false, "works that can be done are done in the end");
    return 0;
  }

  // Comes to a moment, does what can be done there, and remembers it if no shorter way was known.
  void reach(Moment moment, double length, const Moment& before) {
    std::vector<int> done_here;
    for (bool is_more = true; is_more;) {
      is_more = false;
      for (std::size_t work = 0; work < works_.size(); ++work) {
        if (std::abs(works_[work].place - moment.place) > same_place) continue;
        if (!is_doable(work, moment.done, moment.level)) continue;
        moment.done |= Done{1} << work;
        done_here.push_back(static_cast<int>(work));
        is_more = true;
      }
    }
    const auto [there, is_new] = known_.try_emplace(moment);
    if (!is_new && there->second.length <= length) return;
    there->second = {length, before, std::move(done_here), number_ == 0, false};
    queue_.push({length + way_to_go(moment), number_++, moment});
  }

  // Whoever stands at the same place in the same state and has done the same and more, on no longer a way, is no worse.
  bool is_outdone(const Moment& moment, double length) {
    auto& others = gone_on_[{moment.place, moment.level, moment.changes}];
    for (const auto& [done, way] : others) {
      if ((moment.done & ~done) == 0 && way <= length && done != moment.done) return true;
    }
    others.emplace_back(moment.done, length);
    return false;
  }

  // At least so far it is still: what is left in each state has to be walked past in as many pieces, at most, as there
  // are visits to that state; each piece leaves out a gap of the ring.
  double way_to_go(const Moment& moment) {
    const auto is_left = [&](int level) {
      return std::any_of(by_place_.begin(), by_place_.end(), [&](std::size_t work) {
        return (moment.done >> work & 1) == 0 && level_of(works_[work].state) == level;
      });
    };
    const int highest = is_left(2) ? 2 : is_left(1) ? 1 : 0;
    const int up = std::max(0, highest - moment.level);
    const int spare = changes_most_ - moment.changes - up - std::max(highest, moment.level);
    double sum = 0;
    for (int level = 0; level < states; ++level) {
      const bool is_twice = level < highest && level >= moment.level;  // on the way up and on the way down
      sum += way_past(moment.done, level, 1 + (is_twice ? 1 : 0) + spare / 2);
    }
    return sum;
  }

  // The shortest way past all of a state's works that are left, in so many pieces that begin anywhere.
  double way_past(Done done, int level, int pieces) {
    gaps_.clear();
    double first = -1;
    double last = -1;
    for (const std::size_t work : by_place_) {
      if ((done >> work & 1) != 0 || level_of(works_[work].state) != level) continue;
      const double place = works_[work].place;
      if (first < 0) first = place;
      if (last >= 0) gaps_.push_back(place - last);
      last = place;
    }
    if (first < 0) return 0;
    gaps_.push_back(first + outline_length - last);
    std::sort(gaps_.begin(), gaps_.end());
    double way = 0;
    for (std::size_t i = 0; i + static_cast<std::size_t>(pieces) < gaps_.size(); ++i) way += gaps_[i];
    return way;
  }

  void go_on(const Moment& moment, double length) {
    for (const double place : nearest_works(moment)) {
      Moment there = moment;
      there.place = place;
      reach(there, length + shorter_way(moment.place, place), moment);
    }
    for (const int to : {moment.level - 1, moment.level + 1}) {
      if (to < 0 || to >= states) continue;
      if (moment.changes + 1 + changes_to_go(moment.done, to) > changes_most_) continue;
      reach({moment.done, moment.place, to, moment.changes + 1}, length, moment);
    }
  }

  // Of the work that can be done now, the nearest on the way on and on the way back.
  std::vector<double> nearest_works(const Moment& moment) const {
    double on = outline_length;
    double back = outline_length;
    std::vector<double> places(2, -1);
    for (std::size_t work = 0; work < works_.size(); ++work) {
      if (!is_doable(work, moment.done, moment.level)) continue;
      const double way = way_on(moment.place, works_[work].place);
      if (way < on) {
        on = way;
        places[0] = works_[work].place;
      }
      if (outline_length - way < back) {
        back = outline_length - way;
        places[1] = works_[work].place;
      }
    }
    places.erase(std::remove(places.begin(), places.end(), -1.0), places.end());
    return places;
  }

  StopOrder walked(Moment moment, double length) const {
    StopOrder order{.works = {}, .state_changes = moment.changes, .walk_length = length};
    while (true) {
      const Known& known = known_.at(moment);
      order.works.insert(order.works.begin(), known.works.begin(), known.works.end());
      if (known.is_first) break;
      moment = known.before;
    }
    return order;
  }

  const std::vector<StopWork>& works_;
  std::vector<Done> needs_;
  std::vector<std::size_t> by_place_;
  Done all_ = 0;
  Moment start_;
  int changes_most_ = 0;
  std::map<std::pair<Done, int>, int> changes_;
  std::unordered_map<Moment, Known, MomentHash> known_;
  using Entry = std::tuple<double, std::uint64_t, Moment>;  // of equally long ways the earlier found
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue_;
  std::uint64_t number_ = 0;
  std::vector<double> gaps_;
  std::map<std::tuple<double, int, int>, std::vector<std::pair<Done, double>>> gone_on_;
};

Result<void> check_works(const std::vector<StopWork>& works) {
  if (works.size() > works_max) {
    return refuse(ErrorCode::too_large, "a stop with {} works; at most {} can be ordered", works.size(), works_max);
  }
  for (std::size_t i = 0; i < works.size(); ++i) {
    if (!(works[i].place >= 0 && works[i].place < outline_length)) {
      return refuse(ErrorCode::bad_input, "works[{}].place: must be from 0 to below 4, not {}", i, works[i].place);
    }
    for (const int other : works[i].after) {
      if (other >= 0 && static_cast<std::size_t>(other) < works.size()) continue;
      return refuse(ErrorCode::bad_input, "works[{}].after: there is no work {}", i, other);
    }
  }
  return {};
}

}  // namespace

Result<StopOrder> order_stop(const std::vector<StopWork>& works, double start_place) {
  HW_TRY(check_works(works));
  Ordering ordering(works, start_place);
  if (!ordering.can_all_be_done()) {
    return refuse(ErrorCode::bad_input, "works wait for each other: one of them has to come first");
  }
  return ordering.shortest();
}

std::vector<Share> share_between_two(const std::vector<StopWork>& works, const StopOrder& order) {
  std::vector<Share> shares;
  std::vector<double> end(works.size());
  double free_at[2] = {0, 0};
  EnergyState state = EnergyState::in_production;
  for (const int number : order.works) {
    const StopWork& work = works[static_cast<std::size_t>(number)];
    const bool is_together = work.is_alone || work.state != state;
    if (is_together) free_at[0] = free_at[1] = std::max(free_at[0], free_at[1]);
    state = work.state;
    const int person = free_at[0] <= free_at[1] ? 0 : 1;
    double begin = free_at[person];
    for (const int other : work.after) begin = std::max(begin, end[static_cast<std::size_t>(other)]);
    end[static_cast<std::size_t>(number)] = free_at[person] = begin + work.minutes;
    if (work.is_alone) free_at[1 - person] = free_at[person];
    shares.push_back({number, person, begin});
  }
  std::stable_sort(shares.begin(), shares.end(),
                   [](const Share& a, const Share& b) { return a.begin_minutes < b.begin_minutes; });
  return shares;
}

}  // namespace hw::sequence
