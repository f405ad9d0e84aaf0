#include "src/terminal/ending.h"

#include <csignal>

namespace hw::terminal {
namespace {

sigset_t ending_signals() {
  sigset_t signals;
  sigemptyset(&signals);
  sigaddset(&signals, SIGINT);
  sigaddset(&signals, SIGTERM);
  return signals;
}

}  // namespace

void hold_ending_signals() {
  const sigset_t signals = ending_signals();
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);
}

bool is_ending_asked() {
  sigset_t pending;
  sigemptyset(&pending);
  sigpending(&pending);
  return sigismember(&pending, SIGINT) == 1 || sigismember(&pending, SIGTERM) == 1;
}

void wait_for_ending() {
  const sigset_t signals = ending_signals();
  int signal = 0;
  sigwait(&signals, &signal);
}

}  // namespace hw::terminal
