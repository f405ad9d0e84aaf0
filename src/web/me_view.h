#pragma once
// Who asks, in the fields of api/openapi.yaml.

#include "src/web/access_routes.h"

namespace hw::web {

using formats::OrNull;

enum class CallerWay { password, pin, link, token };
BOOST_DESCRIBE_ENUM(CallerWay, password, pin, link, token)

struct MeView {
  OrNull<std::string> name;
  OrNull<access::Role> role;
  std::vector<std::string> permissions;
  OrNull<service::MachineKeys> machines;
  OrNull<LocalDate> until;
  OrNull<CallerWay> way;
  OrNull<std::string> session;
  bool has_password = false;
  bool has_pin = false;
  bool has_second_factor = false;
  bool needs_second_factor = false;
  bool can_sign_in = false;
  bool is_open_line = false;
  std::vector<std::string> pin_people;
};
BOOST_DESCRIBE_STRUCT(MeView, (),
                      (name, role, permissions, machines, until, way, session, has_password, has_pin, has_second_factor,
                       needs_second_factor, can_sign_in, is_open_line, pin_people))

// Nobody where there is no caller.
MeView me_view(const AccessParts& parts, const http::Request& request, const std::optional<service::Caller>& caller);

// Passwords that come over this line can be read on the way: it is not encrypted and comes from elsewhere.
bool is_open_line(const http::Request& request);
// Refuses (not_allowed, open-line) such a line, where a password would come: it is not even looked at.
Result<void> check_line(const http::Request& request);

// Words that stand near everybody here, of which no password is to be made.
std::vector<std::string> words_near(const service::OpenShop& shop);

// Answers with a secret in them, or about who asks, stay in no cache.
http::Response not_kept(http::Response response);

}  // namespace hw::web
