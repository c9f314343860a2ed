#include "app/work/running_clock.h"

#include <chrono>

#include "core/base/assert.h"
#include "core/build/utc_time.h"

namespace rodway {

Clock clock_from(const std::string& utc) {
    const auto begin = utc_seconds(utc);
    RODWAY_ASSERT(begin.has_value());
    const auto since = std::chrono::steady_clock::now();
    return [begin = *begin, since] {
        const auto gone = std::chrono::steady_clock::now() - since;
        return utc_text(begin + std::chrono::floor<std::chrono::seconds>(gone).count());
    };
}

} // namespace rodway
