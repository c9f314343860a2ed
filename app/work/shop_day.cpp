#include "app/work/shop_day.h"

#include <QDateTime>

#include "core/base/assert.h"

namespace rodway {

ShopDay shop_day(const std::string& utc, const QTimeZone& zone) {
    const auto seconds = utc_seconds(utc);
    RODWAY_ASSERT(seconds.has_value());
    const QDate day = QDateTime::fromSecsSinceEpoch(*seconds, zone).date();
    return {day_text(QDate(1970, 1, 1).daysTo(day)),
            utc_text(day.startOfDay(zone).toSecsSinceEpoch()),
            utc_text(day.addDays(1).startOfDay(zone).toSecsSinceEpoch())};
}

ShopDay shop_day(const std::string& utc) {
    return shop_day(utc, QTimeZone::systemTimeZone());
}

} // namespace rodway
