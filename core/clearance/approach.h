#pragma once

#include <optional>

#include "core/clearance/rod_clearance.h"

namespace rodway {

/// One lobe lift looked at: how near the rod comes to one thing, and how fast its parts move, per
/// mm of lobe lift.
struct ApproachSample {
    double s_mm = 0.0;
    double clearance_mm = 0.0;
    double slope = 0.0;    ///< of the clearance
    double axis_mm = 0.0;  ///< no point of the axis is nearer to what the distance is taken from
    double swing = 0.0;    ///< |B' - P'|
    double cos_tilt = 1.0; ///< of the rod against a bore
    double lower_mm = 0.0; ///< heights of the rod's ends along a bore, from its middle
    double upper_mm = 0.0;
    double side_speed = 0.0; ///< greatest |Y'| within reach of a bore
    double ball_speed = 0.0; ///< |B'|
    Vec3 p_lower_K = Vec3::Zero();
    Vec3 p_upper_K = Vec3::Zero();
};

/// How one rod approaches one thing while the lobe lifts: looks at poses, and proves what lies
/// between two looks. The derivation stands in approach.cpp.
class Approach {
  public:
    explicit Approach(const RodPair& pair);

    struct Look {
        ApproachSample sample;
        ClosestBall ball;
    };
    /// Empty where there is no answer; `status_at` says why.
    [[nodiscard]] std::optional<Look> look(double s_mm) const;
    [[nodiscard]] TrainStatus status_at(double s_mm) const;

    /// Between two looks no clearance that is less than `best_mm` is less than this. Empty if
    /// nothing can be proved of an interval so wide.
    [[nodiscard]] std::optional<double> least_between(const ApproachSample& a,
                                                      const ApproachSample& b,
                                                      double best_mm) const;

  private:
    struct Rates;
    [[nodiscard]] std::optional<double> least_in_bore(const ApproachSample& a,
                                                      const ApproachSample& b, const Rates& rates,
                                                      double best_mm) const;
    [[nodiscard]] double least_at_solid(const ApproachSample& a, const ApproachSample& b,
                                        const Rates& rates, double best_mm) const;
    [[nodiscard]] bool section_ends_matter(const ApproachSample& a, const ApproachSample& b,
                                           const Rates& rates, double cos_tilt,
                                           double best_mm) const;
    void look_in_bore(Look& look, const Vec3& swing, const Pose& pose) const;
    void look_at_solid(Look& look, const Vec3& swing, const PoseRates& rates) const;

    const RodPair& pair_;
    double L_ = 0.0;
    double thinnest_ = 0.0; ///< least and greatest radius
    double thickest_ = 0.0;
    double end_reach_ = 0.0; ///< of the axis: H + R
    double reach_ = 0.0;     ///< of any ball
    bool straight_ = false;
    bool flat_ = false;       ///< a half-space
    double core_mm_ = 0.0;    ///< a capsule is its middle line, grown by this
    double body_reach_ = 0.0; ///< a rocker's body: farthest from its pivot
    double arm_across_ = 0.0; ///< ball arm, across the shaft
};

} // namespace rodway
