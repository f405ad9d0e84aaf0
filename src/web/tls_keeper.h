#pragma once
// Keeps what is served over TLS fresh: renews the local authority's certificate in time, and serves another one as soon
// as it lies in the folder, without a restart. What does not fit is reported once, and what was served before stays.

#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

#include "src/web/api.h"
#include "src/web/reach.h"
#include "src/web/web_options.h"

namespace hw::web {

using Report = std::function<void(std::string_view)>;

// What the folder has, renewed first where that is due; a renewal that fails is reported while the certificate lasts.
// Refuses what read_served refuses, with the command that makes one.
Result<certificates::Served> fresh_served(const certificates::TlsFolder& folder, Instant now, const Report& report);

struct TlsParts {
  TlsOptions options;
  Clock clock;
  Report report;
  std::function<Result<void>()> reload;  // the listener reads the folder's file again
  Reach& reach;
};

class TlsKeeper {
 public:
  explicit TlsKeeper(TlsParts parts);
  ~TlsKeeper();  // stops
  TlsKeeper(const TlsKeeper&) = delete;
  TlsKeeper& operator=(const TlsKeeper&) = delete;

 private:
  struct Mark {
    std::filesystem::file_time_type written_at;
    std::uintmax_t bytes = 0;
    bool operator==(const Mark&) const = default;
  };
  Mark mark_now() const;
  void run();
  void look();
  Result<void> serve_anew(Instant now);

  TlsParts parts_;
  Mark mark_;
  Instant renew_at_;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool is_stopping_ = false;
  std::thread thread_;
};

}  // namespace hw::web
