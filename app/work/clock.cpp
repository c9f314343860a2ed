#include "app/work/clock.h"

#include <QDateTime>

namespace rodway {

std::string now_utc() {
    return QDateTime::currentDateTimeUtc().toString(Qt::ISODate).toStdString();
}

} // namespace rodway
