#include "src/counters/hour_display.h"

#include <cmath>

#include <fmt/format.h>

namespace hw::counters {
namespace {

double tenths(double hours) { return std::round(10 * hours) / 10; }

struct Sentence {
  std::string says;
  std::string code;
  std::map<std::string, double> numbers;
};

DisplayVerdict with(DisplayVerdict verdict, Sentence sentence) {
  for (auto& [name, hours] : sentence.numbers) hours = tenths(hours);
  verdict.says = std::move(sentence.says);
  verdict.saying = {std::move(sentence.code), {}, std::move(sentence.numbers)};
  return verdict;
}

DisplayVerdict does_not_fit(DisplayVerdict verdict, Sentence sentence) {
  verdict.fits = false;
  return with(std::move(verdict), std::move(sentence));
}

}  // namespace

DisplayVerdict judge(const std::optional<DisplayReading>& before, const DisplayReading& now) {
  DisplayVerdict verdict;
  verdict.offset_h = now.display_h - now.counted_h;
  if (!before) {
    verdict.difference_h = verdict.offset_h;
    return with(verdict, {fmt::format("first reading: the display is {:.1f} h ahead of the counter", verdict.offset_h),
                          "display-first",
                          {{"hours", verdict.offset_h}}});
  }
  const double rise = now.display_h - before->display_h;
  const double counted = now.counted_h - before->counted_h;
  const double unknown = now.unknown_h - before->unknown_h;
  const double elapsed = (now.at - before->at).as_hours();
  verdict.difference_h = rise - counted;
  if (elapsed < 0)
    return does_not_fit(verdict, {"it was read before the reading that is already here", "display-before", {}});
  if (rise < -display_rounding_h) {
    return does_not_fit(verdict, {fmt::format("the display fell by {:.1f} h since the reading before", -rise),
                                  "display-fell",
                                  {{"hours", -rise}}});
  }
  if (rise > elapsed + display_rounding_h) {
    return does_not_fit(verdict, {fmt::format("the display rose by {:.1f} h in {:.1f} h", rise, elapsed),
                                  "display-fast",
                                  {{"rise", rise}, {"elapsed", elapsed}}});
  }
  const double allowed = display_rounding_h + display_share_max * counted;
  if (verdict.difference_h > unknown + allowed || verdict.difference_h < -allowed) {
    return does_not_fit(
        verdict, {fmt::format("the display rose by {:.1f} h, the counter by {:.1f} h with {:.1f} h unknown", rise,
                              counted, unknown),
                  "display-differs",
                  {{"rise", rise}, {"counted", counted}, {"unknown", unknown}}});
  }
  return with(verdict, {fmt::format("the display rose by {:.1f} h, the counter by {:.1f} h", rise, counted),
                        "display-fits",
                        {{"rise", rise}, {"counted", counted}}});
}

}  // namespace hw::counters
