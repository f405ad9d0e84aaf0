#pragma once
// What has to be cut off, let off or propped before hands go into a machine of a kind: its isolation points and the
// energies that stay stored when it is off. Each text in English and in German. The builder's manual, local codes and
// licensed trades go before all of it; nothing here says that a machine is safe.

#include <optional>
#include <string>
#include <vector>

#include "src/catalogue/work_words.h"

namespace hw::catalogue {

// Where an energy is cut off, locked or propped.
struct IsolationPoint {
  std::string key;  // within its kind
  std::string title;
  std::string title_de;
  EnergySource energy = EnergySource::other;
  std::string where;
  std::string where_de;
  std::string how;
  std::string how_de;
  std::optional<int> point;            // of the machine's plan
  std::optional<double> wait_minutes;  // after switching off; > 0, at most a day; a plate on the machine goes before it
  bool operator==(const IsolationPoint&) const = default;
};

// What is still there when everything is switched off.
struct StoredEnergy {
  EnergySource energy = EnergySource::other;
  std::string title;
  std::string title_de;
  std::string release;  // how it is let off or held
  std::string release_de;
  std::string verify;  // how one sees that it is gone
  std::string verify_de;
  std::optional<double> wait_minutes;  // as of a point
  bool operator==(const StoredEnergy&) const = default;
};

// Of a kind of machine; both empty where nobody has written them down.
struct Isolation {
  std::vector<IsolationPoint> points;
  std::vector<StoredEnergy> stored;
  bool operator==(const Isolation&) const = default;
};

inline constexpr std::size_t isolation_text_max = 600;  // characters
inline constexpr double isolation_wait_minutes_max = 24 * 60;

// Refuse (bad_input, naming the field) an empty text, a text that is too long, and a wait that is not above 0 or longer
// than a day.
Result<void> check(const IsolationPoint& point);
Result<void> check(const StoredEnergy& stored);

}  // namespace hw::catalogue
