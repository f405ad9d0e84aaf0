#pragma once
// How a server, or long work, is told to end: by SIGINT (Ctrl-C) or SIGTERM.

namespace hw::terminal {

// Holds both signals back in this thread and all that it starts. Call it before any thread is started.
void hold_ending_signals();
// One of them has come and is held back.
bool is_ending_asked();
// Waits for one of them.
void wait_for_ending();

}  // namespace hw::terminal
