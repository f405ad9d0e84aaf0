#pragma once
// What the service tells of parts' lives, in the words and fields of api/openapi.yaml: one struct for one schema there.
// Intervals and ages are in the part's unit, rates in money per unit of it.

#include <optional>
#include <string>
#include <vector>

#include "src/service/edits.h"
#include "src/service/views.h"

namespace hw::service {

// What a reader is told in a sentence.
struct RemarkView {
  Saying saying;
  std::string says;
};
BOOST_DESCRIBE_STRUCT(RemarkView, (), (saying, says))

struct MoveView {
  double interval = 0;
  double rate_now = 0;
  double rate_then = 0;
  double saving_per_year = 0;  // over all machines of the kind; below 0: it costs
  double saving_5 = 0;
  double saving_95 = 0;
  double chance = 0;  // that it saves anything
};
BOOST_DESCRIBE_STRUCT(MoveView, (), (interval, rate_now, rate_then, saving_per_year, saving_5, saving_95, chance))

struct PartView {
  std::string kind;
  std::string task;
  std::string title;
  std::string work;
  std::optional<std::string> counter;  // nothing: days
  std::string unit;
  int machines = 0;
  std::optional<double> interval;  // the middle one, where it counts on a counter
  std::optional<std::string> demanded_by;
  int lives = 0;
  int failures = 0;
  int running = 0;
  int left_out = 0;
  std::optional<RemarkView> refused;  // why there is no fit, or no proposal
  std::optional<double> best;         // of all intervals; nothing beside a move: run to failure
  std::optional<MoveView> move;       // that is proposed
  bool is_held_back = false;          // the best lies beyond what the lives have shown
  bool is_worth_saying = false;
};
BOOST_DESCRIBE_STRUCT(PartView, (),
                      (kind, task, title, work, counter, unit, machines, interval, demanded_by, lives, failures,
                       running, left_out, refused, best, move, is_held_back, is_worth_saying))

struct PartsView {
  Instant now;
  std::string currency;
  std::vector<PartView> parts;
};
BOOST_DESCRIBE_STRUCT(PartsView, (), (now, currency, parts))

struct PartPlaceView {
  std::string machine;
  int version = 1;
  std::optional<double> interval;
  double per_year = 0;  // of the counter
};
BOOST_DESCRIBE_STRUCT(PartPlaceView, (), (machine, version, interval, per_year))

struct SeenLifeView {
  std::string machine;
  std::optional<std::string> entry;
  std::optional<Instant> ended_at;
  std::optional<AsFound> found;
  double lower = 0;
  std::optional<double> upper;  // nothing: still good at `lower`
};
BOOST_DESCRIBE_STRUCT(SeenLifeView, (), (machine, entry, ended_at, found, lower, upper))

struct LeftOutView {
  std::string machine;
  std::string entry;
  Instant at;
  std::string why;
};
BOOST_DESCRIBE_STRUCT(LeftOutView, (), (machine, entry, at, why))

struct SurvivalPointView {
  double age = 0;
  double survival = 1;
  std::optional<double> lower;
  std::optional<double> upper;
};
BOOST_DESCRIBE_STRUCT(SurvivalPointView, (), (age, survival, lower, upper))

struct EndsView {
  double lower = 0;
  std::optional<double> upper;  // nothing: no end
};
BOOST_DESCRIBE_STRUCT(EndsView, (), (lower, upper))

struct OtherFitView {
  std::string name;
  double loglik = 0;
  double aic = 0;
};
BOOST_DESCRIBE_STRUCT(OtherFitView, (), (name, loglik, aic))

struct LifeFitView {
  double shape = 0;
  double scale = 0;
  EndsView shape_range;
  EndsView scale_range;
  double b10 = 0;
  EndsView b10_range;
  std::optional<double> mean;
  std::vector<OtherFitView> compared;    // the Weibull first
  std::vector<SurvivalPointView> curve;  // of the fit, with its 95 % band
  std::vector<RemarkView> cautions;
};
BOOST_DESCRIBE_STRUCT(LifeFitView, (),
                      (shape, scale, shape_range, scale_range, b10, b10_range, mean, compared, curve, cautions))

struct PartCostView {
  double labour = 0, standing = 0, parts = 0, set_up_share = 0, set_up = 0, failed_standing = 0, failed_damage = 0;
  double planned = 0, failed = 0;
  bool is_hours_assumed = false;
  bool is_parts_unknown = false;
  bool is_asked = false;  // planned and failed are those that were asked for
};
BOOST_DESCRIBE_STRUCT(PartCostView, (),
                      (labour, standing, parts, set_up_share, set_up, failed_standing, failed_damage, planned, failed,
                       is_hours_assumed, is_parts_unknown, is_asked))

struct CostPointView {
  double interval = 0;
  double rate = 0;
  double rate_5 = 0;
  double rate_95 = 0;
};
BOOST_DESCRIBE_STRUCT(CostPointView, (), (interval, rate, rate_5, rate_95))

struct BestRangeView {
  std::optional<double> best_5, best_50, best_95;  // nothing: run to failure
};
BOOST_DESCRIBE_STRUCT(BestRangeView, (), (best_5, best_50, best_95))

struct PartStudyView {
  Instant now;
  std::string currency;
  PartView part;
  PartCostView costs;
  std::vector<PartPlaceView> places;
  std::vector<SeenLifeView> lives;
  std::vector<LeftOutView> left_out;
  std::string survival_method;  // Kaplan-Meier, Turnbull
  std::vector<SurvivalPointView> survival;
  std::optional<LifeFitView> fit;
  std::vector<CostPointView> cost_curve;
  std::optional<double> run_to_failure;  // its rate
  std::optional<BestRangeView> best_range;
  std::optional<MoveView> asked;  // a move to the interval that was asked for
};
BOOST_DESCRIBE_STRUCT(PartStudyView, (),
                      (now, currency, part, costs, places, lives, left_out, survival_method, survival, fit, cost_curve,
                       run_to_failure, best_range, asked))

// What a person wants to see a part under, beside what the shop says.
struct PartQuery {
  std::optional<double> planned;   // cost of a planned replacement
  std::optional<double> failed;    // cost of one after a failure
  std::optional<double> interval;  // to which a move is to be judged
};

struct SeenPlace {
  std::string machine;
  int version = 0;  // of its task, as the person saw it
};
BOOST_DESCRIBE_STRUCT(SeenPlace, (), (machine, version))

struct IntervalEdit : Signature {
  double interval = 0;
  std::vector<SeenPlace> places;  // whose interval is moved
  std::string why;
  std::optional<double> planned;  // as it was judged under
  std::optional<double> failed;
  std::optional<std::string> despite;  // why an interval is lengthened that safety, law or warranty demands
};
BOOST_DESCRIBE_STRUCT(IntervalEdit, (Signature), (interval, places, why, planned, failed, despite))

struct IntervalMovedView {
  std::vector<EntryView> entries;
};
BOOST_DESCRIBE_STRUCT(IntervalMovedView, (), (entries))

}  // namespace hw::service
