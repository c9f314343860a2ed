#include "core/describe/described_tube.h"

#include <Eigen/LU>
#include <array>
#include <cmath>

namespace rodway {
namespace {

using Vec4 = Eigen::Vector4d;
using Mat4 = Eigen::Matrix4d;

constexpr double twelve_hours = 12.0;
constexpr double three_hours = 3.0;
constexpr double nine_hours = 9.0;

/// The tube round a rod by four numbers: its middle's way to the front and to 3 o'clock, mm, and
/// how far its upper mouth stands beyond that, mm.
class TubeRoundRod {
  public:
    TubeRoundRod(const RodPlace& rod, const TubeOnRod& tube) : rod_(rod), tube_(tube) {
        parallel_.axis_K = (rod.upper_K - rod.lower_K).normalized();
        parallel_.length_mm = tube.length_mm;
        parallel_.bore_radius_mm = tube.bore_mm / 2.0;
        parallel_.centre_K =
            rod.upper_K - (tube.below_ball_mm + tube.length_mm / 2.0) * parallel_.axis_K;
        front_K_ = clock_direction_K(parallel_, twelve_hours);
        side_K_ = clock_direction_K(parallel_, three_hours);
        if (tube.long_bore_mm) {
            parallel_.half_straight_mm = (*tube.long_bore_mm - tube.bore_mm) / 2.0;
            parallel_.long_way_K = tube.long_along_crank ? front_K_ : side_K_;
        }
    }
    [[nodiscard]] Bore at(const Vec4& place) const {
        Bore bore = parallel_;
        bore.centre_K += place[0] * front_K_ + place[1] * side_K_;
        const double half = bore.length_mm / 2.0;
        bore.axis_K =
            (bore.axis_K + (place[2] * front_K_ + place[3] * side_K_) / half).normalized();
        if (bore.half_straight_mm > 0.0) {
            const Vec3& way = parallel_.long_way_K;
            bore.long_way_K = (way - way.dot(bore.axis_K) * bore.axis_K).normalized();
        }
        return bore;
    }
    /// Front top, outboard top, front bottom, outboard bottom.
    [[nodiscard]] Vec4 gaps_at(const Vec4& place) const {
        const Bore bore = at(place);
        const double outboard = tube_.outboard_y_sign > 0.0 ? three_hours : nine_hours;
        return {gap_anywhere_mm(bore, rod_, BoreEnd::top, twelve_hours),
                gap_anywhere_mm(bore, rod_, BoreEnd::top, outboard),
                gap_anywhere_mm(bore, rod_, BoreEnd::bottom, twelve_hours),
                gap_anywhere_mm(bore, rod_, BoreEnd::bottom, outboard)};
    }

  private:
    const RodPlace& rod_;
    const TubeOnRod& tube_;
    Bore parallel_;
    Vec3 front_K_;
    Vec3 side_K_;
};

Mat4 slopes(const TubeRoundRod& tube, const Vec4& place) {
    constexpr double step_mm = 1e-4; // gaps are smooth over millimetres: errors of 1e-9
    Mat4 found;
    for (int column = 0; column < 4; ++column) {
        const Vec4 step = step_mm * Vec4::Unit(column);
        found.col(column) =
            (tube.gaps_at(place + step) - tube.gaps_at(place - step)) / (2.0 * step_mm);
    }
    return found;
}

/// A rod can't stand in its tube's wall; readings that are a little off may seem to say so.
bool can_be(const Bore& tube, const RodPlace& rod) {
    constexpr double seeming_mm = 0.25;
    for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
        const auto tightest = tightest_gap(tube, rod, end);
        if (!tightest || tightest->gap_mm < -seeming_mm) {
            return false;
        }
    }
    return true;
}

} // namespace

std::optional<Bore> tube_from_gaps(const RodPlace& rod, const TubeOnRod& tube,
                                   const TubeGaps& gaps) {
    constexpr int most_steps = 30;
    constexpr double settled_mm = 1e-9;
    const TubeRoundRod round(rod, tube);
    const Vec4 wanted(gaps.front_top, gaps.outboard_top, gaps.front_bottom, gaps.outboard_bottom);
    Vec4 place = Vec4::Zero();
    for (int step = 0; step < most_steps; ++step) {
        const Vec4 off = round.gaps_at(place) - wanted;
        if (!off.allFinite()) {
            return std::nullopt;
        }
        if (off.cwiseAbs().maxCoeff() < settled_mm) {
            const Bore found = round.at(place);
            return can_be(found, rod) ? std::optional(found) : std::nullopt;
        }
        const Vec4 way = slopes(round, place).fullPivLu().solve(off);
        // No farther at once than the bore is wide: beyond it the gaps say little.
        const double far = way.cwiseAbs().maxCoeff();
        const double most = tube.bore_mm / 4.0;
        place -= far > most ? Vec4(way * (most / far)) : way;
    }
    return std::nullopt;
}

} // namespace rodway
