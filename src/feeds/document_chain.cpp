#include "src/feeds/document_chain.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace hw::feeds {
namespace {

template <class T>
void append(std::vector<T>& to, std::vector<T>& from) {
  if (to.empty()) {
    to.swap(from);
  } else {
    to.insert(to.end(), from.begin(), from.end());
    from = {};
  }
}

bool by_sequence(const Arrival& a, const Arrival& b) { return a.sequence < b.sequence; }

}  // namespace

Result<void> DocumentChain::header(const StreamsHeader& header) {
  header_ = header;
  pending_.clear();
  return {};
}

void DocumentChain::observation(const Arrival& arrival) {
  if (only_ == none_found || arrival.machine == only_) pending_.push_back(arrival);
}

void DocumentChain::odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word) {
  if (only_ == none_found || machine == only_) remarks_.odd_word(machine, item, word);
}

void DocumentChain::unknown_item(std::string_view device, std::string_view data_item_id) {
  remarks_.unknown_item(device, data_item_id);
}

DocumentChain::Instance& DocumentChain::instance_of(const StreamsHeader& header, const std::string& file) {
  const auto [place, is_new] = places_.try_emplace(header.instance_id, instances_.size());
  if (is_new) instances_.push_back({header.instance_id, header.creation_time, file, {}, {}, {}});
  Instance& instance = instances_[place->second];
  if (header.creation_time && (!instance.began_at || *header.creation_time < *instance.began_at)) {
    instance.began_at = header.creation_time;
    instance.file = file;
  }
  return instance;
}

void DocumentChain::commit(const std::string& file, const StreamsTally& tally) {
  Instance& instance = instance_of(header_, file);
  std::stable_sort(pending_.begin(), pending_.end(), by_sequence);
  Document document{file,
                    header_.first_sequence,
                    header_.next_sequence,
                    tally.sequence_min,
                    tally.sequence_max,
                    tally.observations,
                    {},
                    {}};
  if (!pending_.empty()) {
    document.first_at = pending_.front().at;
    document.last_at = pending_.back().at;
  }
  instance.documents.push_back(std::move(document));
  instance.seen.resize(tally.seen.size());
  for (std::size_t n = 0; n < tally.seen.size(); ++n) instance.seen[n].add(tally.seen[n]);
  for (const Arrival& arrival : pending_) instance.machines[arrival.machine].append(arrival);
  pending_.clear();
}

void DocumentChain::Ordered::append(const Arrival& arrival) {
  if (!sequences.empty()) {
    const bool is_next_coordinate = arrival.sequence == sequences.back() && arrival.item > observations.back().item;
    if (arrival.sequence <= sequences.back() && !is_next_coordinate) is_sorted = false;
  }
  observations.push_back(arrival.observation());
  sequences.push_back(arrival.sequence);
  if (arrival.reset) resets.push_back({arrival.item, arrival.at});
}

// By sequence, and what has the same sequence and item once. Observations without a sequence keep their order and come
// first.
void DocumentChain::Ordered::sort() {
  if (is_sorted) return;
  std::vector<std::size_t> order(observations.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto key = [&](std::size_t n) {
    return std::pair(sequences[n], sequences[n] == 0 ? std::uint32_t{0} : observations[n].item);
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
  const auto last = std::unique(order.begin(), order.end(),
                                [&](std::size_t a, std::size_t b) { return sequences[a] != 0 && key(a) == key(b); });
  std::vector<counters::Observation> sorted;
  sorted.reserve(static_cast<std::size_t>(last - order.begin()));
  for (auto n = order.begin(); n != last; ++n) sorted.push_back(observations[*n]);
  observations = std::move(sorted);
}

// Holes where there should be none: the stream was asked with a path, or for one device of several.
bool DocumentChain::is_filtered(const std::vector<Document>& documents) {
  std::uint64_t expected = documents.empty() ? 0 : documents.front().next_sequence;
  for (std::size_t n = 0; n < documents.size(); ++n) {
    const Document& document = documents[n];
    if (document.sequence_max == 0) {
      if (document.next_sequence > expected) return true;
    } else {
      const bool follows = n > 0 && document.sequence_min >= expected;
      if (document.sequence_max + 1 < document.next_sequence || (follows && document.has_holes())) return true;
    }
    expected = std::max(expected, document.next_sequence);
  }
  return false;
}

// A document that reaches back behind what is known and has holes is a `current`: it tells the state and covers
// nothing.
std::vector<Gap> DocumentChain::gaps_of(std::vector<Document>& documents) {
  std::stable_sort(documents.begin(), documents.end(),
                   [](const Document& a, const Document& b) { return a.next_sequence < b.next_sequence; });
  const bool filtered = is_filtered(documents);
  std::vector<Gap> gaps;
  const Document* before = nullptr;
  for (const Document& document : documents) {
    if (before != nullptr) {
      const std::uint64_t expected = before->next_sequence;
      if (document.sequence_max != 0 && document.sequence_min < expected && document.has_holes()) continue;
      std::uint64_t begin = document.first_sequence;
      if (!filtered && document.sequence_max != 0) begin = std::max(begin, document.sequence_min);
      if (begin > expected) gaps.push_back({document.file, expected, begin, before->last_at, document.first_at});
    }
    before = &document;
  }
  return gaps;
}

void DocumentChain::finish(std::vector<MachineRun>& runs) {
  static constexpr Instant never{std::numeric_limits<std::int64_t>::max()};
  std::stable_sort(instances_.begin(), instances_.end(), [](const Instance& a, const Instance& b) {
    return std::pair(a.began_at.value_or(never), a.id) < std::pair(b.began_at.value_or(never), b.id);
  });
  std::vector<const Instance*> before(runs.size(), nullptr);
  for (Instance& instance : instances_) {
    const std::vector<Gap> gaps = gaps_of(instance.documents);
    for (auto& [machine, ordered] : instance.machines) {
      MachineRun& run = runs[machine];
      ordered.sort();
      const std::size_t begin = run.observations.size();
      append(run.observations, ordered.observations);
      append(run.resets, ordered.resets);
      run.seen.add(instance.seen[machine]);
      run.gaps.insert(run.gaps.end(), gaps.begin(), gaps.end());
      const Instance* const last = before[machine];
      if (last == nullptr) run.source_begins.push_back(begin);
      if (last != nullptr) run.restarts.push_back({instance.file, last->id, instance.id, instance.began_at});
      before[machine] = &instance;
    }
  }
  instances_.clear();
  places_.clear();
}

}  // namespace hw::feeds
