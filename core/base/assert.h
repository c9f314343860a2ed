#pragma once

namespace rodway {

/// Prints the broken promise and where it stands, then aborts. Never returns.
[[noreturn]] void assertion_failed(const char* condition, const char* file, int line);

} // namespace rodway

/// A promise between parts of the program. It stays on in release builds: a wrong number is worse
/// than a stopped program. Bad input is never an assertion (see `Result`).
#define RODWAY_ASSERT(condition)        \
    ((condition) ? static_cast<void>(0) \
                 : ::rodway::assertion_failed(#condition, __FILE__, __LINE__))
