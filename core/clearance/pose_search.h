#pragma once

#include <optional>
#include <vector>

#include "core/clearance/gap_at.h"
#include "core/clearance/passage_pose.h"

namespace rodway {

/// One reading ready for the search: the rod where it stood, and what was felt.
struct FeltGap {
    RodPlace rod;
    BoreEnd end = BoreEnd::top;
    std::optional<double> clock_hours; ///< empty: the tightest place
    std::optional<double> low_mm;
    std::optional<double> high_mm;
};

/// One place in the space of poses, in stated standard deviations from where the set-up puts the
/// passage, and how ill it fits.
struct Candidate {
    PoseVector in_stated_u = PoseVector::Zero();
    /// Sum over the readings of (how far the gap is outside its interval / gauge's u)², and the
    /// worst of them, not squared.
    double reading_misfit = 0.0;
    double worst_miss = 0.0;
    [[nodiscard]] double stated_misfit() const { return in_stated_u.squaredNorm(); }
    [[nodiscard]] double misfit() const { return reading_misfit + stated_misfit(); }
};

/// How far a gap lies outside what was felt, mm: above 0 over the high limit, below 0 under the
/// low one, 0 in between.
[[nodiscard]] double outside_mm(const FeltGap& felt, double gap_mm);

/// Looks for the poses of one passage that agree with readings and with where it was stated to be:
/// minima of the sum of both misfits.
class PoseSearch {
  public:
    /// `gauge_u_mm` above 0; `stated` checked.
    PoseSearch(const Bore& bore, const StatedPlace& stated, std::vector<FeltGap> felt,
               double gauge_u_mm)
        : bore_(bore),
          stated_u_(as_vector(stated)),
          felt_(std::move(felt)),
          gauge_u_mm_(gauge_u_mm) {}

    /// All distinct minima that meet every reading to `fits_within` gauge uncertainties and stand
    /// within what was stated, best first; if there are none, the best that was found.
    [[nodiscard]] std::vector<Candidate> minima() const;
    /// Poses that fit, though they needn't be minima: found from the same starts and from the
    /// mirrors of `minima`, each as near to its start as the readings allow. Where gaps bend, such
    /// a pose may lie far outside what the slopes at the nearest minimum would let one think.
    [[nodiscard]] std::vector<Candidate> elsewhere(const std::vector<Candidate>& minima) const;
    /// From one start to its minimum, by Levenberg and Marquardt's method.
    [[nodiscard]] Candidate descend(const PoseVector& start) const;
    /// Whether one can go from a to b through poses that fit about as well as they do.
    [[nodiscard]] bool connected(const Candidate& a, const Candidate& b) const;

    [[nodiscard]] bool fits_readings(const Candidate& candidate) const {
        return candidate.worst_miss <= fits_within;
    }
    [[nodiscard]] bool fits(const Candidate& candidate) const {
        return fits_readings(candidate) && candidate.stated_misfit() <= most_stated_misfit;
    }
    [[nodiscard]] Candidate look(const PoseVector& in_stated_u) const;
    [[nodiscard]] Bore bore_at(const PoseVector& in_stated_u) const;
    /// The gap of one reading at a pose, and its slope by the pose in stated standard deviations.
    struct GapSlope {
        double gap_mm = 0.0;
        PoseVector slope = PoseVector::Zero();
    };
    [[nodiscard]] GapSlope gap_slope(const FeltGap& felt, const PoseVector& in_stated_u) const;
    /// Those of all readings.
    [[nodiscard]] std::vector<GapSlope> gap_slopes(const PoseVector& in_stated_u) const;
    [[nodiscard]] double gap_mm(const FeltGap& felt, const PoseVector& in_stated_u) const;

    [[nodiscard]] const std::vector<FeltGap>& felt() const { return felt_; }
    [[nodiscard]] const PoseVector& stated_u() const { return stated_u_; }
    [[nodiscard]] double gauge_u_mm() const { return gauge_u_mm_; }

    /// A gap this many of the gauge's standard deviations outside its interval contradicts it.
    static constexpr double fits_within = 3.0;
    /// Chi-squared of four unknowns at 99.9 %: 18.47 (NIST/SEMATECH e-Handbook, 1.3.6.7.4).
    static constexpr double most_stated_misfit = 18.47;

  private:
    struct Plane {
        PoseVector point;
        PoseVector normal; ///< unit
    };
    /// What draws a search, beside the readings: the stated place, or only a little its own start.
    struct Pull {
        PoseVector towards = PoseVector::Zero();
        double weight = 1.0;
    };
    [[nodiscard]] Candidate descend(const PoseVector& start, const Pull& pull,
                                    const std::optional<Plane>& in) const;
    [[nodiscard]] bool connected(const Candidate& a, const Candidate& b, double most_misfit,
                                 int halvings) const;
    [[nodiscard]] PosedBore posed(const PoseVector& in_stated_u) const;
    [[nodiscard]] GapSlope gap_slope(const FeltGap& felt, const PosedBore& here,
                                     const PoseVector& in_stated_u) const;
    [[nodiscard]] PoseVector slope_by_steps(const FeltGap& felt, const PoseVector& in_stated_u,
                                            double clock_hours) const;
    [[nodiscard]] std::vector<PoseVector> starts() const;
    [[nodiscard]] std::vector<PoseVector> mirrors(const PoseVector& of) const;
    [[nodiscard]] PoseVector ends_moved(const PoseVector& from, const Vec2& top_mm,
                                        const Vec2& bottom_mm) const;
    void add(std::vector<Candidate>& known, const Candidate& candidate) const;

    Bore bore_;
    PoseVector stated_u_;
    std::vector<FeltGap> felt_;
    double gauge_u_mm_;
};

} // namespace rodway
