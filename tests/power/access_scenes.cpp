#include "tests/power/access_scenes.h"

#include <algorithm>

#include <sodium.h>

#include "libs/passwords/one_time_code.h"
#include "src/access/session_limits.h"
#include "src/service/accounts.h"
#include "src/service/own_access.h"
#include "src/service/tokens.h"

namespace hw::power {
namespace {

using access::Role;
using service::AccessBook;

constexpr const char* first_password = "three blue mills at noon";
constexpr const char* second_password = "four green mills at dawn";
const service::SignInPlace desk{"127.0.0.1", {}};
const service::SignInPlace phone{"10.0.0.7", "phone-1"};

// libsodium's salts, which are the same from now on: a state is compared with that of another play.
void keep_salts_the_same() {
  static randombytes_implementation same{
      .implementation_name = [] { return "the same each time"; },
      .random = [] { return 7U; },
      .stir = nullptr,
      .uniform = nullptr,
      .buf = [](void* to, std::size_t bytes) { std::fill_n(static_cast<char*>(to), bytes, '7'); },
      .close = nullptr};
  randombytes_set_implementation(&same);
}

// A step whose chance begins at `chance`.
template <class Act>
Step at(int chance, Act act) {
  return [chance, act](Stage& stage) -> Result<void> {
    stage.chance = chance;
    return told(act(stage, *stage.book, stage.scene->now));
  };
}

// Keeps who signed in.
template <class Act>
Step signing_in(int chance, Act act) {
  return at(chance, [act](Stage& stage, AccessBook& book, Instant now) -> Result<void> {
    HW_TAKE(in, act(stage, book, now));
    stage.signed_in = in;
    return {};
  });
}

// Of who signed in last.
const service::Session& present(const Stage& stage) { return *stage.signed_in->caller.session; }

// Ada has come in, as a lead, by a link. What the console leaves is a file beside the database, which this disk has
// not.
void open_with_a_lead(Stage& stage) {
  keep_salts_the_same();
  stage.scene.emplace();
  const access::PermissionTable table{{{"look", {Role::viewer, Role::lead}}, {"admit", {Role::lead}}}, {Role::lead}};
  stage.book = shop::must(AccessBook::open(stage.scene->store(), Zone::utc(), chance_of(stage), table));
  AccessBook& book = *stage.book;
  const Instant now = stage.scene->now;
  const std::string by{service::this_computer}, secret = book.new_secret();
  const service::Account ada{.name = "Ada", .role = Role::lead, .made_by = by, .made_at = now};
  const service::Link link{service::hash_of_secret(secret), ada.name, by, now + access::console_link_life, {}};
  shop::must(book.keep({.accounts = {ada}, .links = {link}}));
  stage.signed_in = shop::must(service::sign_in_by_link(book, {secret, first_password, {}}, desk, {}, now));
}

Step lets_bea_in(int chance) {
  return at(chance, [](Stage& stage, AccessBook& book, Instant now) -> Result<void> {
    HW_TAKE(made, service::make_account(book, {"Bea", Role::viewer, {}, {}}, {}, "Ada", now));
    stage.secret = made.secret;
    return {};
  });
}

Step chooses(int chance) {
  return signing_in(chance, [](Stage& stage, AccessBook& book, Instant now) {
    return service::sign_in_by_link(book, {stage.secret, second_password, "2580"}, desk, {}, now);
  });
}

Step signs_in_by_pin(int chance) {
  return signing_in(chance, [](Stage&, AccessBook& book, Instant now) {
    return service::sign_in_by_pin(book, {"Bea", "2580"}, phone, now);
  });
}

Step signs_in_by_password(int chance, const char* password) {
  return signing_in(chance, [password](Stage&, AccessBook& book, Instant now) {
    return service::sign_in(book, {"Ada", password, {}}, desk, now);
  });
}

// The code is of a key that nothing has kept yet; so both steps of the person are one here.
Result<void> set_factor(Stage& stage, AccessBook& book, Instant now) {
  HW_TAKE(key, service::begin_second_factor(book, present(stage), {first_password}, now));
  return service::set_second_factor(book, present(stage), {passwords::code_of(key, passwords::code_step(now))}, now);
}

Step makes_token(int chance) {
  return at(chance, [](Stage&, AccessBook& book, Instant now) {
    return service::make_token(book, {"Wall", Role::viewer, {}, {}, 5}, {}, "Ada", now);
  });
}

Step ends_token(int chance) {
  return at(chance, [](Stage&, AccessBook& book, Instant now) {
    return service::end_token(book, service::show_tokens(book).tokens.at(0).id, "Ada", now);
  });
}

}  // namespace

WritingScene people_let_in() {
  const auto signs_out = [](Stage& stage, AccessBook& book, Instant now) {
    return service::sign_out(book, present(stage), now);
  };
  const auto changes = [](Stage&, AccessBook& book, Instant now) {
    return service::change_account(book, {"Bea", Role::lead, {}, {}}, {}, "Ada", now);
  };
  const auto new_link = [](Stage&, AccessBook& book, Instant now) {
    return service::make_link(book, {"Bea"}, "Ada", now);
  };
  const auto ends = [](Stage&, AccessBook& book, Instant now) {
    return service::end_account(book, {"Bea"}, "Ada", now);
  };
  return {"people let in and out",
          open_with_a_lead,
          {lets_bea_in(10), chooses(110), signs_in_by_pin(210), at(0, signs_out), at(0, changes), at(30, new_link),
           at(0, ends)}};
}

WritingScene own_access_changed() {
  const auto changes_pin = [](Stage& stage, AccessBook& book, Instant now) {
    return service::change_pin(book, present(stage), {first_password, "2580"}, now);
  };
  const auto demands_factor = [](Stage&, AccessBook& book, Instant now) {
    return service::rule_second_factor(book, {true}, "Ada", now);
  };
  const auto ends_factor = [](Stage& stage, AccessBook& book, Instant now) {
    return service::end_second_factor(book, present(stage), {first_password}, now);
  };
  const auto changes_password = [](Stage& stage, AccessBook& book, Instant now) {
    return service::change_password(book, present(stage), {first_password, second_password}, {}, now);
  };
  const auto ends_sessions = [](Stage&, AccessBook& book, Instant now) {
    return service::end_sessions_of(book, {"Ada"}, "Ada", now);
  };
  return {"own access, tokens",
          open_with_a_lead,
          {at(0, changes_pin), at(10, set_factor), at(0, demands_factor), at(0, ends_factor), at(0, changes_password),
           signs_in_by_password(110, second_password), makes_token(210), ends_token(0), at(0, ends_sessions)}};
}

}  // namespace hw::power
