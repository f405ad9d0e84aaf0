#pragma once
// HW_ASSERT(condition, "what must hold"): for our own mistakes, never for input. It stays on in release, because a
// wrong number that goes on is worse than a stop: the record on disk is whole at every moment.

namespace hw {
[[noreturn]] void fail_assertion(const char* condition, const char* says, const char* file, int line);
}

#define HW_ASSERT(condition, says)                                                \
  do {                                                                            \
    if (!(condition)) ::hw::fail_assertion(#condition, says, __FILE__, __LINE__); \
  } while (false)
