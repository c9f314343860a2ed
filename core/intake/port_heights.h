#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

enum class IntakeEnd { front, rear };

/// A port of one side of the intake, at one end, dry fitted: where the same edge of it stands on
/// the head's face and on the intake's, from one mark, up along the face, mm, within 500.
struct PortHeight {
    std::size_t side = 0; ///< bank, 0 to 3
    IntakeEnd end = IntakeEnd::front;
    Interval head_mm;
    Interval intake_mm;
};

struct PortMismatch {
    std::size_t side = 0;
    IntakeEnd end = IntakeEnd::front;
    /// Intake less head: above zero the intake's port stands higher, as
    /// `PortShift::up_the_face_mm`.
    Interval mismatch_mm;
};

struct SideMismatch {
    std::size_t side = 0;
    Interval mean_mm;                ///< of its ends
    std::optional<Interval> tilt_mm; ///< front less rear; empty unless both were read
};

enum class PortFinding {
    matched,     ///< nothing is off by more than the tolerance
    intake_high, ///< on all sides together
    intake_low,
    front_high, ///< the intake dips to the rear, on all sides together
    rear_high,
    sides_differ, ///< one side stands otherwise than the other
    undecided,    ///< the readings' doubt leaves something open
};

struct PortHeights {
    std::vector<PortMismatch> ports;         ///< in the order given
    std::vector<SideMismatch> sides;         ///< by side
    Interval mean_mm;                        ///< of the sides' means
    std::optional<Interval> tilt_mm;         ///< mean of the sides' tilts, if each has one
    std::optional<Interval> sides_differ_mm; ///< lowest side index less highest; two sides or more
    std::vector<PortFinding> findings;       ///< never empty
};

/// `tolerance_mm`: 0 to 10. Errors: too_few_rows ("port"); duplicate_field ("port", a place twice);
/// out_of_range, not_a_number, order_wrong ("side", "head", "intake", "tolerance"); `line` is the
/// port's place.
Result<PortHeights> port_heights(const std::vector<PortHeight>& ports, double tolerance_mm);

} // namespace rodway
