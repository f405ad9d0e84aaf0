#pragma once
// A shop that uses up parts, day by day, for trying out rules of ordering: machines of several kinds whose tasks fall
// due by use, stops that are agreed three weeks ahead, failures, and suppliers whose deliveries take now shorter, now
// longer. What happens depends on the seed alone, not on what is in stock. All numbers are invented, of the order that
// is common practice.

#include <cstdint>
#include <optional>
#include <vector>

#include "libs/numerics/random.h"

namespace hw::simulate {

struct StoresPlan {
  std::uint64_t seed = 1;
  int kinds = 4;          // of machines; 15 parts each, 10 of them for tasks and 5 for failures only
  int machines_each = 4;  // of a kind
  int suppliers = 8;
};

struct StoredPart {
  int kind = 0;
  int supplier = 0;
  double price = 0;
  double failures_per_day = 0;  // of all machines together
  double use_per_day = 0;       // expected, by tasks and failures
};

struct PartSupplier {
  double quoted_days = 0;
  double middle_days = 0;  // what it truly takes in the middle
  double scatter = 0;      // standard deviation of the logarithm
};

// A part that a task of a machine takes.
struct Taken {
  std::size_t part = 0;
  double quantity = 1;
};

struct WornTask {
  int machine = 0;
  double interval = 0;  // days of average use
  double left = 0;      // of them
  std::vector<Taken> takes;
  std::optional<int> agreed;  // the day of the stop in which it is done
};

// One need on one day: all that a stop, or a failure, takes.
struct KitTaken {
  bool is_stop = false;
  std::vector<Taken> takes;
};

class StoresFloor {
 public:
  explicit StoresFloor(const StoresPlan& plan);

  const std::vector<StoredPart>& parts() const { return parts_; }
  const std::vector<PartSupplier>& suppliers() const { return suppliers_; }
  // As they stand in the morning of that day: stops that are agreed, and what is left of every interval.
  int day() const { return day_; }
  const std::vector<WornTask>& tasks() const { return tasks_; }

  // What is taken today; the next day begins.
  std::vector<KitTaken> work_a_day();
  // How long an order of that day takes; the same whoever asks.
  int delivery_days(int supplier, int ordered_on) const;

  // A day's use of a machine, in days of average use: mean 1, standard deviation `use_scatter`.
  static constexpr double use_scatter = 0.5;
  static constexpr int notice_days = 21;  // a stop is agreed when its first task has so much left
  static constexpr int joined_days = 10;  // and takes along what has so much more

 private:
  void draw_kind(int kind);
  void draw_task(int kind, std::size_t first_part, const std::vector<int>& places, double interval);
  void agree_stops();

  StoresPlan plan_;
  numerics::Random random_;
  std::vector<StoredPart> parts_;
  std::vector<PartSupplier> suppliers_;
  std::vector<WornTask> tasks_;
  int day_ = 0;
};

}  // namespace hw::simulate
