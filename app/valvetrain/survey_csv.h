#pragma once

#include <QByteArray>
#include <vector>

#include "app/valvetrain/by_hand.h"
#include "core/clearance/survey.h"
#include "render/plots/clearance_curve.h"

namespace rodway {

// Tables as a spreadsheet takes them: RFC 4180, a decimal point, UTF-8 with a byte order mark.
// Columns are named for programs too and never translated; an empty cell: no answer.

/// One row for each valve: least clearance on the heel, at full lift and over the turn, where that
/// is, its doubt, the verdicts, and what was found by hand. Inches and degrees, all digits.
[[nodiscard]] QByteArray survey_csv(const Engine& engine, const std::vector<ValveClearance>& lines,
                                    const ByHand& by_hand);

/// One row for each crank angle of a plot's curves: clearance and lift of each valve, in the plot's
/// own unit.
[[nodiscard]] QByteArray curves_csv(const ClearanceCurveContent& content);

} // namespace rodway
