#include "core/base/assert.h"

#include <cstdio>
#include <cstdlib>

namespace rodway {

void assertion_failed(const char* condition, const char* file, int line) {
    std::fprintf(stderr, "%s:%d: broken promise: %s\n", file, line, condition);
    std::abort();
}

} // namespace rodway
