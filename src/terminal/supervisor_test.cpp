#include "src/terminal/supervisor.h"

#include <atomic>
#include <cstdlib>
#include <string>

#include <gtest/gtest.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include "libs/sql/test_folder.h"

namespace hw::terminal {
namespace {

// The socket on which systemd would listen.
struct Supervised : testing::Test {
  Supervised() : path((folder.path() / "notify").string()), socket(::socket(AF_UNIX, SOCK_DGRAM | SOCK_CLOEXEC, 0)) {
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    path.copy(address.sun_path, sizeof address.sun_path - 1);
    EXPECT_EQ(::bind(socket, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
    const timeval limit{10, 0};
    ::setsockopt(socket, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
    ::setenv("NOTIFY_SOCKET", path.c_str(), 1);
  }
  ~Supervised() override {
    ::unsetenv("NOTIFY_SOCKET");
    ::unsetenv("WATCHDOG_USEC");
    ::close(socket);
  }
  std::string heard() const {
    char text[200];
    const ssize_t got = ::recv(socket, text, sizeof text, 0);
    return got > 0 ? std::string(text, static_cast<std::size_t>(got)) : "";
  }

  sql::TestFolder folder;
  std::string path;
  int socket;
};

TEST_F(Supervised, HearsThatTheServerIsReadyAndThatItEnds) {
  tell_ready();
  EXPECT_EQ(heard(), "READY=1");
  tell_ending();
  EXPECT_EQ(heard(), "STOPPING=1");
}

TEST_F(Supervised, HearsAgainAndAgainThatItIsWell) {
  ::setenv("WATCHDOG_USEC", "20000", 1);
  const Watchdog watchdog([] { return true; });
  EXPECT_EQ(heard(), "WATCHDOG=1");
  EXPECT_EQ(heard(), "WATCHDOG=1");
}

TEST_F(Supervised, HearsNothingOfOneThatIsNotWell) {
  ::setenv("WATCHDOG_USEC", "2000", 1);
  std::atomic<int> asked = 0;
  {
    const Watchdog watchdog([&] { return ++asked > 3; });
    EXPECT_EQ(heard(), "WATCHDOG=1");
  }
  EXPECT_GE(asked, 4);
}

TEST(Unsupervised, NothingIsAsked) {
  bool is_asked = false;
  {
    const Watchdog watchdog([&] { return is_asked = true; });
  }
  tell_ready();
  EXPECT_FALSE(is_asked);
}

}  // namespace
}  // namespace hw::terminal
