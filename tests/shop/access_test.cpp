// Who comes in, and for how long: the use cases on a real store, with a clock of the tests.

#include <gtest/gtest.h>

#include "libs/passwords/one_time_code.h"
#include "libs/passwords/password_hash.h"
#include "libs/values/secret.h"
#include "src/access/session_limits.h"
#include "src/service/access_book.h"
#include "src/service/accounts.h"
#include "src/service/checked_secret.h"
#include "src/service/ended_sessions.h"
#include "src/service/own_access.h"
#include "src/service/sign_in.h"
#include "src/service/tokens.h"
#include "src/storage/grants.h"
#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

const service::SignInPlace desk{"127.0.0.1", {}};
const service::SignInPlace phone{"10.0.0.7", "phone-1"};
constexpr const char* good_password = "three blue mills at noon";

class AccessOfAShop : public testing::Test {
 protected:
  AccessOfAShop() { open(); }

  void open() {
    access::PermissionTable table{
        {{"look", {access::Role::outside, access::Role::viewer, access::Role::lead}}, {"admit", {access::Role::lead}}},
        {access::Role::lead}};
    book = must(service::AccessBook::open(scene.store(), Zone::utc(), secret_bytes, table));
  }
  // In by a link from the console, with a password and a PIN.
  service::SignedIn come_in(const std::string& name, access::Role role = access::Role::lead) {
    const service::Grant grant{
        .kind = "link", .name = name, .role = role, .made_at = now, .ends_at = now + access::console_link_life};
    const std::string secret = must(storage::leave_grant(scene.folder(), grant));
    return must(service::sign_in_by_link(*book, {secret, good_password, "2580"}, desk, {}, now));
  }
  bool is_in(const service::SignedIn& in) { return service::recognise_session(*book, in.secret, now).has_value(); }
  // What an app for one-time codes does with the key that the person began with.
  void set_up_factor(const service::SignedIn& in) {
    const std::string key = must(service::begin_second_factor(*book, *in.caller.session, {good_password}, now));
    const std::string code = passwords::code_of(key, passwords::code_step(now));
    must(service::set_second_factor(*book, *in.caller.session, {code}, now));
  }
  // Whether that session may what its role may.
  bool may_look(const service::SignedIn& in) {
    const auto caller = service::recognise_session(*book, in.secret, now);
    EXPECT_TRUE(caller);
    EXPECT_NE(caller->may("look"), caller->needs_second_factor);
    return caller->may("look");
  }
  std::string saying_of(const Error& error) { return error.saying ? error.saying->code : ""; }

  Scene scene;
  Instant now = scene.now;
  std::unique_ptr<service::AccessBook> book;
};

TEST_F(AccessOfAShop, ASessionEndsWhenNothingComesOfItAndAtTheLatestAfterTwelveHours) {
  const auto idle = come_in("Ada");
  now = now + access::office_limits.idle + Duration::seconds(-1);
  EXPECT_TRUE(is_in(idle));
  now = now + access::office_limits.idle;
  EXPECT_FALSE(is_in(idle));
  const auto busy = must(service::sign_in(*book, {"Ada", good_password, {}}, desk, now));
  for (int hour = 0; hour < 11; ++hour) {
    now = now + Duration::hours(1);
    EXPECT_TRUE(is_in(busy)) << hour;
  }
  now = now + Duration::hours(1);
  EXPECT_FALSE(is_in(busy)) << "a session that is used ends too";
}

TEST_F(AccessOfAShop, APinHoldsAShiftAndOnlyAtItsDevice) {
  come_in("Ada");
  EXPECT_EQ(service::sign_in_by_pin(*book, {"Ada", "2580"}, desk, now).error().code, ErrorCode::not_joined);
  const auto in = must(service::sign_in_by_pin(*book, {"Ada", "2580"}, phone, now));
  EXPECT_EQ(in.caller.session->device, "phone-1");
  now = now + Duration::hours(3);
  EXPECT_TRUE(is_in(in));
  now = now + access::device_limits.idle;
  EXPECT_FALSE(is_in(in));
  EXPECT_EQ(service::people_with_pin(*book, now), std::vector<std::string>{"Ada"});
}

