#pragma once
// What works and what does not, for GET /readyz.

#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "libs/certificates/certificate.h"
#include "src/service/check.h"
#include "src/service/open_shop.h"

namespace hw::web {

using service::Check;

struct Readiness {
  bool ready = true;
  std::vector<Check> checks;
};
BOOST_DESCRIBE_STRUCT(Readiness, (), (ready, checks))

// Whether what is served over TLS lasts: a warning in its last 14 days.
Check certificate_check(const certificates::Certificate& certificate, Instant now);

// The storage answers and takes what is counted, the feeds are live, the app's pages are there, copies are made. A lost
// feed is a warning, and so is a copy that is old, failed or never made: the server serves all the same. `app_files` is
// the number of the app's files.
Readiness readiness_of(const service::OpenShop& shop, std::size_t app_files, Instant now);

}  // namespace hw::web
