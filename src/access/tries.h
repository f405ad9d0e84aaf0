#pragma once
// Makes whoever guesses wait longer after each wrong try, and lets nobody be locked out for good: the wait has an
// upper bound, and a right try ends it.

#include <map>
#include <string>

#include "libs/values/instant.h"

namespace hw::access {

struct TryLimits {
  int free = 3;                                    // wrong tries without a wait
  Duration first_wait = Duration::seconds(1);      // after the next one; each further doubles it
  Duration wait_max = Duration::seconds(15 * 60);  // of which it stays
};

// A place that somebody guesses at: a name, a name at a device. At most 10,000 are kept; the ones that were quiet for
// longest are forgotten first. Not safe for several threads at once.
class Tries {
 public:
  explicit Tries(TryLimits limits) : limits_(limits) {}

  // How long that place has to wait still; zero: it may try. A clock that was set back makes nobody wait longer than
  // the wait itself.
  Duration wait_left(const std::string& place, Instant now);
  void failed(const std::string& place, Instant now);
  void succeeded(const std::string& place) { places_.erase(place); }
  // How many wrong tries came since the last right one.
  int failures(const std::string& place) const;

 private:
  struct Place {
    int failures = 0;
    Instant last;
  };
  Duration wait_after(int failures) const;
  void forget_quietest();

  TryLimits limits_;
  std::map<std::string, Place> places_;
};

}  // namespace hw::access
