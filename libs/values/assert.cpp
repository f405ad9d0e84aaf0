#include "libs/values/assert.h"

#include <cstdio>
#include <cstdlib>

namespace hw {

void fail_assertion(const char* condition, const char* says, const char* file, int line) {
  std::fprintf(stderr, "hourwright: broken assumption: %s (%s) at %s:%d\n", says, condition, file, line);
  std::abort();
}

}  // namespace hw
