#include "core/loads/valve_spring.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <string>
#include <utility>

#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {
namespace {

const Limits heights{1.0, 500.0, "mm"};
const Limits loads_allowed{0.0, 20000.0, "N"};
const Limits rates{0.1, 2000.0, "N/mm"};
const Limits seat_steps{-20.0, 20.0, "mm"};

/// The straight line through two neighbouring loads.
struct Line {
    SpringLoad upper;
    double rate_N_per_mm;

    [[nodiscard]] double load_N(double height_mm) const {
        return upper.load_N + rate_N_per_mm * (upper.height_mm - height_mm);
    }
};

/// The line that holds just below `height_mm`.
Line line_below(const std::vector<SpringLoad>& loads, double height_mm) {
    RODWAY_ASSERT(loads.size() >= 2);
    std::size_t lower = 1;
    while (lower + 1 < loads.size() && loads[lower].height_mm >= height_mm) {
        ++lower;
    }
    const SpringLoad& above = loads[lower - 1];
    const SpringLoad& below = loads[lower];
    return {above, (below.load_N - above.load_N) / (above.height_mm - below.height_mm)};
}

Error under(const char* whole, Error error) {
    error.field = std::string(whole) + "/" + error.field;
    return error;
}

std::optional<Error> wrong_loads(const std::vector<SpringLoad>& loads) {
    if (loads.size() < 2) {
        return Error{ErrorCode::too_few_rows, "loads", std::to_string(loads.size()), "2", {}, {}};
    }
    for (std::size_t at = 0; at < loads.size(); ++at) {
        const int line = static_cast<int>(at) + 1;
        if (auto bad = outside("loads", loads[at].height_mm, heights, line)) {
            return bad;
        }
        if (auto bad = outside("loads", loads[at].load_N, loads_allowed, line)) {
            return bad;
        }
        if (at == 0) {
            continue;
        }
        if (!(loads[at].height_mm < loads[at - 1].height_mm)) {
            return Error{
                ErrorCode::order_wrong, "loads", exact_text(loads[at].height_mm), {}, line, {}};
        }
        if (!(loads[at].load_N > loads[at - 1].load_N)) {
            return Error{
                ErrorCode::order_wrong, "loads", exact_text(loads[at].load_N), {}, line, {}};
        }
    }
    return std::nullopt;
}

/// Loads of two springs added. The sum of two broken lines bends where either does, and where
/// either goes loose; listed at all those heights it is exact everywhere, beyond its ends too.
/// Below the bind height there is nothing to list.
std::vector<SpringLoad> loads_together(const ValveSpring& outer, const ValveSpring& inner,
                                       double seat_step_mm, std::optional<double> bind_mm) {
    const double free_mm = std::max(outer.free_height_mm(), inner.free_height_mm() + seat_step_mm);
    std::vector<double> bends{outer.free_height_mm(), inner.free_height_mm() + seat_step_mm};
    for (const SpringLoad& load : outer.loads) {
        bends.push_back(load.height_mm);
    }
    for (const SpringLoad& load : inner.loads) {
        bends.push_back(load.height_mm + seat_step_mm);
    }
    if (bind_mm) {
        for (double& bend : bends) {
            bend = std::max(bend, *bind_mm);
        }
    }
    std::sort(bends.begin(), bends.end(), std::greater<>());
    // Rounding may list a bend twice. Closer than this it is one, for the rate between two loads so
    // near to each other would be rounding too.
    constexpr double one_place_mm = 1e-7;
    std::vector<SpringLoad> loads{{free_mm, 0.0}};
    for (const double height_mm : bends) {
        if (height_mm < loads.back().height_mm - one_place_mm) {
            loads.push_back(
                {height_mm, outer.load_N(height_mm) + inner.load_N(height_mm - seat_step_mm)});
        }
    }
    return loads;
}

} // namespace

