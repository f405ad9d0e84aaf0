#pragma once
// The folder with what a server needs for HTTPS. Each file holds a key and what belongs to it, so that one rename
// changes both; it is readable by its owner only.
//
//   authority.pem   the local authority: its key, its certificate
//   server.pem      what is served: key, certificate, and the certificates above it
//
// A folder whose server.pem is from elsewhere (use_pair) may still have an authority.pem from before; it is not used
// then.

#include <filesystem>
#include <optional>

#include "libs/certificates/certificate.h"
#include "libs/certificates/issue.h"

namespace hw::certificates {

struct TlsFolder {
  std::filesystem::path path;
  std::filesystem::path authority_file() const { return path / "authority.pem"; }
  std::filesystem::path server_file() const { return path / "server.pem"; }
};

struct Served {
  Certificate certificate;
  // The folder's own authority, where it issued the certificate.
  std::optional<Certificate> authority;
  std::string authority_der;
};

// What the folder has for a server. Refuses: not_found (no server.pem), bad_input (it does not read, or it has ended by
// `now`).
Result<Served> read_served(const TlsFolder& folder, Instant now);

struct InitOrder {
  std::vector<HostName> names;  // none: those of the authority
  Instant now;
  int days = server_days;
  bool with_new_authority = false;
};

// Makes folder and authority where they are missing, and a new certificate for the server. Refuses: wrong_usage (no
// names, and no authority that has some), conflict (names that the authority may not vouch for, or it has ended),
// bad_input (the authority does not read), disk_full.
Result<Served> init_folder(const TlsFolder& folder, const InitOrder& order);

// The files of a certificate from elsewhere, both PEM.
struct PairFiles {
  std::filesystem::path certificate;  // with the certificates above it, if there are any
  std::filesystem::path key;
};
// Takes them into the folder. Refuses: not_found, too_large, bad_input (check_pair), disk_full; what was served before
// then stays.
Result<Served> use_pair(const TlsFolder& folder, const PairFiles& files, Instant now);

// True for the last 30 days of a certificate, of a short-lived one for the last third.
bool is_renewal_due(const Certificate& certificate, Instant now);
// Issues a new certificate for the same names and as long a time where the folder's own authority issued the present
// one and its renewal is due. Gives whether it did. Refuses what init_folder refuses.
Result<bool> renew_when_due(const TlsFolder& folder, Instant now);

}  // namespace hw::certificates