TEST_F(AccessOfAShop, GuessingAPinTakesLongerEachTimeAtThatDeviceAndIsNoted) {
  come_in("Ada");
  Instant begin = now;
  int tried = 0;
  while (now < begin + Duration::hours(24)) {
    const auto in = service::sign_in_by_pin(*book, {"Ada", "1470"}, phone, now);
    ASSERT_FALSE(in);
    if (in.error().code == ErrorCode::too_often) {
      now = now + Duration::seconds(static_cast<std::int64_t>(in.error().saying->numbers.at("seconds")));
    } else {
      ++tried;
    }
  }
  EXPECT_LT(tried, 120) << "of 10,000 PINs, in a day";
  EXPECT_TRUE(service::sign_in_by_pin(*book, {"Ada", "2580"}, {"10.0.0.8", "phone-2"}, now + Duration::seconds(30)))
      << "the person is not kept out elsewhere";
  const auto notes = must(service::show_access_notes(*book)).notes;
  EXPECT_TRUE(std::any_of(notes.begin(), notes.end(),
                          [](const auto& note) { return note.what == service::AccessDeed::sign_in_refused; }));
}

TEST_F(AccessOfAShop, ANameThatNobodyHasTakesTheSameWayAsAWrongPassword) {
  come_in("Ada");
  const auto wrong = service::sign_in(*book, {"Ada", "not the password", {}}, desk, now);
  const auto nobody = service::sign_in(*book, {"Nobody", "not the password", {}}, desk, now);
  ASSERT_FALSE(wrong);
  ASSERT_FALSE(nobody);
  EXPECT_EQ(wrong.error(), nobody.error());
  EXPECT_FALSE(service::sign_in(*book, {std::string(100'000, 'n'), "x", {}}, desk, now));
}

TEST_F(AccessOfAShop, OnlySoManyPasswordsAreLookedAtAtOnce) {
  const service::HashingTurn first(*book), second(*book);
  EXPECT_TRUE(first && second);
  EXPECT_FALSE(service::HashingTurn(*book));
  EXPECT_EQ(saying_of(service::sign_in(*book, {"Ada", "x", {}}, desk, now).error()), "try-later");
}

TEST_F(AccessOfAShop, OutsideServiceIsOutAfterItsLastDay) {
  come_in("Ada");
  const LocalDate today = Zone::utc().date_of(now);
  const auto made =
      must(service::make_account(*book, {"Otto", access::Role::outside, {{"mill1"}}, today}, {"mill1"}, "Ada", now));
  const auto in = must(service::sign_in_by_link(*book, {made.secret, good_password, {}}, desk, {}, now));
  EXPECT_TRUE(is_in(in));
  EXPECT_FALSE(in.caller.reaches("mill2"));
  now = now + Duration::hours(24);
  EXPECT_FALSE(is_in(in));
  EXPECT_FALSE(service::sign_in(*book, {"Otto", good_password, {}}, desk, now));
}

TEST_F(AccessOfAShop, ALinkFromTheConsoleIsGoodForThirtyMinutes) {
  const service::Grant grant{.kind = "link",
                             .name = "Ada",
                             .role = access::Role::lead,
                             .made_at = now,
                             .ends_at = now + access::console_link_life};
  const std::string secret = must(storage::leave_grant(scene.folder(), grant));
  now = now + Duration::seconds(30 * 60);
  EXPECT_EQ(saying_of(service::look_at_link(*book, {secret}, now).error()), "link-over");
  EXPECT_FALSE(service::has_accounts(*book, now));
}

TEST_F(AccessOfAShop, ANewLinkVoidsTheOneBefore) {
  come_in("Ada");
  const auto first = must(service::make_account(*book, {"Bea", access::Role::viewer, {}, {}}, {}, "Ada", now));
  const auto second = must(service::make_link(*book, {"Bea"}, "Ada", now));
  EXPECT_FALSE(service::look_at_link(*book, {first.secret}, now));
  EXPECT_EQ(must(service::look_at_link(*book, {second.secret}, now)).name, "Bea");
}

TEST_F(AccessOfAShop, NothingSecretIsKeptAsItIs) {
  const auto in = come_in("Ada");
  const auto token = must(service::make_token(*book, {"Wall", access::Role::viewer, {}, {}, 5}, {}, "Ada", now));
  const auto rows = must(scene.store().access_rows());
  EXPECT_NE(rows.sessions.at(0).secret_hash, in.secret);
  EXPECT_EQ(rows.sessions.at(0).secret_hash, service::hash_of_secret(in.secret));
  EXPECT_NE(rows.tokens.at(0).secret_hash, token.secret);
  EXPECT_TRUE(rows.accounts.at(0).password_hash->starts_with("$argon2id$"));
  EXPECT_TRUE(rows.accounts.at(0).pin_hash->starts_with("$argon2id$"));
  EXPECT_EQ(in.secret.size(), 43U) << "256 bits";
  EXPECT_NE(come_in("Bea").secret, in.secret);
}

TEST_F(AccessOfAShop, AfterARestartAllIsAsItWas) {
  const auto in = come_in("Ada");
  const auto token = must(service::make_token(*book, {"Wall", access::Role::viewer, {}, {}, 5}, {}, "Ada", now));
  open();
  EXPECT_TRUE(is_in(in));
  EXPECT_TRUE(service::recognise_token(*book, token.secret, now));
  now = now + Duration::hours(5 * 24);
  EXPECT_FALSE(service::recognise_token(*book, token.secret, now)) << "its days are over";
}

TEST_F(AccessOfAShop, ANewPasswordEndsTheOtherSessions) {
  const auto here = come_in("Ada");
  const auto there = must(service::sign_in(*book, {"Ada", good_password, {}}, desk, now));
  must(service::change_password(*book, *here.caller.session, {good_password, "four green mills at dawn"}, {}, now));
  EXPECT_TRUE(is_in(here));
  EXPECT_FALSE(is_in(there));
  EXPECT_TRUE(service::ended_sessions(*book, "Ada", now, here.caller.session->id).empty());
}

TEST_F(AccessOfAShop, WhoDemandsASecondFactorHasOne) {
  const auto ada = come_in("Ada");
  EXPECT_EQ(saying_of(service::rule_second_factor(*book, {true}, "Ada", now).error()), "own-second-factor");
  EXPECT_TRUE(may_look(ada));
  must(service::rule_second_factor(*book, {false}, "Ada", now));
  set_up_factor(ada);
  must(service::rule_second_factor(*book, {true}, "Ada", now));
  EXPECT_TRUE(service::show_accounts(*book, now).second_factor_demanded);
  const auto notes = must(service::show_access_notes(*book)).notes;
  EXPECT_EQ(notes.at(0).what, service::AccessDeed::second_factor_demanded);
  must(service::rule_second_factor(*book, {true}, "Ada", now));
  EXPECT_EQ(must(service::show_access_notes(*book)).notes.size(), notes.size()) << "once more changes nothing";
}

TEST_F(AccessOfAShop, ADemandedSecondFactorComesFirstForOfficeRolesWithAPassword) {
  const auto ada = come_in("Ada"), bo = come_in("Bo"), eva = come_in("Eva", access::Role::viewer);
  set_up_factor(ada);
  must(service::rule_second_factor(*book, {true}, "Ada", now));
  EXPECT_TRUE(may_look(ada));
  EXPECT_FALSE(may_look(bo)) << "also a session of before";
  EXPECT_TRUE(may_look(eva)) << "no office role in this table";
  const auto by_password = must(service::sign_in(*book, {"Bo", good_password, {}}, desk, now));
  EXPECT_TRUE(by_password.caller.needs_second_factor);
  EXPECT_TRUE(may_look(must(service::sign_in_by_pin(*book, {"Bo", "2580"}, phone, now)))) << "the device is one";
  set_up_factor(by_password);
  EXPECT_TRUE(may_look(by_password));
  must(service::end_second_factor(*book, *by_password.caller.session, {good_password}, now));
  EXPECT_FALSE(may_look(by_password)) << "ended is as never set up";
}

TEST_F(AccessOfAShop, ADemandOfASecondFactorOutlastsARestartAndALostPhoneLocksNobodyOut) {
  set_up_factor(come_in("Ada"));
  must(service::rule_second_factor(*book, {true}, "Ada", now));
  open();
  const service::Grant reset{
      .kind = "reset", .name = "Ada", .made_at = now, .ends_at = now + access::console_link_life};
  const std::string secret = must(storage::leave_grant(scene.folder(), reset));
  const auto anew = must(service::sign_in_by_link(*book, {secret, good_password, {}}, desk, {}, now));
  EXPECT_FALSE(may_look(anew));
  set_up_factor(anew);
  EXPECT_TRUE(may_look(anew));
  must(service::rule_second_factor(*book, {false}, "Ada", now));
  open();
  EXPECT_TRUE(may_look(come_in("Bo")));
}

}  // namespace
}  // namespace hw::shop
