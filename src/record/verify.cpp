#include "src/record/verify.h"

#include <algorithm>
#include <deque>

#include <fmt/format.h>

namespace hw::record {
namespace {

// "entry 5", "entries 5 to 7".
std::string entries(std::int64_t first, std::int64_t last) {
  return first == last ? fmt::format("entry {}", first) : fmt::format("entries {} to {}", first, last);
}

std::string_view are(std::int64_t first, std::int64_t last) { return first == last ? "is" : "are"; }

}  // namespace

void Verifier::take(SealedEntry entry) {
  const std::string seal_now = seal(entry.previous_hash, canonical_bytes(entry.ordinal, entry.fields));
  Row row{entry.ordinal, entry.ordinal, std::move(entry.previous_hash), std::move(entry.hash), true, {}, {}};
  if (seal_now != row.hash) {
    row.is_sealed = false;
    row.seal_now = seal_now;
    row.fields = std::move(entry.fields);
  }
  rows_.push_back(std::move(row));
}

// Whether the row was sealed for that place.
bool Verifier::settle(Row& row, std::int64_t written_ordinal) {
  if (row.is_sealed) return false;
  row.is_sealed = seal(row.previous_hash, canonical_bytes(written_ordinal, row.fields)) == row.hash;
  if (row.is_sealed) row.written_ordinal = written_ordinal;
  return row.is_sealed;
}

// A row that does not fit its place may fit another: behind the row whose hash it names. What is found so lets the row
// that names its hash be found in turn.
void Verifier::follow(const Waiting& waiting, std::string_view hash, std::int64_t written_ordinal) {
  std::deque<std::pair<std::string_view, std::int64_t>> found{{hash, written_ordinal}};
  for (; !found.empty(); found.pop_front()) {
    const auto [begin, end] = waiting.equal_range(found.front().first);
    for (auto one = begin; one != end; ++one) {
      Row& row = *one->second;
      if (settle(row, found.front().second + 1)) found.emplace_back(row.hash, row.written_ordinal);
    }
  }
}

// Where the row before is missing, the first that moved is looked for some places around.
void Verifier::find_moved() {
  constexpr std::int64_t places_max = 8;
  Waiting waiting;
  for (Row& row : rows_) {
    if (!row.is_sealed) waiting.emplace(row.previous_hash, &row);
  }
  if (waiting.empty()) return;
  follow(waiting, first_previous_hash(), 0);
  for (const Row& row : rows_) {
    if (row.is_sealed) follow(waiting, row.hash, row.written_ordinal);
  }
  for (Row& row : rows_) {
    for (std::int64_t places = 1; places <= places_max && !row.is_sealed; ++places) {
      if (settle(row, row.ordinal + places) || settle(row, row.ordinal - places)) {
        follow(waiting, row.hash, row.written_ordinal);
      }
    }
  }
}

std::string_view Verifier::hash_before(std::size_t index) const {
  return index == 0 ? std::string_view(first_previous_hash()) : std::string_view(rows_[index - 1].hash);
}

void Verifier::judge_place(std::size_t index) {
  const std::int64_t before = ordinal_before(index);
  const std::int64_t ordinal = rows_[index].ordinal;
  if (ordinal > before + 1) {
    name(BreakKind::missing, before + 1,
         fmt::format("{} {} missing", entries(before + 1, ordinal - 1), are(before + 1, ordinal - 1)));
  } else if (ordinal <= before) {
    name(BreakKind::put_in, ordinal, fmt::format("entry {} was put in: there is no place for it", ordinal));
  }
}

// Of a row that is not what was sealed: one of the two hashes, if the rows beside it show that, or the rest.
std::string_view Verifier::altered_part(std::size_t index, const std::optional<Head>& head) const {
  const Row& row = rows_[index];
  if (seal(hash_before(index), canonical_bytes(row.ordinal, row.fields)) == row.hash) {
    return "its link to the entry before was altered, the rest is as it was sealed";
  }
  const bool is_last = index + 1 == rows_.size();
  const bool is_known = is_last ? head && head->hash == row.seal_now : rows_[index + 1].previous_hash == row.seal_now;
  if (is_known) return "its hash was altered, the rest is as it was sealed";
  return "it is not what was sealed (which field was altered cannot be known)";
}

void Verifier::judge_seal(std::size_t index, const std::optional<Head>& head) {
  const Row& row = rows_[index];
  if (row.is_sealed) return;
  name(BreakKind::altered, row.ordinal,
       fmt::format("entry {} was altered: {}", row.ordinal, altered_part(index, head)));
}

// Only where nothing else is named of the two rows that would break the link as well.
void Verifier::judge_link(std::size_t index) {
  const Row& row = rows_[index];
  const bool has_gap = row.ordinal != ordinal_before(index) + 1;
  if (has_gap || !row.is_sealed || row.is_moved()) return;
  if (index > 0 && (rows_[index - 1].is_moved() || rows_[index - 1].has_hash(row.previous_hash))) return;
  if (index == 0 && row.previous_hash == first_previous_hash()) return;
  name(BreakKind::unlinked, row.ordinal,
       index == 0
           ? std::string("entry 1 was not written as the first: those before it were taken out")
           : fmt::format("entry {} was not written behind entry {} as that is now: that one was altered or put in "
                         "and sealed anew",
                         row.ordinal, row.ordinal - 1));
}

// Rows that moved by as many places, one behind the other, are one break.
void Verifier::name_moved(std::size_t index) {
  const auto shift_of = [](const Row& row) { return row.ordinal - row.written_ordinal; };
  const Row& first = rows_[index];
  if (!first.is_moved()) return;
  if (index > 0 && shift_of(rows_[index - 1]) == shift_of(first)) return;
  std::size_t last = index;
  while (last + 1 < rows_.size() && shift_of(rows_[last + 1]) == shift_of(first)) ++last;
  name(BreakKind::moved, first.ordinal,
       fmt::format("{} {} in the wrong place: written as {}", entries(first.ordinal, rows_[last].ordinal),
                   are(first.ordinal, rows_[last].ordinal),
                   entries(first.written_ordinal, rows_[last].written_ordinal)));
}

void Verifier::judge_head(const std::optional<Head>& head) {
  const std::int64_t last = rows_.empty() ? 0 : rows_.back().ordinal;
  if (!head) return name(BreakKind::head, last, "the head is missing: what was cut off at the end cannot be known");
  if (head->ordinal > last) {
    return name(BreakKind::missing, last + 1,
                fmt::format("{} {} missing at the end: by the head entry {} is the newest",
                            entries(last + 1, head->ordinal), are(last + 1, head->ordinal), head->ordinal));
  }
  if (head->ordinal < last) {
    return name(BreakKind::head, head->ordinal + 1,
                fmt::format("{} {} behind the head: by the head entry {} is the newest",
                            entries(head->ordinal + 1, last), are(head->ordinal + 1, last), head->ordinal));
  }
  const bool fits = rows_.empty() ? head->hash == first_previous_hash()
                                  : std::any_of(rows_.rbegin(), rows_.rend(), [&](const Row& row) {
                                      return row.written_ordinal == last && row.has_hash(head->hash);
                                    });
  if (fits) return;
  name(
      BreakKind::head, last,
      fmt::format("the head's hash is not that of entry {}: the head was altered, or the entry was sealed anew", last));
}

void Verifier::name(BreakKind kind, std::int64_t entry, std::string says) {
  breaks_.push_back({kind, entry, std::move(says)});
}

Verdict Verifier::end(const std::optional<Head>& head, const std::optional<std::string>& noted) {
  find_moved();
  for (std::size_t index = 0; index < rows_.size(); ++index) {
    judge_place(index);
    judge_seal(index, head);
    judge_link(index);
    name_moved(index);
  }
  judge_head(head);
  const bool is_found = !noted || noted == first_previous_hash() ||
                        std::any_of(rows_.begin(), rows_.end(), [&](const Row& row) { return row.hash == *noted; });
  if (!is_found) {
    name(
        BreakKind::noted, 0,
        fmt::format("no entry has the noted hash {}: what was there then was altered and sealed anew since, or cut off",
                    *noted));
  }
  const auto count = static_cast<std::int64_t>(rows_.size());
  return {count, head ? head->hash : first_previous_hash(), std::move(breaks_), {}};
}

}  // namespace hw::record
