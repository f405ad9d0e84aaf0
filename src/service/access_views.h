#pragma once
// What is told about access, in the fields of api/openapi.yaml.

#include <optional>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "src/service/access_rows.h"

namespace hw::service {

// A link's or token's secret goes beside its view, once.
struct LinkView {
  std::string name;
  access::Role role = access::Role::viewer;
  Instant valid_until;
};
BOOST_DESCRIBE_STRUCT(LinkView, (), (name, role, valid_until))

struct SessionView {
  std::string id;
  SignInWay way = SignInWay::password;
  formats::OrNull<std::string> device;
  Instant begun_at;
  Instant seen_at;
  Instant ends_at;
  bool is_this = false;
};
BOOST_DESCRIBE_STRUCT(SessionView, (), (id, way, device, begun_at, seen_at, ends_at, is_this))

struct SessionsView {
  std::vector<SessionView> sessions;
};
BOOST_DESCRIBE_STRUCT(SessionsView, (), (sessions))

struct AccountView {
  std::string name;
  access::Role role = access::Role::viewer;
  formats::OrNull<MachineKeys> machines;
  formats::OrNull<LocalDate> until;
  std::string made_by;
  Instant made_at;
  formats::OrNull<Instant> ended_at;
  bool has_password = false;
  bool has_pin = false;
  bool has_second_factor = false;
  formats::OrNull<Instant> link_until;
  formats::OrNull<Instant> seen_at;
  int sessions = 0;
};
BOOST_DESCRIBE_STRUCT(AccountView, (),
                      (name, role, machines, until, made_by, made_at, ended_at, has_password, has_pin,
                       has_second_factor, link_until, seen_at, sessions))

struct AccountsView {
  std::vector<AccountView> accounts;
  bool second_factor_demanded = false;
  std::vector<access::Role> office_roles;  // of whom
};
BOOST_DESCRIBE_STRUCT(AccountsView, (), (accounts, second_factor_demanded, office_roles))

struct TokenView {
  std::string id;
  std::string title;
  access::Role role = access::Role::viewer;
  std::vector<std::string> permissions;
  formats::OrNull<MachineKeys> machines;
  std::string made_by;
  Instant made_at;
  Instant ends_at;
  formats::OrNull<LocalDate> used_on;
  formats::OrNull<Instant> ended_at;
  formats::OrNull<std::string> ended_by;
};
BOOST_DESCRIBE_STRUCT(TokenView, (),
                      (id, title, role, permissions, machines, made_by, made_at, ends_at, used_on, ended_at, ended_by))

struct TokensView {
  std::vector<TokenView> tokens;
};
BOOST_DESCRIBE_STRUCT(TokensView, (), (tokens))

struct AccessNotesView {
  std::vector<AccessNote> notes;
};
BOOST_DESCRIBE_STRUCT(AccessNotesView, (), (notes))

}  // namespace hw::service
