#pragma once

namespace rodway {

/// What lies between one bank's block and its head, and what was cut off either, mm. The deck is
/// square to the cylinders, and a cut is even all over.
struct HeadSetting {
    double gasket_mm = 0.0;              ///< head gasket as it counts now
    double gasket_when_located_mm = 0.0; ///< on which the head's places were taken
    double deck_milled_mm = 0.0;         ///< off the block's deck since then
    double deck_face_milled_mm = 0.0;    ///< off the head's own deck face since then

    /// How far the head has moved since then along the cylinders, away from the crank.
    [[nodiscard]] double raised_mm() const {
        return gasket_mm - gasket_when_located_mm - deck_milled_mm - deck_face_milled_mm;
    }
};

} // namespace rodway
