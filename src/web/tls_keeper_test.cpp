#include "src/web/tls_keeper.h"

#include <atomic>
#include <fstream>
#include <mutex>
#include <sstream>

#include <gtest/gtest.h>

#include "libs/http/loopback_test.h"
#include "libs/sql/test_folder.h"

namespace hw::web {
namespace {

const Instant today = *parse_instant("2026-11-25T06:30:00Z");
Instant after(int days) { return today + Duration::hours(24LL * days); }

class Keeper : public testing::Test {
 protected:
  void init() {
    ASSERT_TRUE(certificates::init_folder(folder(), {{*certificates::parse_host_name("shop.example")}, today}));
  }
  certificates::TlsFolder folder() const { return {place.path() / "tls"}; }
  // At once, as the program itself writes it: the keeper looks every few milliseconds.
  void replace(const std::filesystem::path& file, const std::string& text) const {
    const auto made = place.path() / "made";
    std::ofstream(made) << text;
    std::filesystem::rename(made, file);
  }
  Report noting() {
    return [this](std::string_view says) {
      const std::lock_guard lock(mutex);
      reports.emplace_back(says);
    };
  }
  std::vector<std::string> reported() {
    const std::lock_guard lock(mutex);
    return reports;
  }

  sql::TestFolder place;
  std::mutex mutex;
  std::vector<std::string> reports;
};

TEST_F(Keeper, WithoutACertificateItSaysWhichCommandMakesOne) {
  const auto served = fresh_served(folder(), today, noting());
  ASSERT_FALSE(served);
  EXPECT_EQ(served.error().code, ErrorCode::not_found);
  for (const char* part : {"--listen-tls", "hourwright tls init --data ", "hourwright tls use --data "}) {
    EXPECT_NE(served.error().message.find(part), std::string::npos) << served.error().message;
  }
}

TEST_F(Keeper, ACertificateThatNearsItsEndIsRenewedBeforeItIsServed) {
  init();
  EXPECT_EQ(fresh_served(folder(), after(300), noting())->certificate.ends_at, after(397));
  EXPECT_EQ(fresh_served(folder(), after(380), noting())->certificate.ends_at, after(380 + 397));
  EXPECT_TRUE(fresh_served(folder(), after(2000), noting()));  // it had ended, while the server was off
  EXPECT_TRUE(reported().empty());
}

TEST_F(Keeper, ARenewalThatFailsIsReportedWhileTheCertificateLasts) {
  init();
  std::filesystem::remove(folder().authority_file());  // kept elsewhere
  EXPECT_TRUE(fresh_served(folder(), after(396), noting()));
  EXPECT_FALSE(fresh_served(folder(), after(397), noting()));
}

TEST_F(Keeper, WhatCannotBeReadIsReportedOnceAndNotServed) {
  init();
  std::ostringstream good;
  good << std::ifstream(folder().server_file()).rdbuf();
  Reach reach({});
  std::atomic<int> reloads = 0;
  TlsOptions options{{}, folder(), Duration::millis(5)};
  const TlsKeeper keeper({options, [] { return today; }, noting(),
                          [&]() -> Result<void> {
                            ++reloads;
                            return {};
                          },
                          reach});
  replace(folder().server_file(), "no certificate");
  ASSERT_TRUE(http::comes_true([&] { return reported().size() == 1; }));
  EXPECT_NE(reported().front().find("stays as it was"), std::string::npos);
  EXPECT_EQ(reloads, 0);
  EXPECT_FALSE(reach.served());
  replace(folder().server_file(), good.str());
  ASSERT_TRUE(http::comes_true([&] { return reach.served().has_value(); }));
  EXPECT_EQ(reloads, 1);
  EXPECT_EQ(reported().size(), 1U);
}

}  // namespace
}  // namespace hw::web
