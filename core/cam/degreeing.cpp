#include "core/cam/degreeing.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr double turn_deg = 360.0;

/// In [0, 360).
double in_turn(double deg) {
    const double turned = std::fmod(deg, turn_deg);
    const double positive = turned < 0.0 ? turned + turn_deg : turned;
    return positive >= turn_deg ? 0.0 : positive;
}

/// In (-180, 180].
double about_zero(double deg) {
    const double turned = in_turn(deg);
    return turned > turn_deg / 2.0 ? turned - turn_deg : turned;
}

Error refused(const char* field, double value, double low, double high) {
    return {ErrorCode::out_of_range,       field, exact_text(value), {}, {},
            Limits{low, high, "crank_deg"}};
}

std::optional<Error> wrong_mark(const char* field, double mark_deg) {
    if (mark_deg >= -turn_deg && mark_deg <= 2.0 * turn_deg) {
        return std::nullopt;
    }
    return refused(field, mark_deg, -turn_deg, 2.0 * turn_deg);
}

bool a_centreline(double crank_deg) {
    return crank_deg >= least_centreline_crank_deg && crank_deg <= greatest_centreline_crank_deg;
}

double median(std::vector<double> values) {
    RODWAY_ASSERT(!values.empty());
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

/// One account of what the valves share: a shift for intakes and one for exhausts.
struct Account {
    double intake_deg = 0.0;
    double exhaust_deg = 0.0;

    [[nodiscard]] double shared_deg(ValveKind kind) const {
        return kind == ValveKind::intake ? intake_deg : exhaust_deg;
    }
};

/// Adding and halving typed decimals rounds; a valve exactly at the tolerance is within it.
constexpr double rounding_deg = 1e-9;

class Split {
  public:
    Split(const std::vector<DegreedValve>& valves, double tolerance_deg)
        : valves_(valves), tolerance_deg_(tolerance_deg) {}

    DegreeingFindings findings() const {
        const auto intakes = advances(ValveKind::intake);
        const auto exhausts = advances(ValveKind::exhaust);
        const bool both = !intakes.empty() && !exhausts.empty();
        const double pooled = median(all());
        Account account{pooled, pooled};
        bool by_kind = false;
        if (both) {
            const Account kinds{median(intakes), median(exhausts)};
            by_kind = explained(kinds) >= explained(account) + 2;
            account = by_kind ? kinds : account;
        }
        DegreeingFindings found;
        found.tolerance_crank_deg = tolerance_deg_;
        found.common_advanced_crank_deg = (account.intake_deg + account.exhaust_deg) / 2.0;
        if (both) {
            // An intake's centreline is after top dead centre, an exhaust's before it: advancing
            // shortens the one and lengthens the other.
            found.lobe_separation_error_cam_deg = (median(exhausts) - median(intakes)) / 2.0;
        }
        const auto values = all();
        const auto [least, most] = std::minmax_element(values.begin(), values.end());
        found.spread_crank_deg = *most - *least;
        for (const DegreedValve& valve : valves_) {
            const double own = valve.advanced_crank_deg - account.shared_deg(valve.valve.kind);
            found.valves.push_back({valve.valve, valve.advanced_crank_deg, own, !within(own)});
        }
        found.findings = conclude(account, by_kind, found);
        return found;
    }

  private:
    [[nodiscard]] bool within(double deg) const {
        return std::abs(deg) <= tolerance_deg_ + rounding_deg;
    }
    [[nodiscard]] std::vector<double> all() const {
        std::vector<double> values;
        for (const DegreedValve& valve : valves_) {
            values.push_back(valve.advanced_crank_deg);
        }
        return values;
    }
    [[nodiscard]] std::vector<double> advances(ValveKind kind) const {
        std::vector<double> values;
        for (const DegreedValve& valve : valves_) {
            if (valve.valve.kind == kind) {
                values.push_back(valve.advanced_crank_deg);
            }
        }
        return values;
    }
    [[nodiscard]] bool agrees(const Account& account, const DegreedValve& valve) const {
        return within(valve.advanced_crank_deg - account.shared_deg(valve.valve.kind));
    }
    [[nodiscard]] std::ptrdiff_t explained(const Account& account) const {
        return std::count_if(valves_.begin(), valves_.end(),
                             [&](const DegreedValve& valve) { return agrees(account, valve); });
    }

    /// Whether more than half of the valves agree with an account, in two cylinders at least; of
    /// one kind if a kind is given.
    [[nodiscard]] bool stands(const Account& account, std::optional<ValveKind> kind = {}) const {
        std::size_t asked = 0;
        std::size_t agreeing = 0;
        std::set<int> cylinders;
        for (const DegreedValve& valve : valves_) {
            if (kind && valve.valve.kind != *kind) {
                continue;
            }
            ++asked;
            if (agrees(account, valve)) {
                ++agreeing;
                cylinders.insert(valve.valve.cylinder);
            }
        }
        return 2 * agreeing > asked && cylinders.size() >= 2;
    }

    /// Whether each valve that is off has another of its kind that agrees.
    [[nodiscard]] bool each_has_company(const Account& account) const {
        return std::all_of(valves_.begin(), valves_.end(), [&](const DegreedValve& valve) {
            return agrees(account, valve) ||
                   std::any_of(valves_.begin(), valves_.end(), [&](const DegreedValve& other) {
                       return other.valve.kind == valve.valve.kind && agrees(account, other);
                   });
        });
    }

    [[nodiscard]] std::vector<DegreeingFinding> conclude(const Account& account, bool by_kind,
                                                         const DegreeingFindings& found) const {
        const auto values = all();
        if (std::all_of(values.begin(), values.end(), [&](double deg) { return within(deg); })) {
            return {DegreeingFinding::within_tolerance};
        }
        const bool certain =
            by_kind ? stands(account, ValveKind::intake) && stands(account, ValveKind::exhaust)
                    : stands(account);
        if (!certain) {
            return {DegreeingFinding::cannot_tell};
        }
        std::vector<DegreeingFinding> findings;
        if (!within(found.common_advanced_crank_deg)) {
            findings.push_back(DegreeingFinding::common_shift);
        }
        if (by_kind && !within((account.exhaust_deg - account.intake_deg) / 2.0)) {
            findings.push_back(DegreeingFinding::lobe_separation_off);
        }
        if (std::any_of(found.valves.begin(), found.valves.end(),
                        [](const ValveDeparture& valve) { return valve.off; })) {
            findings.push_back(each_has_company(account) ? DegreeingFinding::single_valve_off
                                                         : DegreeingFinding::cannot_tell);
        }
        if (findings.empty()) {
            findings.push_back(DegreeingFinding::within_tolerance);
        }
        return findings;
    }

    const std::vector<DegreedValve>& valves_;
    double tolerance_deg_;
};

} // namespace

