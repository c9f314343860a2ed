#pragma once

#include <QString>
#include <string>

namespace rodway::words {

/// What the field of an error is called, for fields of the trade's arithmetic and of readings:
/// "relative_humidity" is "Humidity", "order/7" "Order, 7", "first/rows" "First pull, Rows". Empty
/// for what has no words here: paths of a set-up, files, options and headings are said as they are.
[[nodiscard]] QString field_title(const std::string& field);

} // namespace rodway::words
