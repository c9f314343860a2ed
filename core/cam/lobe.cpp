#include "core/cam/lobe.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/cam/card_lobe.h"
#include "core/cam/spline_grid.h"
#include "core/cam/table_smoothing.h"

namespace rodway {
namespace {

constexpr double least_flank_deg = 5.0;
constexpr double greatest_flank_deg = 180.0;
constexpr double least_law_lift_mm = 0.1;
constexpr double greatest_law_lift_mm = 20.0;

/// Steps of the spline over the shorter flank of a law: so many that the law's own accelerations
/// come back within a thousandth.
constexpr double steps_a_flank = 160.0;

Error out_of_range(const char* field, double value, double low, double high, const char* unit) {
    return Error{ErrorCode::out_of_range, field, std::to_string(value), {}, {},
                 Limits{low, high, unit}};
}

/// The flanks of a lobe made of a law, degrees.
struct LawFlanks {
    double rise = 0.0;
    double fall = 0.0;
    double dwell = 0.0;
};

std::optional<Error> wrong_with(double lift_mm, const LawFlanks& flanks) {
    if (!(lift_mm >= least_law_lift_mm && lift_mm <= greatest_law_lift_mm)) {
        return out_of_range("lift", lift_mm, least_law_lift_mm, greatest_law_lift_mm, "mm");
    }
    for (const auto& [field, value] :
         {std::pair{"rise", flanks.rise}, std::pair{"fall", flanks.fall}}) {
        if (!(value >= least_flank_deg && value <= greatest_flank_deg)) {
            return out_of_range(field, value, least_flank_deg, greatest_flank_deg, "cam_deg");
        }
    }
    const double left = 360.0 - flanks.rise - flanks.fall;
    if (!(flanks.dwell >= 0.0 && flanks.dwell <= left)) {
        return out_of_range("dwell", flanks.dwell, 0.0, left, "cam_deg");
    }
    return std::nullopt;
}

/// `motion` is the law by the fraction of the rise.
template <typename Motion>
QuinticSpline law_spline(double lift_mm, const LawFlanks& flanks, const Motion& motion) {
    constexpr int reach = QuinticSpline::pieces / 2; // of a spline to either side, in steps
    const double step = std::min(flanks.rise, flanks.fall) / steps_a_flank;
    const double before = flanks.rise + flanks.dwell / 2.0;
    const double after = flanks.fall + flanks.dwell / 2.0;
    const SplineGrid grid = spline_grid(-before - reach * step, after + reach * step, step);
    return grid.spline(follow_curve(grid, [&](double x) {
        const double flank = x < 0.0 ? flanks.rise : flanks.fall;
        const double u = 1.0 - std::max(0.0, std::abs(x) - flanks.dwell / 2.0) / flank;
        const LawMotion here = motion(u);
        const bool dwells = std::abs(x) < flanks.dwell / 2.0;
        return CurvePoint{lift_mm * here.lift,
                          dwells ? 0.0 : lift_mm * here.acceleration / (flank * flank)};
    }));
}

} // namespace

Lobe::Lobe(QuinticSpline spline, std::optional<double> full_lift_at_deg)
    : spline_(std::move(spline)) {
    const double look = spline_.step() / 4.0;
    const auto looks =
        static_cast<std::size_t>(std::lround((spline_.last() - spline_.first()) / look));
    for (std::size_t at = 0; at <= looks; ++at) {
        looks_.push_back(spline_.at(spline_.first() + static_cast<double>(at) * look)[0]);
    }
    full_lift_at_deg_ = full_lift_at_deg ? *full_lift_at_deg : highest_deg();
    full_lift_mm_ = spline_.at(full_lift_at_deg_)[0];
    measured_span_ = span();
}

double Lobe::highest_deg() const {
    const double look = spline_.step() / 4.0;
    const auto highest = std::max_element(looks_.begin(), looks_.end()) - looks_.begin();
    double rising = spline_.first() + static_cast<double>(highest - 1) * look;
    double falling = spline_.first() + static_cast<double>(highest + 1) * look;
    while (falling - rising > 1e-12 * (1.0 + std::abs(rising))) {
        const double middle = (rising + falling) / 2.0;
        if (middle <= rising || middle >= falling) {
            break;
        }
        (spline_.at(middle)[1] > 0.0 ? rising : falling) = middle;
    }
    return (rising + falling) / 2.0;
}

Lobe Lobe::scaled(double factor) const {
    RODWAY_ASSERT(factor > 0.0);
    Lobe lobe = *this;
    std::vector<double> coefficients = spline_.coefficients();
    for (double& coefficient : coefficients) {
        coefficient *= factor;
    }
    lobe.spline_ = QuinticSpline(spline_.first(), spline_.step(), std::move(coefficients));
    for (double& look : lobe.looks_) {
        look *= factor;
    }
    lobe.full_lift_mm_ *= factor;
    return lobe;
}

Result<Lobe> Lobe::from_table(const LiftTable& table, std::optional<double> noise_mm) {
    const auto ends = read_lift_table_ends(table);
    if (!ends) {
        return ends.error();
    }
    const auto smoothed = smooth_table(table, *ends, noise_mm);
    if (!smoothed) {
        return smoothed.error();
    }
    Lobe lobe(smoothed->spline);
    lobe.smoothing_ = smoothed->report;
    const CamAngle full_lift = CamAngle::deg(lobe.full_lift_at_deg_);
    lobe.smoothing_->worst_at = lobe.smoothing_->worst_at - full_lift;
    lobe.measured_span_ = {CamAngle::deg(smoothed->measured_from_deg) - full_lift,
                           CamAngle::deg(smoothed->measured_to_deg) - full_lift};
    return lobe;
}

Result<Lobe> Lobe::from_card(double peak_lift_mm, std::vector<CardDuration> durations) {
    const auto curve = card_curve(peak_lift_mm, std::move(durations));
    if (!curve) {
        return curve.error();
    }
    Lobe lobe(*curve, 0.0);
    lobe.estimated_ = true;
    return lobe;
}

Result<Lobe> Lobe::from_law(MotionLaw law, double lift_mm, CamAngle rise, CamAngle fall,
                            CamAngle dwell) {
    const LawFlanks flanks{rise.in_deg(), fall.in_deg(), dwell.in_deg()};
    if (!acceleration_is_continuous(law)) {
        return Error{ErrorCode::not_a_choice, "law", {}, {}, {}, {}};
    }
    if (const auto wrong = wrong_with(lift_mm, flanks)) {
        return *wrong;
    }
    const auto motion = [&](double u) { return law_motion(law, u); };
    return Lobe(law_spline(lift_mm, flanks, motion), 0.0);
}

Result<Lobe> Lobe::from_law(const FlatTappetLaw& law, double lift_mm, CamAngle flank) {
    const LawFlanks flanks{flank.in_deg(), flank.in_deg(), 0.0};
    if (const auto wrong = wrong_with(lift_mm, flanks)) {
        return *wrong;
    }
    const auto motion = [&](double u) { return law.at(u); };
    return Lobe(law_spline(lift_mm, flanks, motion), 0.0);
}

LobeMotion Lobe::at(CamAngle from_full_lift) const {
    const auto value = spline_.at(full_lift_at_deg_ + from_full_lift.in_deg());
    const double per_rad = degrees(1.0);
    return {value[0], value[1] * per_rad, value[2] * per_rad * per_rad,
            value[3] * per_rad * per_rad * per_rad};
}

double Lobe::lift_mm(CamAngle from_full_lift) const {
    // Smoothing may ring by a fraction of the table's last digit where the ramp meets the heel.
    return std::clamp(spline_.at(full_lift_at_deg_ + from_full_lift.in_deg())[0], 0.0,
                      full_lift_mm_);
}

Flanks Lobe::at_lift(double lobe_lift_mm) const {
    RODWAY_ASSERT(lobe_lift_mm > 0.0 && lobe_lift_mm <= full_lift_mm_);
    const double look = spline_.step() / 4.0;
    const auto reaches = [&](double lift) { return lift >= lobe_lift_mm; };
    const auto bisected = [&](double below, double above) {
        while (std::abs(above - below) > 1e-12 * (1.0 + std::abs(below))) {
            const double middle = (above + below) / 2.0;
            if (middle == above || middle == below) {
                break;
            }
            (spline_.at(middle)[0] < lobe_lift_mm ? below : above) = middle;
        }
        return CamAngle::deg(above - full_lift_at_deg_);
    };
    // The first look from either end that stands as high, or full lift itself between two looks.
    const auto opening = std::find_if(looks_.begin(), looks_.end(), reaches) - looks_.begin();
    const auto closing = std::find_if(looks_.rbegin(), looks_.rend(), reaches) - looks_.rbegin();
    const double first = spline_.first() + static_cast<double>(opening) * look;
    const double last = spline_.last() - static_cast<double>(closing) * look;
    return {bisected(std::min(first, full_lift_at_deg_) - look, std::min(first, full_lift_at_deg_)),
            bisected(std::max(last, full_lift_at_deg_) + look, std::max(last, full_lift_at_deg_))};
}

Flanks Lobe::span() const {
    return {CamAngle::deg(spline_.first() - full_lift_at_deg_),
            CamAngle::deg(spline_.last() - full_lift_at_deg_)};
}

bool Lobe::ramps_estimated() const {
    return smoothing_ && (smoothing_->opening_ramp_estimated || smoothing_->closing_ramp_estimated);
}

double Lobe::residual_mm() const {
    return smoothing_ ? smoothing_->residual_rms_mm : 0.0;
}

double Lobe::caliper_lift_error_mm() const {
    return lift_mm(CamAngle::deg(-90.0)) + lift_mm(CamAngle::deg(90.0));
}

} // namespace rodway
