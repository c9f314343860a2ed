#include "core/sheets/kinds/degreed_lobes.h"

#include <algorithm>
#include <cmath>

#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

struct TableRow {
    double crank_deg = 0.0;
    Interval lift_mm;
};

/// A lobe's rows by angle, brought within half a turn of the highest: wheels are marked by turns.
std::vector<TableRow> lift_table(const TakenReadings& readings, const std::string& lobe) {
    std::vector<TableRow> rows;
    for (const Taken& taken : readings.of("lift_at_angle")) {
        const auto lift_mm = taken.range();
        const auto angle = taken.place.angle();
        if (lift_mm && angle && taken.place.part(PlacePart::valve) == lobe) {
            rows.push_back({angle->in_deg(), *lift_mm});
        }
    }
    if (rows.empty()) {
        return rows;
    }
    const double peak_deg =
        std::max_element(rows.begin(), rows.end(), [](const TableRow& a, const TableRow& b) {
            return a.lift_mm.middle() < b.lift_mm.middle();
        })->crank_deg;
    for (TableRow& row : rows) {
        row.crank_deg = peak_deg + std::remainder(row.crank_deg - peak_deg, 360.0);
    }
    std::sort(rows.begin(), rows.end(),
              [](const TableRow& a, const TableRow& b) { return a.crank_deg < b.crank_deg; });
    return rows;
}

/// Where the straight line between two rows passes a lift; nothing if it doesn't, surely.
std::optional<Interval> crossing(const TableRow& a, const TableRow& b, double lift_mm) {
    const double gain_mm = b.lift_mm.middle() - a.lift_mm.middle();
    const double share = (lift_mm - a.lift_mm.middle()) / gain_mm;
    if (gain_mm == 0.0 || share < 0.0 || share > 1.0) {
        return std::nullopt;
    }
    const double step_deg = b.crank_deg - a.crank_deg;
    const double doubt_mm = std::max(a.lift_mm.half_width(), b.lift_mm.half_width());
    return Interval::about(a.crank_deg + share * step_deg, std::abs(doubt_mm / gain_mm) * step_deg);
}

} // namespace

Interval WheelZero::true_deg(const Interval& mark_deg) const {
    return Interval::about(tdc.true_deg(mark_deg.middle()),
                           mark_deg.half_width() + doubt_crank_deg);
}

std::optional<WheelZero> wheel_zero(const TakenReadings& readings) {
    const auto one = readings.number("tdc_stop_reading", "forward");
    const auto other = readings.number("tdc_stop_reading", "backward");
    if (!one || !other) {
        return std::nullopt;
    }
    const auto tdc = true_top_dead_centre(one->middle(), other->middle());
    if (!tdc) {
        return std::nullopt;
    }
    return WheelZero{*tdc, (one->half_width() + other->half_width()) / 2.0};
}

std::vector<DegreedLobe> degreed_lobes(const TakenReadings& readings) {
    std::vector<DegreedLobe> lobes;
    for (const Taken& taken : readings.of("lobe_event")) {
        const auto mark = taken.range();
        if (!mark) {
            continue;
        }
        const std::string lobe = *taken.place.part(PlacePart::valve);
        const std::string rise = *taken.place.part(PlacePart::rise);
        auto there = std::find_if(lobes.begin(), lobes.end(), [&](const DegreedLobe& one) {
            return one.lobe == lobe && one.rise == rise;
        });
        if (there == lobes.end()) {
            lobes.push_back({lobe, rise, taken.place.rise()->in_mm(), {}, {}});
            there = lobes.end() - 1;
        }
        const bool opens = taken.place.part(PlacePart::event) == "opens";
        (opens ? there->opening_mark_deg : there->closing_mark_deg) = mark;
    }
    return lobes;
}

std::optional<DegreedLobe> by_lift_table(const TakenReadings& readings, const std::string& lobe,
                                         CentrelineMethod method, double checking_lift_mm) {
    const std::vector<TableRow> rows = lift_table(readings, lobe);
    if (rows.size() < 3) {
        return std::nullopt;
    }
    const auto highest =
        std::max_element(rows.begin(), rows.end(), [](const TableRow& a, const TableRow& b) {
            return a.lift_mm.middle() < b.lift_mm.middle();
        });
    DegreedLobe found;
    found.lobe = lobe;
    found.rise_mm = method == CentrelineMethod::off_the_heel
                        ? checking_lift_mm
                        : highest->lift_mm.middle() - checking_lift_mm;
    for (auto row = highest; row != rows.begin() && !found.opening_mark_deg; --row) {
        found.opening_mark_deg = crossing(*(row - 1), *row, found.rise_mm);
    }
    for (auto row = highest; row + 1 != rows.end() && !found.closing_mark_deg; ++row) {
        found.closing_mark_deg = crossing(*row, *(row + 1), found.rise_mm);
    }
    return found.opening_mark_deg && found.closing_mark_deg ? std::optional(found) : std::nullopt;
}

Interval DoubtedCentreline::as_kept_deg() const {
    const double sign = found.kind == ValveKind::intake ? 1.0 : -1.0;
    return Interval::about(sign * found.centreline_crank_deg, doubt_crank_deg);
}

std::optional<DoubtedCentreline> centreline_of(const DegreedLobe& lobe, CentrelineMethod method,
                                               const WheelZero& zero) {
    if (!lobe.opening_mark_deg || !lobe.closing_mark_deg) {
        return std::nullopt;
    }
    const auto found =
        found_centreline({valve_called(lobe.lobe).kind, method, lobe.opening_mark_deg->middle(),
                          lobe.closing_mark_deg->middle()},
                         zero.tdc);
    if (!found) {
        return std::nullopt;
    }
    const double marks_doubt_deg =
        lobe.opening_mark_deg->half_width() + lobe.closing_mark_deg->half_width();
    return DoubtedCentreline{*found, marks_doubt_deg / 2.0 + zero.doubt_crank_deg};
}

} // namespace rodway
