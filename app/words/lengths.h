#pragma once

#include <QString>
#include <string>

namespace rodway::words {

/// 0.012 in, always to the thousandth: what a feeler can tell.
[[nodiscard]] QString inches(double mm);
/// 0.012 in (0.30 mm).
[[nodiscard]] QString both_units(double mm);
/// 0.3125 in, 1.750 in: a size as it is typed, three or four digits.
[[nodiscard]] QString size(double mm);
/// +0.015 in, with its sign.
[[nodiscard]] QString signed_inches(double mm);
/// 12 °, 106.5°.
[[nodiscard]] QString crank_degrees(double deg);

/// "cam degrees and inches", for a lift table's unit such as "cam_deg/in".
[[nodiscard]] QString lift_table_unit(const std::string& unit);

} // namespace rodway::words
