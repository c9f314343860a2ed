#pragma once

#include <QTimeZone>
#include <string>

#include "core/build/utc_time.h"

namespace rodway {

/// The day on which a UTC time falls by the clocks of a place: where they are changed on it, it has
/// 23 or 25 hours. A text that is no UTC time is a bug.
[[nodiscard]] ShopDay shop_day(const std::string& utc, const QTimeZone& zone);

/// The same by this computer's clock.
[[nodiscard]] ShopDay shop_day(const std::string& utc);

} // namespace rodway