double TrueTopDeadCentre::true_deg(double wheel_mark_deg) const {
    return about_zero(wheel_mark_deg - mark_deg);
}

Result<TrueTopDeadCentre> true_top_dead_centre(double one_mark_deg, double other_mark_deg) {
    for (const double mark_deg : {one_mark_deg, other_mark_deg}) {
        if (const auto wrong = wrong_mark("stop_mark", mark_deg)) {
            return *wrong;
        }
    }
    const double apart_deg = about_zero(other_mark_deg - one_mark_deg);
    const double stop_deg = std::abs(apart_deg) / 2.0;
    if (stop_deg < nearest_stop_deg || stop_deg > furthest_stop_deg) {
        return refused("stop_distance", stop_deg, nearest_stop_deg, furthest_stop_deg);
    }
    return TrueTopDeadCentre{about_zero(one_mark_deg + apart_deg / 2.0), stop_deg};
}

Result<FoundCentreline> found_centreline(const WheelReading& reading,
                                         const TrueTopDeadCentre& tdc) {
    if (const auto wrong = wrong_mark("opening_mark", reading.opening_mark_deg)) {
        return *wrong;
    }
    if (const auto wrong = wrong_mark("closing_mark", reading.closing_mark_deg)) {
        return *wrong;
    }
    const double between_deg = in_turn(reading.closing_mark_deg - reading.opening_mark_deg);
    const double after_tdc_deg = tdc.true_deg(reading.opening_mark_deg + between_deg / 2.0);
    const bool intake = reading.kind == ValveKind::intake;
    FoundCentreline found;
    found.kind = reading.kind;
    found.method = reading.method;
    found.centreline_crank_deg = intake ? after_tdc_deg : -after_tdc_deg;
    found.between_marks_crank_deg = between_deg;
    if (!a_centreline(found.centreline_crank_deg)) {
        return refused("centreline", found.centreline_crank_deg, least_centreline_crank_deg,
                       greatest_centreline_crank_deg);
    }
    if (reading.method == CentrelineMethod::off_the_heel) {
        const double half_deg = between_deg / 2.0;
        const double near_tdc_deg = half_deg - found.centreline_crank_deg;
        const double near_bdc_deg = found.centreline_crank_deg + half_deg - 180.0;
        found.events = intake ? ValveEvents{near_tdc_deg, near_bdc_deg}
                              : ValveEvents{near_bdc_deg, near_tdc_deg};
    }
    return found;
}

Result<CamStanding> cam_standing(const FoundCentreline& found, double specified_crank_deg) {
    for (const auto& [field, crank_deg] : {std::pair{"specified", specified_crank_deg},
                                           std::pair{"centreline", found.centreline_crank_deg}}) {
        if (!a_centreline(crank_deg)) {
            return refused(field, crank_deg, least_centreline_crank_deg,
                           greatest_centreline_crank_deg);
        }
    }
    const double later_deg = found.centreline_crank_deg - specified_crank_deg;
    CamStanding standing;
    standing.advanced_crank_deg = found.kind == ValveKind::intake ? -later_deg : later_deg;
    standing.turn_crank_deg = -standing.advanced_crank_deg;
    standing.turn_cam_deg = cam_angle(CrankAngle::deg(standing.turn_crank_deg)).in_deg();
    return standing;
}

Result<DegreeingFindings> degreeing_findings(const std::vector<DegreedValve>& valves,
                                             double tolerance_crank_deg) {
    if (valves.empty()) {
        return Error{ErrorCode::too_few_rows, "valves", "0", "1", {}, {}};
    }
    if (!(tolerance_crank_deg > 0.0 && tolerance_crank_deg <= 30.0)) {
        return refused("tolerance", tolerance_crank_deg, 0.0, 30.0);
    }
    std::set<ValvePosition> seen;
    for (const DegreedValve& valve : valves) {
        if (!(std::abs(valve.advanced_crank_deg) <= 180.0)) {
            return refused("advanced", valve.advanced_crank_deg, -180.0, 180.0);
        }
        if (!seen.insert(valve.valve).second) {
            return Error{
                ErrorCode::duplicate_field, "valves", position_name(valve.valve), {}, {}, {}};
        }
    }
    return Split(valves, tolerance_crank_deg).findings();
}

} // namespace rodway
