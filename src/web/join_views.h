#pragma once
// What is told of joining, in the fields of api/openapi.yaml.

#include "libs/formats/json_types.h"
#include "libs/formats/qr.h"
#include "src/access/join_codes.h"
#include "src/service/devices.h"
#include "src/web/reach.h"

namespace hw::web {

struct AuthorityView {
  std::string title;
  Instant ends_at;
  std::string fingerprint;  // SHA-256, 64 hexadecimal digits
};
BOOST_DESCRIBE_STRUCT(AuthorityView, (), (title, ends_at, fingerprint))

struct JoinView {
  bool encrypted = false;
  bool this_computer = false;
  formats::OrNull<service::DeviceView> device;
  formats::OrNull<AuthorityView> authority;
  std::vector<std::string> addresses;
};
BOOST_DESCRIBE_STRUCT(JoinView, (), (encrypted, this_computer, device, authority, addresses))

struct QrView {
  int side = 0;      // modules
  std::string path;  // of the dark modules, as SVG has it, one module one unit
};
BOOST_DESCRIBE_STRUCT(QrView, (), (side, path))

struct JoinCodeView {
  std::string code;
  Instant valid_until;
  std::string address;
  QrView qr;
};
BOOST_DESCRIBE_STRUCT(JoinCodeView, (), (code, valid_until, address, qr))

QrView view_of(const formats::QrCode& code);
formats::OrNull<AuthorityView> authority_view(const Reach& reach);
// With the address where the device begins. Refuses (too_large) an address that no code holds.
Result<JoinCodeView> join_code_view(const access::JoinCode& code, const Reach& reach);

}  // namespace hw::web
