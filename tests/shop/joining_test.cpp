// Devices that join by a code, on a real store.

#include <gtest/gtest.h>

#include "libs/values/secret.h"
#include "libs/values/sha256.h"
#include "src/service/devices.h"
#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

using service::Devices;
using service::Line;

class Joining : public testing::Test {
 protected:
  Joining() { reopen(); }
  void reopen() { devices = must(Devices::open(scene.store(), *Zone::find("Europe/Berlin"), secret_bytes)); }
  std::string code(int id) { return must(devices->offer_code({id_of(id), "Ada"}, scene.now)).code; }
  Result<service::Enrolled> enrol(int id, const std::string& code, std::string title = "Phone at the lathes") {
    return devices->enrol({id_of(id), code, std::move(title)}, Line::encrypted, scene.now);
  }
  static void expect_refused(const Result<service::Enrolled>& enrolled, ErrorCode error, std::string_view says) {
    ASSERT_FALSE(enrolled) << says;
    EXPECT_EQ(enrolled.error().code, error) << enrolled.error().message;
    EXPECT_NE(enrolled.error().message.find(says), std::string::npos) << enrolled.error().message;
  }

  Scene scene;
  std::unique_ptr<Devices> devices;
};

TEST_F(Joining, ADeviceThatJoinedIsKnownByItsSecretAlsoAfterARestart) {
  const auto enrolled = must(enrol(2, code(1)));
  EXPECT_EQ(enrolled.device.title, "Phone at the lathes");
  EXPECT_EQ(enrolled.device.enrolled_by, "Ada");
  EXPECT_TRUE(enrolled.device.encrypted);
  EXPECT_EQ(enrolled.secret.size(), 43U);
  for (int i = 0; i < 2; ++i) {
    const auto known = devices->recognise(enrolled.secret, scene.now);
    ASSERT_TRUE(known);
    EXPECT_EQ(known->id, id_of(2));
    EXPECT_FALSE(devices->recognise(enrolled.secret + "x", scene.now));
    EXPECT_FALSE(devices->recognise("", scene.now));
    EXPECT_FALSE(devices->recognise(print_hex(sha256(enrolled.secret)), scene.now));  // what is on disk opens nothing
    reopen();
  }
}

TEST_F(Joining, OnlyTheHashOfTheSecretIsKept) {
  const auto enrolled = must(enrol(2, code(1)));
  const auto kept = must(scene.store().devices());
  ASSERT_EQ(kept.size(), 1U);
  EXPECT_EQ(kept.front().secret_hash, print_hex(sha256(enrolled.secret)));
}

TEST_F(Joining, ACodeLetsOneDeviceJoin) {
  const std::string one = code(1);
  must(enrol(2, one));
  expect_refused(enrol(3, one), ErrorCode::conflict, "another device");
  EXPECT_EQ(devices->show().devices.size(), 1U);
}

TEST_F(Joining, TheSameRequestAgainIsTheSameDeviceWithTheSameSecret) {
  const std::string one = code(1);
  const auto first = must(enrol(2, one));
  const auto again = must(enrol(2, one));
  EXPECT_EQ(again.secret, first.secret);
  EXPECT_EQ(devices->show().devices.size(), 1U);
  EXPECT_EQ(must(scene.store().devices()).size(), 1U);
}

TEST_F(Joining, WithoutAValidCodeNothingIsEnrolled) {
  expect_refused(enrol(2, "XXXXXXXX"), ErrorCode::not_found, "15 minutes");
  const std::string one = code(1);
  scene.now = scene.now + access::code_life;
  expect_refused(enrol(2, one), ErrorCode::not_found, "15 minutes");
  const std::string two = code(3);
  reopen();  // a restart voids codes
  expect_refused(enrol(2, two), ErrorCode::not_found, "15 minutes");
  for (int i = 0; i < 9; ++i) (void)enrol(2, "XXXXXXXX");
  expect_refused(enrol(2, code(4)), ErrorCode::too_often, "in 60 s");
  EXPECT_TRUE(devices->show().devices.empty());
}

TEST_F(Joining, WhatIsEnteredWronglyIsRefusedAndTheCodeStaysGood) {
  const std::string one = code(1);
  expect_refused(devices->enrol({"x", one, "Phone"}, Line::plain, scene.now), ErrorCode::bad_input, "id: ");
  for (const std::string& title : {std::string{}, std::string{"   "}, std::string(61, 'x'), std::string{"a\nb"}}) {
    expect_refused(enrol(2, one, title), ErrorCode::bad_input, "title: ");
  }
  must(enrol(2, one, std::string(60, 'x')));
  expect_refused(enrol(2, code(3)), ErrorCode::conflict, "used once");
  EXPECT_EQ(devices->offer_code({id_of(5), ""}, scene.now).error().code, ErrorCode::bad_input);
}

TEST_F(Joining, ADeviceThatEndedIsNotKnownAnyMoreAndStaysInTheList) {
  const auto enrolled = must(enrol(2, code(1)));
  const auto ended = must(devices->end(id_of(2), {id_of(3), "Zoe", {}, {}}, scene.now));
  EXPECT_EQ(ended.ended_by, "Zoe");
  EXPECT_FALSE(devices->recognise(enrolled.secret, scene.now));
  const auto again = must(devices->end(id_of(2), {id_of(4), "Ada", {}, {}}, scene.now));
  EXPECT_EQ(again.ended_by, "Zoe");
  reopen();
  EXPECT_FALSE(devices->recognise(enrolled.secret, scene.now));
  ASSERT_EQ(devices->show().devices.size(), 1U);
  EXPECT_TRUE(devices->show().devices.front().ended_at);
  EXPECT_EQ(devices->end(id_of(9), {id_of(5), "Ada", {}, {}}, scene.now).error().code, ErrorCode::not_found);
}

TEST_F(Joining, TheDayOnWhichADeviceWasSeenIsThePlantsAndIsKept) {
  const auto enrolled = must(enrol(2, code(1)));
  EXPECT_EQ(devices->show().devices.front().last_seen_on, LocalDate::of(2026, 3, 2));
  scene.now = *parse_instant("2026-03-03T23:30:00Z");  // half past midnight in the shop
  ASSERT_TRUE(devices->recognise(enrolled.secret, scene.now));
  reopen();
  EXPECT_EQ(devices->show().devices.front().last_seen_on, LocalDate::of(2026, 3, 4));
}

TEST_F(Joining, TheLatestDeviceComesFirst) {
  must(enrol(2, code(1), "first"));
  must(enrol(4, code(3), "second"));
  EXPECT_EQ(devices->show().devices.front().title, "second");
}

}  // namespace
}  // namespace hw::shop
