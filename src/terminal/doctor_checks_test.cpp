#include "src/terminal/doctor_checks.h"

#include <cstdlib>
#include <fstream>

#include <gtest/gtest.h>

#include "libs/certificates/tls_folder.h"
#include "libs/sql/test_folder.h"
#include "src/copies/copy_name.h"
#include "src/terminal/doctor_command.h"
#include "src/terminal/support_bundle_command.h"
#include "tests/places/places.h"

namespace hw::terminal {
namespace {

const Instant now_then = *parse_instant("2026-11-26T02:00:00Z");

TEST(DoctorChecks, TheNewestCopyIsJudgedByItsAge) {
  const sql::TestFolder folder;
  const DoctorCall call{"d", "", folder.path().string()};
  EXPECT_EQ(copies_check({"d", "", {}}, now_then).result, "warn");
  EXPECT_NE(copies_check(call, now_then).detail.find("none in the folder"), std::string::npos);
  std::ofstream(folder.path() / copies::copy_name(now_then - Duration::hours(60))) << "copy";
  EXPECT_EQ(copies_check(call, now_then).result, "warn");
  std::ofstream(folder.path() / copies::copy_name(now_then - Duration::hours(10))) << "copy";
  EXPECT_EQ(copies_check(call, now_then).result, "pass");
  EXPECT_EQ(copies_check({"d", "", "/no/such/folder"}, now_then).result, "warn");
}

TEST(DoctorChecks, ACertificateIsJudgedByItsEnd) {
  const sql::TestFolder folder;
  EXPECT_FALSE(certificate_check(folder.path(), now_then));
  const certificates::InitOrder order{{*certificates::parse_host_name("shop.example")}, now_then, 20};
  ASSERT_TRUE(certificates::init_folder({folder.path() / "tls"}, order));
  EXPECT_EQ(certificate_check(folder.path(), now_then)->result, "pass");
  EXPECT_EQ(certificate_check(folder.path(), now_then + Duration::hours(24 * 10))->result, "warn");
  EXPECT_EQ(certificate_check(folder.path(), now_then + Duration::hours(24 * 30))->result, "fail");
}

TEST(DoctorChecks, APortAtWhichNobodyListensIsFree) {
  const auto checks = server_checks({"d", "127.0.0.1:1", {}});
  ASSERT_EQ(checks.size(), 1u);
  EXPECT_EQ(checks[0].result, "pass");
}

TEST(Doctor, IsNotWellWhereOneFailed) {
  ::setenv("HOURWRIGHT_SHARE", in_source().c_str(), 1);
  service::Examined examined;
  examined.checks = {{"folder", "pass", ""}};
  const DoctorCall call{"/no/such/folder", "127.0.0.1:1", {}};
  EXPECT_TRUE(look_over(call, examined, now_then).well);
  examined.checks.push_back({"disk", "fail", ""});
  EXPECT_FALSE(look_over(call, examined, now_then).well);
}

}  // namespace
}  // namespace hw::terminal
