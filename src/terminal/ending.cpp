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

void wait_for_ending() {
  const sigset_t signals = ending_signals();
  int signal = 0;
  sigwait(&signals, &signal);
}

}  // namespace hw::terminal
