#pragma once
// What works and what does not, for GET /readyz.

#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "libs/certificates/certificate.h"
#include "src/service/open_shop.h"

namespace hw::web {

struct Check {
  std::string name;
  std::string result;  // pass, warn, fail
  std::string detail;
};
BOOST_DESCRIBE_STRUCT(Check, (), (name, result, detail))

struct Readiness {
  bool ready = true;
  std::vector<Check> checks;
};
BOOST_DESCRIBE_STRUCT(Readiness, (), (ready, checks))

// Whether what is served over TLS lasts: a warning in its last 14 days.
Check certificate_check(const certificates::Certificate& certificate, Instant now);

// The storage answers and takes what is counted, the feeds are live, the app's pages are there. A lost feed is a
// warning: the server serves all the same. `app_files` is the number of the app's files.
Readiness readiness_of(const service::OpenShop& shop, std::size_t app_files);

}  // namespace hw::web
