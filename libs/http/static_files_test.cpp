#include "libs/http/static_files.h"

#include <fstream>

#include <gtest/gtest.h>
#include <unistd.h>

namespace hw::http {
namespace {

namespace fs = std::filesystem;

struct AppFolder {
  fs::path root = fs::temp_directory_path() / ("hw_static_" + std::to_string(::getpid()));
  AppFolder() {
    write("index.html", "<!doctype html>");
    write("assets/app-4f2a.js", "plain script");
    write("assets/app-4f2a.js.br", "BR");
    write("assets/app-4f2a.js.gz", "GZ");
    write("icon.svg", "<svg/>");
    write(".secret", "no");
    write("lonely.gz", "own file");
    fs::create_symlink("/etc/passwd", root / "passwd.txt");
  }
  ~AppFolder() { fs::remove_all(root); }
  void write(const std::string& name, std::string_view text) const {
    fs::create_directories((root / name).parent_path());
    std::ofstream(root / name, std::ios::binary) << text;
  }
};

Request asking(std::string path, Headers headers = {}) {
  Request request;
  request.method = "GET";
  request.path = std::move(path);
  request.headers = std::move(headers);
  return request;
}

TEST(StaticFiles, HashedAssetsAreImmutableAndPagesAreAskedForAgain) {
  const AppFolder folder;
  const auto files = *StaticFiles::load(folder.root);
  const Response script = files.answer(asking("/assets/app-4f2a.js"));
  EXPECT_EQ(script.text(), "plain script");
  EXPECT_EQ(script.headers.find("Content-Type"), "text/javascript; charset=utf-8");
  EXPECT_EQ(script.headers.find("Cache-Control"), "public, max-age=31536000, immutable");
  const Response page = files.answer(asking("/"));
  EXPECT_EQ(page.text(), "<!doctype html>");
  EXPECT_EQ(page.headers.find("Cache-Control"), "no-cache");
}

TEST(StaticFiles, PagesOfTheAppAreItsIndex) {
  const AppFolder folder;
  const auto files = *StaticFiles::load(folder.root);
  EXPECT_EQ(files.answer(asking("/machine/mill1")).text(), "<!doctype html>");
  EXPECT_EQ(files.answer(asking("/machine/mill1.js")).status, 404);
}

TEST(StaticFiles, SendsTheFormThatTheBrowserTakes) {
  const AppFolder folder;
  const auto files = *StaticFiles::load(folder.root);
  const auto encoding = [&](const std::string& accept) {
    const Response response = files.answer(asking("/assets/app-4f2a.js", {{"Accept-Encoding", accept}}));
    EXPECT_EQ(response.headers.find("Vary"), "Accept-Encoding");
    return std::string(response.headers.find("Content-Encoding").value_or("plain")) + " " +
           std::string(response.text());
  };
  EXPECT_EQ(encoding("gzip, deflate, br"), "br BR");
  EXPECT_EQ(encoding("gzip, br;q=0"), "gzip GZ");
  EXPECT_EQ(encoding("gzip;q=0.000"), "plain plain script");
  EXPECT_EQ(encoding("GZIP;q=0.5"), "gzip GZ");
  EXPECT_EQ(encoding("identity"), "plain plain script");
}

TEST(StaticFiles, AnswersNotModifiedForTheSameFormOnly) {
  const AppFolder folder;
  const auto files = *StaticFiles::load(folder.root);
  const std::string plain(*files.answer(asking("/assets/app-4f2a.js")).headers.find("ETag"));
  const std::string brotli(
      *files.answer(asking("/assets/app-4f2a.js", {{"Accept-Encoding", "br"}})).headers.find("ETag"));
  EXPECT_NE(plain, brotli);
  const Response same = files.answer(asking("/assets/app-4f2a.js", {{"If-None-Match", "\"x\", W/" + plain}}));
  EXPECT_EQ(same.status, 304);
  EXPECT_EQ(same.headers.find("ETag"), plain);
  EXPECT_EQ(same.text(), "");
  EXPECT_EQ(files.answer(asking("/assets/app-4f2a.js", {{"If-None-Match", brotli}})).status, 200);
  EXPECT_EQ(files.answer(asking("/assets/app-4f2a.js", {{"If-None-Match", "*"}})).status, 304);
}

TEST(StaticFiles, NothingOutsideTheTableIsReached) {
  const AppFolder folder;
  const auto files = *StaticFiles::load(folder.root);
  EXPECT_EQ(files.size(), 4U);  // index.html, the script, icon.svg, lonely.gz
  for (const char* path :
       {"/.secret", "/passwd.txt", "/../etc/hosts.conf", "/assets/app-4f2a.js.br", "//etc/host.conf"}) {
    EXPECT_EQ(files.answer(asking(path)).status, 404) << path;
  }
}

TEST(StaticFiles, OtherMethodsAreRefused) {
  const AppFolder folder;
  Request request = asking("/");
  request.method = "POST";
  EXPECT_EQ(StaticFiles::load(folder.root)->answer(request).status, 405);
}

TEST(StaticFiles, AFolderWithoutAnAppIsRefusedByName) {
  for (const char* folder : {"/nowhere/at/all", "/"}) {
    const auto files = StaticFiles::load(folder);
    ASSERT_FALSE(files);
    EXPECT_EQ(files.error().code, ErrorCode::not_found);
    EXPECT_TRUE(files.error().message.starts_with(folder));
  }
}

}  // namespace
}  // namespace hw::http
