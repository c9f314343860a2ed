#include "core/intake/face_feeler.h"

#include <cmath>

#include "core/units/figure_band.h"

namespace rodway {

Result<FaceAngle> face_angle(const FaceFeelers& feelers, double tolerance_mm) {
    const Limits gaps{0.0, 10.0, "mm"};
    if (const auto bad =
            first_outside({{"top", feelers.top_mm, gaps},
                           {"bottom", feelers.bottom_mm, gaps},
                           {"width", feelers.width_mm, {5.0, 300.0, "mm"}},
                           {"tolerance", Interval::exactly(tolerance_mm), {0.0, 5.0, "mm"}}})) {
        return *bad;
    }
    FaceAngle face;
    face.open_more_at_top_mm = feelers.top_mm - feelers.bottom_mm;
    const Interval slope = *quotient(face.open_more_at_top_mm, feelers.width_mm);
    face.angle_rad = {std::atan(slope.low), std::atan(slope.high)};
    switch (standing(face.open_more_at_top_mm, {-tolerance_mm, tolerance_mm, FigureSource::shop})) {
        case BandStanding::inside:
            face.standing = FaceStanding::parallel;
            break;
        case BandStanding::above:
            face.standing = FaceStanding::open_at_top;
            break;
        case BandStanding::below:
            face.standing = FaceStanding::open_at_bottom;
            break;
        default:
            break;
    }
    return face;
}

} // namespace rodway
