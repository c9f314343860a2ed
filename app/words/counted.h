#pragma once

#include <QString>

namespace rodway::words {

/// "1 day", "4 days": `one`, or `more` with the number in the place of its %1.
[[nodiscard]] inline QString counted(int number, const QString& one, const QString& more) {
    return number == 1 ? one : more.arg(number);
}

} // namespace rodway::words
