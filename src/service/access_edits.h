#pragma once
// What people enter about access, in the fields of api/openapi.yaml.

#include <optional>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "src/service/access_rows.h"

namespace hw::service {

struct Nothing {};
BOOST_DESCRIBE_STRUCT(Nothing, (), ())

struct SignInEdit {
  std::string name;
  std::string password;
  std::optional<std::string> code;
};
BOOST_DESCRIBE_STRUCT(SignInEdit, (), (name, password, code))

struct PinSignInEdit {
  std::string name;
  std::string pin;
};
BOOST_DESCRIBE_STRUCT(PinSignInEdit, (), (name, pin))

struct LinkSecret {
  std::string secret;
};
BOOST_DESCRIBE_STRUCT(LinkSecret, (), (secret))

struct LinkEdit {
  std::string secret;
  std::optional<std::string> password;
  std::optional<std::string> pin;
};
BOOST_DESCRIBE_STRUCT(LinkEdit, (), (secret, password, pin))

struct PasswordEdit {
  std::string now;
  std::string password;
};
BOOST_DESCRIBE_STRUCT(PasswordEdit, (), (now, password))

struct PinEdit {
  std::string now;
  std::string pin;
};
BOOST_DESCRIBE_STRUCT(PinEdit, (), (now, pin))

struct NowEdit {
  std::string now;
};
BOOST_DESCRIBE_STRUCT(NowEdit, (), (now))

struct CodeEdit {
  std::string code;
};
BOOST_DESCRIBE_STRUCT(CodeEdit, (), (code))

struct AccountEdit {
  std::string name;
  access::Role role = access::Role::viewer;
  std::optional<MachineKeys> machines;
  std::optional<LocalDate> until;
};
BOOST_DESCRIBE_STRUCT(AccountEdit, (), (name, role, machines, until))

struct NameEdit {
  std::string name;
};
BOOST_DESCRIBE_STRUCT(NameEdit, (), (name))

struct SecondFactorRule {
  bool demanded = false;
};
BOOST_DESCRIBE_STRUCT(SecondFactorRule, (), (demanded))

struct TokenEdit {
  std::string title;
  access::Role role = access::Role::viewer;
  std::optional<std::vector<std::string>> permissions;
  std::optional<MachineKeys> machines;
  int days = 0;
};
BOOST_DESCRIBE_STRUCT(TokenEdit, (), (title, role, permissions, machines, days))

}  // namespace hw::service