Result<Done> check_wire(const SpringWire& wire) {
    const std::pair<const char*, std::pair<double, Limits>> fields[] = {
        {"wire", {wire.wire_mm, {0.5, 20.0, "mm"}}},
        {"mean_diameter", {wire.mean_diameter_mm, {2.0 * wire.wire_mm, 30.0 * wire.wire_mm, "mm"}}},
        {"active_coils", {wire.active_coils, {1.0, 50.0, {}}}},
        {"total_coils", {wire.total_coils, {wire.active_coils, wire.active_coils + 4.0, {}}}},
        {"shear_modulus", {wire.shear_modulus_MPa, {1e4, 1.5e5, "MPa"}}},
        {"density", {wire.density_t_per_mm3, {1e-9, 2e-8, "t/mm3"}}},
    };
    for (const auto& [field, value] : fields) {
        if (const auto bad = outside(field, value.first, value.second)) {
            return *bad;
        }
    }
    return Done{};
}

double spring_rate(const SpringWire& wire) {
    const double d = wire.wire_mm;
    const double D = wire.mean_diameter_mm;
    return d * d * d * d * wire.shear_modulus_MPa / (8.0 * D * D * D * wire.active_coils);
}

double solid_height(const SpringWire& wire) {
    return wire.wire_mm * wire.total_coils;
}

double solid_height_unground(const SpringWire& wire) {
    return wire.wire_mm * (wire.total_coils + 1.0);
}

double active_mass(const SpringWire& wire) {
    const double section_mm2 = std::numbers::pi * wire.wire_mm * wire.wire_mm / 4.0;
    const double length_mm = std::numbers::pi * wire.mean_diameter_mm * wire.active_coils;
    return section_mm2 * length_mm * wire.density_t_per_mm3;
}

double surge_frequency(double rate_N_per_mm, double active_mass_t) {
    return 0.5 * std::sqrt(rate_N_per_mm / active_mass_t);
}

double ValveSpring::load_N(double height_mm) const {
    const double load = line_below(loads, height_mm).load_N(height_mm);
    return load < 0.0 ? 0.0 : load;
}

double ValveSpring::rate_N_per_mm(double height_mm) const {
    return height_mm > free_height_mm() ? 0.0 : line_below(loads, height_mm).rate_N_per_mm;
}

double ValveSpring::free_height_mm() const {
    RODWAY_ASSERT(!loads.empty());
    const SpringLoad& highest = loads.front();
    return highest.height_mm + highest.load_N / line_below(loads, highest.height_mm).rate_N_per_mm;
}

std::optional<double> ValveSpring::surge_Hz() const {
    if (!wire || !check_wire(*wire).ok()) {
        return std::nullopt;
    }
    return surge_frequency(spring_rate(*wire), active_mass(*wire));
}

Result<Done> check_spring(const ValveSpring& spring) {
    if (const auto bad = wrong_loads(spring.loads)) {
        return *bad;
    }
    if (const auto bad = outside("installed_height", spring.installed_height_mm, heights)) {
        return *bad;
    }
    if (spring.bind_height_mm) {
        const double highest_mm =
            std::min(spring.installed_height_mm, spring.loads.back().height_mm);
        if (const auto bad =
                outside("bind_height", *spring.bind_height_mm, {heights.low, highest_mm, "mm"})) {
            return *bad;
        }
    }
    if (spring.retainer_to_seal_mm) {
        if (const auto bad =
                outside("retainer_to_seal", *spring.retainer_to_seal_mm, {0.0, 100.0, "mm"})) {
            return *bad;
        }
    }
    if (spring.wire) {
        const auto good = check_wire(*spring.wire);
        if (!good) {
            return under("wire", good.error());
        }
    }
    return Done{};
}

