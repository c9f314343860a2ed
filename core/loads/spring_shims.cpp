#include "core/loads/spring_shims.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <utility>

#include "core/units/within.h"

namespace rodway {
namespace {

/// Sums of thicknesses typed in inches don't come out even; a limit met to this is met.
constexpr double rounding_mm = 1e-6;
constexpr double rounding_N = 1e-3;

constexpr std::size_t most_thicknesses = 12;
constexpr double least_height_mm = 1.0; // of a spring on its shims

std::optional<Error> wrong_aim(const ShimAim& aim) {
    const Limits all = aim.of == ShimAim::Of::seat_load ? Limits{0.0, 20000.0, "N"}
                                                        : Limits{least_height_mm, 500.0, "mm"};
    if (auto bad = outside("aim/low", aim.low, all)) {
        return bad;
    }
    if (auto bad = outside("aim/high", aim.high, {aim.low, all.high, all.unit})) {
        return bad;
    }
    return aim.target ? outside("aim/target", *aim.target, {aim.low, aim.high, all.unit})
                      : std::nullopt;
}

std::optional<Error> wrong_stock(const ShimStock& stock) {
    if (stock.thicknesses_mm.size() > most_thicknesses) {
        return Error{ErrorCode::out_of_range,
                     "thicknesses",
                     std::to_string(stock.thicknesses_mm.size()),
                     {},
                     {},
                     Limits{0.0, static_cast<double>(most_thicknesses), {}}};
    }
    for (std::size_t at = 0; at < stock.thicknesses_mm.size(); ++at) {
        if (auto bad = outside("thicknesses", stock.thicknesses_mm[at], {0.05, 10.0, "mm"},
                               static_cast<int>(at) + 1)) {
            return bad;
        }
    }
    if (auto bad = outside("greatest_stack", stock.greatest_stack_mm, {0.0, 20.0, "mm"})) {
        return bad;
    }
    if (auto bad = outside("most_in_a_stack", stock.most_in_a_stack, {0.0, 6.0, {}})) {
        return bad;
    }
    return outside("least_to_bind", stock.least_to_bind_mm, {0.0, 20.0, "mm"});
}

using Stack = std::vector<double>;

double thickness_mm(const Stack& stack) {
    double sum_mm = 0.0;
    for (const double shim_mm : stack) {
        sum_mm += shim_mm;
    }
    return sum_mm;
}

/// Adds to `stacks` the given one and all that grow from it, thickest first.
void grow(const Stack& stack, const Stack& stocked_mm, std::size_t from, const ShimStock& stock,
          std::vector<Stack>& stacks) {
    stacks.push_back(stack);
    if (static_cast<int>(stack.size()) >= stock.most_in_a_stack) {
        return;
    }
    for (std::size_t at = from; at < stocked_mm.size(); ++at) {
        Stack longer = stack;
        longer.push_back(stocked_mm[at]);
        if (thickness_mm(longer) <= stock.greatest_stack_mm + rounding_mm) {
            grow(longer, stocked_mm, at, stock, stacks);
        }
    }
}

std::vector<Stack> all_stacks(const ShimStock& stock) {
    Stack stocked_mm = stock.thicknesses_mm;
    std::sort(stocked_mm.begin(), stocked_mm.end(), std::greater<>());
    stocked_mm.erase(std::unique(stocked_mm.begin(), stocked_mm.end()), stocked_mm.end());
    std::vector<Stack> stacks;
    grow({}, stocked_mm, 0, stock, stacks);
    return stacks;
}

ShimChoice fitted(const ValveSpring& spring, Stack stack, double full_valve_lift_mm) {
    ValveSpring shimmed = spring;
    ShimChoice choice;
    choice.stack_mm = thickness_mm(stack);
    choice.shims_mm = std::move(stack);
    shimmed.installed_height_mm -= choice.stack_mm;
    choice.installed_height_mm = shimmed.installed_height_mm;
    choice.seat_load_N = shimmed.seat_load_N();
    choice.open = at_full_lift(shimmed, full_valve_lift_mm);
    choice.bind_checked = choice.open.to_bind_mm.has_value();
    return choice;
}

/// How far one choice is from what is wanted.
struct Miss {
    bool outside_band = false;
    double from_target = 0.0; ///< N or mm
    double tie = 0.0;         ///< less apart than this is no difference, N or mm
    std::size_t shims = 0;

    [[nodiscard]] bool less_than(const Miss& other) const {
        if (outside_band != other.outside_band) {
            return !outside_band;
        }
        if (std::abs(from_target - other.from_target) > tie) {
            return from_target < other.from_target;
        }
        return shims < other.shims;
    }
};

Miss miss_of(const ShimChoice& choice, const ShimAim& aim) {
    const bool load = aim.of == ShimAim::Of::seat_load;
    const double reached = load ? choice.seat_load_N : choice.installed_height_mm;
    const double target = aim.target.value_or((aim.low + aim.high) / 2.0);
    const double tie = load ? rounding_N : rounding_mm;
    const bool out = reached < aim.low - tie || reached > aim.high + tie;
    return {out, std::abs(reached - target), tie, choice.shims_mm.size()};
}

} // namespace

Result<ShimChoice> choose_shims(const ValveSpring& spring, const ShimAim& aim,
                                const ShimStock& stock, double full_valve_lift_mm) {
    const auto good = check_spring(spring);
    if (!good) {
        return good.error();
    }
    if (const auto bad = wrong_aim(aim)) {
        return *bad;
    }
    if (const auto bad = wrong_stock(stock)) {
        return *bad;
    }
    if (const auto bad = outside("full_valve_lift", full_valve_lift_mm, {0.0, 50.0, "mm"})) {
        return *bad;
    }
    const auto leaves_enough = [&](const ShimChoice& choice) {
        return choice.open.height_mm >= least_height_mm &&
               (!choice.bind_checked ||
                *choice.open.to_bind_mm >= stock.least_to_bind_mm - rounding_mm);
    };
    ShimChoice best = fitted(spring, {}, full_valve_lift_mm);
    if (!leaves_enough(best)) {
        best.status = ShimStatus::binds_bare;
        return best;
    }
    bool band_beyond_bind = false;
    for (Stack& stack : all_stacks(stock)) {
        const ShimChoice choice = fitted(spring, std::move(stack), full_valve_lift_mm);
        const Miss miss = miss_of(choice, aim);
        if (!leaves_enough(choice)) {
            band_beyond_bind = band_beyond_bind || !miss.outside_band;
        } else if (miss.less_than(miss_of(best, aim))) {
            best = choice;
        }
    }
    best.status = !miss_of(best, aim).outside_band ? ShimStatus::in_band
                  : band_beyond_bind               ? ShimStatus::held_by_bind
                                                   : ShimStatus::not_in_band;
    return best;
}

} // namespace rodway
