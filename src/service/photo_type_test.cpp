#include "src/service/photo_type.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

using namespace std::string_view_literals;

TEST(PhotoType, IsToldByTheFirstBytes) {
  EXPECT_EQ(photo_type_of("\xFF\xD8\xFF\xE0\0\x10"
                          "JFIF"sv),
            "image/jpeg");
  EXPECT_EQ(photo_type_of("\xFF\xD8\xFF\xE1\0\x10"
                          "Exif"sv),
            "image/jpeg");
  EXPECT_EQ(photo_type_of("\x89PNG\r\n\x1A\n\0\0\0\rIHDR"sv), "image/png");
  EXPECT_EQ(photo_type_of("RIFF\x24\0\0\0WEBPVP8 "sv), "image/webp");
}

TEST(PhotoType, WhatBeginsLikeNoneOfThemIsNone) {
  for (const auto bytes : {""sv, "\xFF\xD8"sv, "\x89PNG\n\x1A\n"sv, "RIFF"sv, "RIFF\x24\0\0\0WAVEfmt "sv, "GIF89a"sv,
                           "<svg xmlns='http://www.w3.org/2000/svg'><script>1</script></svg>"sv, "<!doctype html>"sv,
                           "%PDF-1.7"sv, " \xFF\xD8\xFF"sv}) {
    EXPECT_EQ(photo_type_of(bytes), std::nullopt) << bytes;
  }
}

TEST(PhotoType, ThreeMediaTypesAreTaken) {
  for (const auto type : {"image/jpeg", "image/png", "image/webp"}) EXPECT_TRUE(is_photo_type(type)) << type;
  for (const auto type :
       {"", "image/*", "image/svg+xml", "image/gif", "image/jpegx", "text/html", "application/json"}) {
    EXPECT_FALSE(is_photo_type(type)) << type;
  }
}

}  // namespace
}  // namespace hw::service
