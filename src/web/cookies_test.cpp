#include "src/web/cookies.h"

#include <gtest/gtest.h>

namespace hw::web {
namespace {

std::string secret_in(const char* cookies) {
  http::Request request;
  if (cookies != nullptr) request.headers.add("Cookie", cookies);
  return std::string{cookie_of(request, device_cookie_name)};
}

TEST(Cookies, TheSecretIsFoundAmongOtherCookies) {
  EXPECT_EQ(secret_in("hourwright_device=abc"), "abc");
  EXPECT_EQ(secret_in("a=1; hourwright_device=abc; b=2"), "abc");
  EXPECT_EQ(secret_in("a=1;hourwright_device=a=b"), "a=b");
  EXPECT_EQ(secret_in("hourwright_device="), "");
}

TEST(Cookies, NoOtherCookieIsTakenForTheSecret) {
  for (const char* cookies : {"", "a", ";", "; ;", "hourwright_device", "hourwright_devices=abc",
                              "xhourwright_device=abc", "a=hourwright_device=abc", "HOURWRIGHT_DEVICE=abc"}) {
    EXPECT_EQ(secret_in(cookies), "") << cookies;
  }
  EXPECT_EQ(secret_in(nullptr), "");
}

TEST(Cookies, TheCookieIsForTheServersOwnPagesOnlyAndLastsAsLongAsBrowsersKeepOne) {
  const std::string plain = device_cookie("abc", service::Line::plain);
  EXPECT_EQ(plain, "hourwright_device=abc; Path=/; Max-Age=34560000; HttpOnly; SameSite=Strict");
  EXPECT_EQ(device_cookie("abc", service::Line::encrypted), plain + "; Secure");
  EXPECT_EQ(session_cookie("abc", service::Line::plain), "hourwright_session=abc; Path=/; HttpOnly; SameSite=Strict");
  EXPECT_EQ(session_cookie("", service::Line::plain),
            "hourwright_session=; Path=/; Max-Age=0; HttpOnly; SameSite=Strict");
}

}  // namespace
}  // namespace hw::web
