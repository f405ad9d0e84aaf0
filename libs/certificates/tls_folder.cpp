#include "libs/certificates/tls_folder.h"

#include <algorithm>

#include <sys/stat.h>

#include "libs/values/whole_file.h"

namespace hw::certificates {
namespace {

namespace fs = std::filesystem;

constexpr Duration renewal_before = Duration::hours(24 * 30);

Result<KeyedCertificate> read_authority(const TlsFolder& folder) {
  HW_TAKE(text, read_whole_file(folder.authority_file()));
  return KeyedCertificate{text, text};
}

Result<KeyedCertificate> new_authority(const TlsFolder& folder, const InitOrder& order) {
  if (order.names.empty()) {
    return refuse(ErrorCode::wrong_usage, "--name NAME: say by which name or address phones reach this computer");
  }
  KeyedCertificate authority = make_authority({order.names, order.now, authority_days});
  HW_TRY(write_whole_file(folder.authority_file(), authority.key_pem + authority.certificate_pem, ReadableBy::owner));
  return authority;
}

Result<KeyedCertificate> authority_for(const TlsFolder& folder, const InitOrder& order) {
  std::error_code error;
  const bool is_there = fs::exists(folder.authority_file(), error);
  return is_there && !order.with_new_authority ? read_authority(folder) : new_authority(folder, order);
}

Result<void> write_server(const TlsFolder& folder, const KeyedCertificate& pair, std::string_view above) {
  return write_whole_file(folder.server_file(), fmt::format("{}{}{}", pair.key_pem, pair.certificate_pem, above),
                          ReadableBy::owner);
}

Result<void> make_folder(const TlsFolder& folder) {
  if (::mkdir(folder.path.c_str(), 0700) == 0 || errno == EEXIST) return {};
  return refuse(ErrorCode::disk_full, "{}: the folder cannot be made", folder.path.string());
}

Result<Served> served_of(const TlsFolder& folder, const std::string& server) {
  Served served;
  HW_TAKE(certificate, read_certificate(server));
  served.certificate = std::move(certificate);
  const auto authority = read_authority(folder);
  if (!authority || !is_issued({server, authority->certificate_pem})) return served;
  HW_TAKE(own, read_certificate(authority->certificate_pem));
  HW_TAKE(der, der_of(authority->certificate_pem));
  served.authority = std::move(own);
  served.authority_der = std::move(der);
  return served;
}

}  // namespace

Result<Served> read_served(const TlsFolder& folder, Instant now) {
  const fs::path file = folder.server_file();
  HW_TAKE(server, read_whole_file(file));
  if (auto checked = check_pair({server, server}, now); !checked) return refuse(checked.error().at(file.string()));
  return served_of(folder, server);
}

Result<Served> init_folder(const TlsFolder& folder, const InitOrder& order) {
  HW_TRY(make_folder(folder));
  HW_TAKE(authority, authority_for(folder, order));
  HW_TAKE(authority_read, read_certificate(authority.certificate_pem));
  const auto& names = order.names.empty() ? authority_read.permitted : order.names;
  HW_TAKE(pair, issue_server_certificate(authority, {names, order.now, order.days}));
  HW_TAKE(above, certificates_of(authority.certificate_pem));
  HW_TRY(write_server(folder, pair, above));
  return read_served(folder, order.now);
}

Result<Served> use_pair(const TlsFolder& folder, const PairFiles& files, Instant now) {
  HW_TAKE(certificate, read_whole_file(files.certificate));
  HW_TAKE(key, read_whole_file(files.key));
  if (auto checked = check_pair({certificate, key}, now); !checked) {
    return refuse(checked.error().at(fmt::format("{}, {}", files.certificate.string(), files.key.string())));
  }
  HW_TAKE(chain, certificates_of(certificate));
  HW_TAKE(only_key, key_of(key));
  HW_TRY(make_folder(folder));
  HW_TRY(write_server(folder, {only_key, chain}, ""));
  return read_served(folder, now);
}

bool is_renewal_due(const Certificate& certificate, Instant now) {
  const Duration life = certificate.ends_at - certificate.begins_at;
  return certificate.ends_at - now < std::min(renewal_before, Duration{life.ns / 3});
}

Result<bool> renew_when_due(const TlsFolder& folder, Instant now) {
  HW_TAKE(server, read_whole_file(folder.server_file()));
  HW_TAKE(served, served_of(folder, server));
  if (!served.authority || !is_renewal_due(served.certificate, now)) return false;
  const Duration life = served.certificate.ends_at - served.certificate.begins_at - begins_early;
  const int days = static_cast<int>(life.ns / Duration::hours(24).ns);
  HW_TRY(init_folder(folder, {served.certificate.names, now, std::max(days, 1)}));
  return true;
}

}  // namespace hw::certificates