Result<ValveSpring> spring_from_rate(double installed_height_mm, double seat_load_N,
                                     double rate_N_per_mm) {
    if (const auto bad = outside("rate", rate_N_per_mm, rates)) {
        return *bad;
    }
    if (const auto bad =
            outside("installed_height", installed_height_mm, {2.0, heights.high, "mm"})) {
        return *bad;
    }
    if (const auto bad = outside("seat_load", seat_load_N, {0.0, 10000.0, "N"})) {
        return *bad;
    }
    // Any second height does, as the line goes on.
    constexpr double down_mm = 1.0;
    return spring_from_two_loads(
        {installed_height_mm, seat_load_N},
        {installed_height_mm - down_mm, seat_load_N + rate_N_per_mm * down_mm});
}

Result<ValveSpring> spring_from_two_loads(const SpringLoad& closed, const SpringLoad& open) {
    ValveSpring spring;
    spring.installed_height_mm = closed.height_mm;
    spring.loads = {closed, open};
    const auto good = check_spring(spring);
    if (!good) {
        return good.error();
    }
    return spring;
}

Result<ValveSpring> spring_from_wire(const SpringWire& wire, SpringEnds ends, double free_height_mm,
                                     double installed_height_mm) {
    const auto good_wire = check_wire(wire);
    if (!good_wire) {
        return good_wire.error();
    }
    const double solid_mm =
        ends == SpringEnds::ground ? solid_height(wire) : solid_height_unground(wire);
    if (const auto bad = outside("free_height", free_height_mm, {solid_mm, heights.high, "mm"})) {
        return *bad;
    }
    if (const auto bad =
            outside("installed_height", installed_height_mm, {solid_mm, free_height_mm, "mm"})) {
        return *bad;
    }
    ValveSpring spring;
    spring.installed_height_mm = installed_height_mm;
    spring.loads = {{free_height_mm, 0.0},
                    {solid_mm, spring_rate(wire) * (free_height_mm - solid_mm)}};
    spring.bind_height_mm = solid_mm;
    spring.wire = wire;
    const auto good = check_spring(spring);
    if (!good) {
        return good.error();
    }
    return spring;
}

Result<ValveSpring> nested(const ValveSpring& outer, const ValveSpring& inner,
                           double seat_step_mm) {
    const auto good_outer = check_spring(outer);
    if (!good_outer) {
        return under("outer", good_outer.error());
    }
    if (const auto bad = outside("seat_step", seat_step_mm, seat_steps)) {
        return *bad;
    }
    ValveSpring inside = inner;
    inside.installed_height_mm = outer.installed_height_mm - seat_step_mm;
    const auto good_inner = check_spring(inside);
    if (!good_inner) {
        return under("inner", good_inner.error());
    }
    ValveSpring nest = outer;
    nest.bind_height_mm.reset();
    if (outer.bind_height_mm && inside.bind_height_mm) {
        nest.bind_height_mm =
            std::max(*outer.bind_height_mm, *inside.bind_height_mm + seat_step_mm);
    }
    if (inside.retainer_to_seal_mm) {
        nest.retainer_to_seal_mm =
            std::min(outer.retainer_to_seal_mm.value_or(*inside.retainer_to_seal_mm),
                     *inside.retainer_to_seal_mm);
    }
    nest.loads = loads_together(outer, inside, seat_step_mm, nest.bind_height_mm);
    const auto good = check_spring(nest);
    if (!good) {
        return good.error();
    }
    return nest;
}

SpringAtFullLift at_full_lift(const ValveSpring& spring, double full_valve_lift_mm) {
    SpringAtFullLift open;
    open.height_mm = spring.installed_height_mm - full_valve_lift_mm;
    open.load_N = spring.load_N(open.height_mm);
    open.rate_N_per_mm = spring.rate_N_per_mm(open.height_mm);
    if (spring.bind_height_mm) {
        open.to_bind_mm = open.height_mm - *spring.bind_height_mm;
    }
    if (spring.retainer_to_seal_mm) {
        open.retainer_to_seal_mm = *spring.retainer_to_seal_mm - full_valve_lift_mm;
    }
    return open;
}

} // namespace rodway
