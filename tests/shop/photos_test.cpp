// Photos as phones send them.

#include <boost/json/value.hpp>

#include "libs/values/sha256.h"
#include "tests/shop/served.h"

namespace hw::shop {
namespace {

constexpr std::string_view as_jpeg = "Content-Type: image/jpeg\r\n";

std::string path_of(int id) { return "/api/photos/" + id_of(id); }

// Not a picture to look at, but it begins as one, and has every byte.
std::string jpeg(std::size_t bytes = 700) {
  std::string photo = "\xFF\xD8\xFF\xE0";
  while (photo.size() < bytes) photo += static_cast<char>(photo.size() & 0xff);
  return photo;
}

TEST_F(Served, APhotoIsKeptAndShownAsItWasSent) {
  const std::string photo = jpeg();
  const auto kept = answer_of("PUT", "/api/photos/{photo}", path_of(1), photo, as_jpeg);
  EXPECT_EQ(kept.at("id"), id_of(1).c_str());
  EXPECT_EQ(kept.at("sha256"), print_hex(sha256(photo)).c_str());
  EXPECT_EQ(kept.at("bytes"), 700);
  const Answer shown = ask("GET", path_of(1));
  EXPECT_EQ(shown.status, 200);
  EXPECT_EQ(shown.body, photo);
  for (const char* field :
       {"Content-Type: image/jpeg\r\n", "Cache-Control: private, max-age=31536000, immutable\r\n",
        "Content-Security-Policy: default-src 'none'; sandbox\r\n", "X-Content-Type-Options: nosniff\r\n"}) {
    EXPECT_NE(shown.head.find(field), std::string::npos) << shown.head;
  }
  EXPECT_EQ(shown.head.find("Content-Security-Policy: default-src 'self'"), std::string::npos) << shown.head;
}

TEST_F(Served, PngAndWebpAreKeptToo) {
  EXPECT_EQ(ask("PUT", path_of(1), "\x89PNG\r\n\x1A\n....", "Content-Type: image/png\r\n").status, 200);
  EXPECT_EQ(ask("PUT", path_of(2), "RIFF....WEBPVP8 ", "Content-Type: image/webp\r\n").status, 200);
  EXPECT_NE(ask("GET", path_of(2)).head.find("Content-Type: image/webp\r\n"), std::string::npos);
}

TEST_F(Served, TheSamePhotoFiveTimesIsOneAndAnotherUnderItsIdIsAConflict) {
  const Answer first = ask("PUT", path_of(1), jpeg(), as_jpeg);
  for (int i = 0; i < 4; ++i) EXPECT_EQ(ask("PUT", path_of(1), jpeg(), as_jpeg).body, first.body);
  expect_problem(ask("PUT", path_of(1), jpeg(701), as_jpeg), 409, "used once");
  EXPECT_EQ(ask("GET", path_of(1)).body, jpeg());
}

TEST_F(Served, WhatIsNoPhotoIsRefusedAndNotKept) {
  expect_problem(ask("PUT", path_of(1), "<svg><script/></svg>", as_jpeg), 400, "right is a JPEG, PNG or WebP");
  expect_problem(ask("PUT", path_of(1), jpeg(), "Content-Type: image/png\r\n"), 400, "the body is image/jpeg");
  expect_problem(ask("PUT", path_of(1), "<svg/>", "Content-Type: image/svg+xml\r\n"), 415, "image/webp");
  expect_problem(ask("PUT", path_of(1), "{}"), 415, "image/jpeg");
  expect_problem(ask("PUT", "/api/photos/1", jpeg(), as_jpeg), 400, "photo: \"1\" is no UUID");
  expect_problem(ask("PUT", path_of(1), jpeg(), "Content-Type: image/jpeg\r\nOrigin: http://elsewhere.example\r\n"),
                 403, "elsewhere");
  expect_problem(ask("GET", path_of(1)), 404, id_of(1));
}

TEST_F(Served, APhotoOfOneMebibyteIsKeptAndALargerOneIsNot) {
  EXPECT_EQ(ask("PUT", path_of(1), jpeg(service::photo_bytes_max), as_jpeg).status, 200);
  EXPECT_EQ(ask("GET", path_of(1)).body.size(), service::photo_bytes_max);
  expect_problem(ask("PUT", path_of(2), jpeg(service::photo_bytes_max + 1), as_jpeg), 413, "");
  EXPECT_EQ(keep_photo(scene.shop(), {id_of(2), "image/jpeg", jpeg(service::photo_bytes_max + 1)}).error().code,
            ErrorCode::too_large);
}

TEST_F(Served, APhotoIsThereAfterAKill) {
  ASSERT_EQ(ask("PUT", path_of(1), jpeg(), as_jpeg).status, 200);
  server.reset();
  scene.end_and_reopen();
  EXPECT_EQ(must(find_photo(scene.shop(), id_of(1))).bytes, jpeg());
}

}  // namespace
}  // namespace hw::shop
