#include "src/web/tls_keeper.h"

#include <chrono>

namespace hw::web {
namespace {

constexpr Duration renewal_looked_for_every = Duration::hours(24);

// What to do where there is nothing to serve, or nothing that can be served.
Error with_remedy(const Error& error, const certificates::TlsFolder& folder) {
  const std::string data = folder.path.parent_path().string();
  return {error.code, fmt::format("--listen-tls: {}; hourwright tls init --data {} --name NAME makes a certificate, "
                                  "hourwright tls use --data {} CERT KEY takes your own",
                                  error.message, data, data)};
}

}  // namespace

Result<certificates::Served> fresh_served(const certificates::TlsFolder& folder, Instant now, const Report& report) {
  const auto renewed = certificates::renew_when_due(folder, now);
  auto served = certificates::read_served(folder, now);
  if (!served) return refuse(with_remedy(served.error(), folder));
  if (!renewed) {
    report(fmt::format("the certificate for HTTPS ends on {} and cannot be renewed: {}",
                       print(served->certificate.ends_at).substr(0, 10), renewed.error().message));
  }
  return served;
}

TlsKeeper::TlsKeeper(TlsParts parts)
    : parts_(std::move(parts)), mark_(mark_now()), renew_at_(parts_.clock() + renewal_looked_for_every) {
  thread_ = std::thread([this] { run(); });
}

TlsKeeper::~TlsKeeper() {
  {
    const std::lock_guard lock(mutex_);
    is_stopping_ = true;
  }
  wake_.notify_all();
  thread_.join();
}

TlsKeeper::Mark TlsKeeper::mark_now() const {
  std::error_code error;
  const auto file = parts_.options.folder.server_file();
  Mark mark;
  mark.written_at = std::filesystem::last_write_time(file, error);
  mark.bytes = error ? 0 : std::filesystem::file_size(file, error);
  return mark;
}

void TlsKeeper::run() {
  const auto pause = std::chrono::nanoseconds(parts_.options.look_every.ns);
  std::unique_lock lock(mutex_);
  while (!wake_.wait_for(lock, pause, [this] { return is_stopping_; })) {
    lock.unlock();
    look();
    lock.lock();
  }
}

void TlsKeeper::look() {
  const Instant now = parts_.clock();
  if (now >= renew_at_) {
    renew_at_ = now + renewal_looked_for_every;
    if (const auto renewed = certificates::renew_when_due(parts_.options.folder, now); !renewed) {
      parts_.report(fmt::format("the certificate for HTTPS cannot be renewed: {}", renewed.error().message));
    }
  }
  const Mark mark = mark_now();
  if (mark == mark_) return;
  mark_ = mark;
  if (const auto served = serve_anew(now); !served) {
    parts_.report(fmt::format("the certificate for HTTPS stays as it was: {}", served.error().message));
  }
}

Result<void> TlsKeeper::serve_anew(Instant now) {
  HW_TAKE(served, certificates::read_served(parts_.options.folder, now));
  HW_TRY(parts_.reload());
  parts_.reach.set_served(served);
  return {};
}

}  // namespace hw::web
