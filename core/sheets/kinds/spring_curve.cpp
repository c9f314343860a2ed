#include "core/sheets/kinds/spring_curve.h"

#include <algorithm>

#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

/// The spring if every row's load stood at one end of its doubt.
ValveSpring spring_at(const std::vector<SpringCurve::Row>& rows, double Interval::*end) {
    ValveSpring spring;
    for (const SpringCurve::Row& row : rows) {
        spring.loads.push_back({row.height_mm, row.load_N.*end});
    }
    if (!rows.empty()) {
        spring.installed_height_mm = rows.front().height_mm;
    }
    return spring;
}

std::optional<SpringCurve> checked(SpringCurve curve) {
    const bool good = check_spring(spring_at(curve.rows, &Interval::low)).ok() &&
                      check_spring(spring_at(curve.rows, &Interval::high)).ok();
    return good ? std::optional(std::move(curve)) : std::nullopt;
}

std::optional<SpringCurve> curve_by_table(const TakenReadings& readings, const std::string& valve) {
    SpringCurve curve;
    for (const Taken& taken : readings.of("spring_load_at_height")) {
        const auto load_N = taken.range();
        const auto height = taken.place.rise();
        if (load_N && height && taken.place.part(PlacePart::valve) == valve) {
            curve.rows.push_back({height->in_mm(), *load_N});
        }
    }
    std::sort(curve.rows.begin(), curve.rows.end(),
              [](const auto& a, const auto& b) { return a.height_mm > b.height_mm; });
    return checked(std::move(curve));
}

} // namespace

Interval SpringCurve::load_N(const Interval& height_mm) const {
    return {spring_at(rows, &Interval::low).load_N(height_mm.high),
            spring_at(rows, &Interval::high).load_N(height_mm.low)};
}

std::vector<SpringLoad> SpringCurve::middle_loads() const {
    std::vector<SpringLoad> loads;
    for (const Row& row : rows) {
        loads.push_back({row.height_mm, row.load_N.middle()});
    }
    return loads;
}

std::optional<SpringCurve> spring_curve(const SheetFacts& facts, const std::string& valve) {
    if (auto by_table = curve_by_table(facts.readings, valve)) {
        return by_table;
    }
    const ValveSpring* known =
        facts.engine != nullptr ? facts.engine->spring(valve_called(valve)) : nullptr;
    if (known == nullptr) {
        return std::nullopt;
    }
    SpringCurve curve;
    for (const SpringLoad& load : known->loads) {
        curve.rows.push_back({load.height_mm, Interval::exactly(load.load_N)});
    }
    return checked(std::move(curve));
}

std::optional<SpringCurve> spring_curve_or_loads(const SheetFacts& facts, const std::string& valve,
                                                 const Interval& installed_height_mm,
                                                 const Interval& full_valve_lift_mm) {
    if (auto known = spring_curve(facts, valve)) {
        return known;
    }
    const auto seat_N = facts.readings.number("spring_seat_load", valve);
    const auto open_N = facts.readings.number("spring_open_load", valve);
    if (!seat_N || !open_N) {
        return std::nullopt;
    }
    const double height_mm = installed_height_mm.middle();
    return checked({{{height_mm, *seat_N}, {height_mm - full_valve_lift_mm.middle(), *open_N}}});
}

} // namespace rodway
