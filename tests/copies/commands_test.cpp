// The commands as a shell calls them.

#include <fstream>

#include <poll.h>

#include "libs/formats/byte_source.h"
#include "libs/formats/zip_archive.h"
#include "src/storage/examine.h"
#include "tests/copies/copied_shop.h"
#include "tests/shop/program.h"

namespace hw::shop {
namespace {

namespace fs = std::filesystem;

class CopyCommands : public testing::Test {
 protected:
  CopyCommands() { fill(scene); }
  std::string data() const { return scene.folder().string(); }
  std::string in_place(const char* name) const { return (place.path() / name).string(); }
  static bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

  Scene scene;
  sql::TestFolder place;
};

TEST_F(CopyCommands, BackUpVerifyRestoreAndRebuild) {
  const std::string file = in_place("shop.copy"), restored = in_place("restored");
  const Ended made = run({"backup", file, "--data", data()});
  EXPECT_EQ(made.exit_status, 0) << made.errors;
  EXPECT_TRUE(has(made.output, "Test plant")) << made.output;
  EXPECT_EQ(run({"backup", file, "--data", data()}).exit_status, 1) << "the file is there";
  EXPECT_EQ(run({"backup"}).exit_status, 2);
  const Ended verified = run({"backup", "verify", file, "--json"});
  EXPECT_EQ(verified.exit_status, 0) << verified.errors;
  EXPECT_TRUE(has(verified.output, "\"breaks\":0,\"files\":[{\"name\":\"hourwright.db\"")) << verified.output;
  EXPECT_EQ(run({"restore", file, "--data", restored}).exit_status, 0);
  EXPECT_EQ(run({"restore", file, "--data", restored}).exit_status, 1) << "something is in the folder";
  const Ended rebuilt = run({"rebuild", "--data", restored});
  EXPECT_EQ(rebuilt.exit_status, 0) << rebuilt.errors << rebuilt.output;
  EXPECT_TRUE(has(rebuilt.output, "equal, nothing was changed")) << rebuilt.output;
  meddle(restored, "delete from task_done");
  EXPECT_EQ(run({"rebuild", "--data", restored}).exit_status, 1);
  EXPECT_EQ(run({"rebuild", "--data", restored}).exit_status, 0) << "it was made again";
}

TEST_F(CopyCommands, DoctorSaysWhatToDoAndFailsWhereSomethingDoes) {
  const std::string free = "127.0.0.1:1";
  fs::permissions(scene.folder() / "tls" / "server.pem", fs::perms::owner_read | fs::perms::owner_write);
  const Ended looked = run({"doctor", "--data", data(), "--listen", free, "--json"});
  EXPECT_EQ(looked.exit_status, 1) << "the certificate is none";
  for (const char* well : {"folder", "disk", "rights", "database", "tables", "clock", "logbook", "zone", "server"}) {
    EXPECT_TRUE(has(looked.output, fmt::format("{{\"name\":\"{}\",\"result\":\"pass\"", well)))
        << well << looked.output;
  }
  EXPECT_TRUE(has(looked.output, "{\"name\":\"certificate\",\"result\":\"fail\"")) << looked.output;
  EXPECT_TRUE(has(looked.output, "{\"name\":\"agent feed-1\",\"result\":\"warn\"")) << looked.output;
  fs::remove_all(scene.folder() / "tls");
  EXPECT_EQ(run({"doctor", "--data", data(), "--listen", free}).exit_status, 0);
  meddle(scene.folder(), "drop trigger entry_stays; update entry set says = 'another' where ordinal = 1");
  EXPECT_TRUE(has(run({"doctor", "--data", data(), "--listen", free}).output, "fail  logbook: entry 1 was altered"));
  EXPECT_EQ(run({"doctor", "--data", in_place("none")}).exit_status, 1);
}

TEST_F(CopyCommands, AClockBehindTheRecordFails) {
  const auto clock_at = [&](Instant now) {
    for (const auto& check : storage::examine(scene.folder(), now).checks) {
      if (check.name == "clock") return check.result;
    }
    return std::string("not looked at");
  };
  EXPECT_EQ(clock_at(now()), "pass");
  EXPECT_EQ(clock_at(scene.now - Duration::hours(24 * 400)), "fail");
}

TEST_F(CopyCommands, ASupportBundleHoldsNoNamesTextsOrSecrets) {
  const std::string file = in_place("bundle.zip");
  ASSERT_EQ(run({"support-bundle", file, "--data", data()}).exit_status, 0);
  const auto whole = must(formats::open_file(file));
  const std::string bytes = must(formats::read_all(*whole, 10'000'000));
  const auto archive = formats::ZipArchive::open(bytes, 10'000'000).value();
  for (const char* name : {"versions.json", "doctor.json", "tables.json", "schema.sql", "settings.json"}) {
    ASSERT_TRUE(archive.has(name)) << name;
    const auto packed = must(archive.file(name));
    const std::string text = must(formats::read_all(*packed, 10'000'000));
    EXPECT_GT(text.size(), 20u) << name;
    for (const auto secret :
         {secret_mark, std::string_view("Ada"), std::string_view("PRIVATE"), std::string_view("127.0.0.1"),
          std::string_view("Test plant"), std::string_view(scene.folder().c_str())}) {
      EXPECT_FALSE(has(text, secret)) << name << " holds " << secret;
    }
  }
  EXPECT_FALSE(has(bytes, secret_mark));
  EXPECT_EQ(run({"support-bundle", file, "--data", data()}).exit_status, 1) << "the file is there";
}

TEST_F(CopyCommands, AServerMakesACopyOfItsOwn) {
  const std::string restored = in_place("restored"), copies = in_place("copies");
  ASSERT_EQ(run({"backup", in_place("shop.copy"), "--data", data()}).exit_status, 0);
  ASSERT_EQ(run({"restore", in_place("shop.copy"), "--data", restored}).exit_status, 0);
  fs::create_directory(copies);
  RunningProgram server({"serve", "--data", restored, "--listen", "127.0.0.1:0", "--copies", copies});
  std::string line = server.read_line();
  while (!line.empty() && !has(line, "Hourwright is at")) line = server.read_line();  // warnings stand before it
  EXPECT_FALSE(line.empty());
  const auto made = [&]() -> fs::path {
    for (const auto& one : fs::directory_iterator(copies)) {
      if (one.path().filename().string().starts_with("hourwright-")) return one.path();
    }
    return {};
  };
  for (int tries = 0; made().empty() && tries < 3000; ++tries) ::poll(nullptr, 0, 10);
  EXPECT_EQ(server.end(), 0);
  EXPECT_EQ(run({"backup", "verify", made().string()}).exit_status, 0);
}

}  // namespace
}  // namespace hw::shop
