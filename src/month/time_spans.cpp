#include "src/month/time_spans.h"

#include <algorithm>

namespace hw::month {

TimeSpans united(TimeSpans spans) {
  std::erase_if(spans, [](const TimeSpan& one) { return one.begins_at >= one.ends_at; });
  std::sort(spans.begin(), spans.end(), [](const auto& a, const auto& b) { return a.begins_at < b.begins_at; });
  TimeSpans out;
  for (const TimeSpan& one : spans) {
    if (!out.empty() && one.begins_at <= out.back().ends_at) {
      out.back().ends_at = std::max(out.back().ends_at, one.ends_at);
    } else {
      out.push_back(one);
    }
  }
  return out;
}

TimeSpans within(const TimeSpans& spans, const TimeSpan& one) { return overlap(spans, {one}); }

TimeSpans overlap(const TimeSpans& a, const TimeSpans& b) {
  const TimeSpans first = united(a);
  const TimeSpans second = united(b);
  TimeSpans out;
  for (auto i = first.begin(), j = second.begin(); i != first.end() && j != second.end();) {
    const TimeSpan both{std::max(i->begins_at, j->begins_at), std::min(i->ends_at, j->ends_at)};
    if (both.begins_at < both.ends_at) out.push_back(both);
    if (i->ends_at < j->ends_at) {
      ++i;
    } else {
      ++j;
    }
  }
  return out;
}

TimeSpans without(const TimeSpans& a, const TimeSpans& b) {
  const TimeSpans taken = overlap(a, b);
  TimeSpans out;
  for (const TimeSpan& one : united(a)) {
    Instant from = one.begins_at;
    for (const TimeSpan& gone : taken) {
      if (gone.ends_at <= one.begins_at || gone.begins_at >= one.ends_at) continue;
      out.push_back({from, gone.begins_at});
      from = gone.ends_at;
    }
    out.push_back({from, one.ends_at});
  }
  return united(std::move(out));
}

double hours_of(const TimeSpans& spans) {
  Duration sum;
  for (const TimeSpan& one : spans) sum = sum + (one.ends_at - one.begins_at);
  return sum.as_hours();
}

}  // namespace hw::month
