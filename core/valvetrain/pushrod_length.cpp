#include "core/valvetrain/pushrod_length.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr double least_ball_mm = 2.0;
constexpr double greatest_ball_mm = 30.0;
constexpr double greatest_length_mm = 1000.0;
constexpr double least_step_mm = 0.01;
constexpr double greatest_step_mm = 100.0;
/// Inches in millimetres round; a millionth of a step is no length.
constexpr double step_rounding = 1e-6;

Error outside(std::string field, double value, double low, double high) {
    return {ErrorCode::out_of_range, std::move(field), exact_text(value), {}, {},
            Limits{low, high, "mm"}};
}

bool within(double value, double low, double high) {
    return value >= low && value <= high;
}

/// What one end adds beyond its ball's centre.
Result<double> beyond_centre_mm(const RodEnd& end, const std::string& name,
                                const LengthMeasure& measure) {
    if (!within(end.ball_diameter_mm, least_ball_mm, greatest_ball_mm)) {
        return outside(name + "/ball_diameter", end.ball_diameter_mm, least_ball_mm,
                       greatest_ball_mm);
    }
    const double radius = end.ball_diameter_mm / 2.0;
    const bool cup = end.kind == RodEndKind::cup;
    switch (measure.definition) {
        case LengthDefinition::between_centres:
            return 0.0;
        case LengthDefinition::effective:
            return cup ? -radius : radius;
        case LengthDefinition::overall:
            if (!cup) {
                return radius;
            }
            if (!end.cup_depth_mm) {
                return Error{ErrorCode::missing_field, name + "/cup_depth", {}, {}, {}, {}};
            }
            if (!(*end.cup_depth_mm > 0.0 && *end.cup_depth_mm <= end.ball_diameter_mm)) {
                return outside(name + "/cup_depth", *end.cup_depth_mm, 0.0, end.ball_diameter_mm);
            }
            return *end.cup_depth_mm - radius;
        case LengthDefinition::gauge:
            break;
    }
    if (cup) {
        return Error{ErrorCode::not_a_choice, name + "/kind", "cup", "ball", {}, {}};
    }
    if (!measure.gauge_hole_mm) {
        return Error{ErrorCode::missing_field, "gauge_hole", {}, {}, {}, {}};
    }
    const double hole = *measure.gauge_hole_mm;
    if (!(hole > 0.0 && hole < end.ball_diameter_mm)) {
        return outside("gauge_hole", hole, 0.0, end.ball_diameter_mm);
    }
    return std::sqrt((radius - hole / 2.0) * (radius + hole / 2.0));
}

/// Number of steps, a hair's breadth of one forgiven.
double steps_down(double length_mm, double step_mm) {
    return std::floor(length_mm / step_mm + step_rounding);
}
double steps_up(double length_mm, double step_mm) {
    return std::ceil(length_mm / step_mm - step_rounding);
}

/// Lengths between centres with which a valve can do.
struct Allowed {
    double low_mm;
    double high_mm;
    std::size_t valve; ///< place in the list given

    [[nodiscard]] bool holds(double mm) const { return mm >= low_mm && mm <= high_mm; }
};

double allowed_low_mm(const RequiredLength& valve) {
    return valve.centres_mm - valve.may_be_shorter_mm;
}
double allowed_high_mm(const RequiredLength& valve) {
    return valve.centres_mm + valve.may_be_longer_mm;
}

FittedLength fitted(const RequiredLength& valve, double centres_mm) {
    return {valve.valve, centres_mm, centres_mm - allowed_low_mm(valve),
            allowed_high_mm(valve) - centres_mm};
}

SingleLength one_for_all(const std::vector<RequiredLength>& required, double centres_mm) {
    SingleLength single;
    single.centres_mm = centres_mm;
    for (const RequiredLength& valve : required) {
        single.valves.push_back(fitted(valve, centres_mm));
    }
    return single;
}

/// The nearest stocked length, between centres, to one wanted within [low, high], which itself
/// holds one or more. `low` and `high` are stocked lengths.
double nearest_stocked_mm(double wanted_mm, double low_mm, double high_mm, const Stock& stock) {
    const double steps = std::round((wanted_mm + stock.beyond_centres_mm) / stock.step_mm);
    return std::clamp(steps * stock.step_mm - stock.beyond_centres_mm, low_mm, high_mm);
}

/// The interval drawn in to its first and last stocked length; empty if it holds none.
std::optional<Allowed> drawn_in(const Allowed& allowed, const std::optional<Stock>& stock) {
    if (!stock) {
        return allowed;
    }
    const double beyond = stock->beyond_centres_mm;
    const double first = steps_up(allowed.low_mm + beyond, stock->step_mm);
    const double last = steps_down(allowed.high_mm + beyond, stock->step_mm);
    if (first > last) {
        return std::nullopt;
    }
    return Allowed{first * stock->step_mm - beyond, last * stock->step_mm - beyond, allowed.valve};
}

/// Valves that share a length, and the lengths that suit them all.
struct Sharing {
    double low_mm;
    double high_mm;
    std::vector<std::size_t> valves;
};

/// The fewest groups. Taken by rising upper limit, a valve opens a group only if it can't do with
/// the last group's upper limit; that limit is the first member's, the least of them all.
std::vector<Sharing> fewest_groups(std::vector<Allowed> allowed) {
    std::stable_sort(allowed.begin(), allowed.end(),
                     [](const Allowed& a, const Allowed& b) { return a.high_mm < b.high_mm; });
    std::vector<Sharing> groups;
    for (const Allowed& valve : allowed) {
        if (groups.empty() || !valve.holds(groups.back().high_mm)) {
            groups.push_back({valve.low_mm, valve.high_mm, {}});
        }
        groups.back().low_mm = std::max(groups.back().low_mm, valve.low_mm);
        groups.back().valves.push_back(valve.valve);
    }
    return groups;
}

double middle_wanted_mm(const std::vector<RequiredLength>& required,
                        const std::vector<std::size_t>& valves) {
    double shortest = required[valves.front()].centres_mm;
    double longest = shortest;
    for (const std::size_t valve : valves) {
        shortest = std::min(shortest, required[valve].centres_mm);
        longest = std::max(longest, required[valve].centres_mm);
    }
    return (shortest + longest) / 2.0;
}

std::optional<Error> wrong_input(const std::vector<RequiredLength>& required,
                                 const std::optional<Stock>& stock) {
    if (required.empty()) {
        return Error{ErrorCode::too_few_rows, "valves", "0", "1", {}, {}};
    }
    std::set<ValvePosition> seen;
    for (const RequiredLength& valve : required) {
        if (!(valve.centres_mm > 0.0 && valve.centres_mm <= greatest_length_mm)) {
            return outside("centres", valve.centres_mm, 0.0, greatest_length_mm);
        }
        if (!within(valve.may_be_shorter_mm, 0.0, greatest_length_mm)) {
            return outside("may_be_shorter", valve.may_be_shorter_mm, 0.0, greatest_length_mm);
        }
        if (!within(valve.may_be_longer_mm, 0.0, greatest_length_mm)) {
            return outside("may_be_longer", valve.may_be_longer_mm, 0.0, greatest_length_mm);
        }
        if (!seen.insert(valve.valve).second) {
            return Error{
                ErrorCode::duplicate_field, "valves", position_name(valve.valve), {}, {}, {}};
        }
    }
    if (stock && !within(stock->step_mm, least_step_mm, greatest_step_mm)) {
        return outside("step", stock->step_mm, least_step_mm, greatest_step_mm);
    }
    if (stock && !(std::abs(stock->beyond_centres_mm) <= 2.0 * greatest_ball_mm)) {
        return outside("beyond_centres", stock->beyond_centres_mm, -2.0 * greatest_ball_mm,
                       2.0 * greatest_ball_mm);
    }
    return std::nullopt;
}

void find_single(const std::vector<RequiredLength>& required, const std::optional<Stock>& stock,
                 LengthSurvey& survey) {
    Allowed common{allowed_low_mm(required.front()), allowed_high_mm(required.front()), 0};
    survey.shortest_mm = required.front().centres_mm;
    survey.longest_mm = survey.shortest_mm;
    for (const RequiredLength& valve : required) {
        common.low_mm = std::max(common.low_mm, allowed_low_mm(valve));
        common.high_mm = std::min(common.high_mm, allowed_high_mm(valve));
        survey.shortest_mm = std::min(survey.shortest_mm, valve.centres_mm);
        survey.longest_mm = std::max(survey.longest_mm, valve.centres_mm);
    }
    survey.spread_mm = survey.longest_mm - survey.shortest_mm;
    survey.one_length_suits_all = common.low_mm <= common.high_mm;
    double best = (survey.shortest_mm + survey.longest_mm) / 2.0;
    if (survey.one_length_suits_all) {
        best = std::clamp(best, common.low_mm, common.high_mm);
        if (const auto in_stock = stock ? drawn_in(common, stock) : std::nullopt) {
            survey.stocked_single = one_for_all(
                required, nearest_stocked_mm(best, in_stock->low_mm, in_stock->high_mm, *stock));
        }
    }
    survey.best_single = one_for_all(required, best);
}

} // namespace

Result<double> beyond_centres_mm(const RodEnds& ends, const LengthMeasure& measure) {
    const auto lower = beyond_centre_mm(ends.lower, "lower", measure);
    if (!lower) {
        return lower;
    }
    const auto upper = beyond_centre_mm(ends.upper, "upper", measure);
    if (!upper) {
        return upper;
    }
    return *lower + *upper;
}

Result<double> convert_length_mm(double length_mm, const RodEnds& ends, const LengthMeasure& from,
                                 const LengthMeasure& to) {
    const auto measured = beyond_centres_mm(ends, from);
    if (!measured) {
        return measured;
    }
    const auto wanted = beyond_centres_mm(ends, to);
    if (!wanted) {
        return wanted;
    }
    const double centres = length_mm - *measured;
    const double converted = centres + *wanted;
    if (!(length_mm <= greatest_length_mm) || !(centres > 0.0) || !(converted > 0.0)) {
        return outside("length", length_mm, std::max({0.0, *measured, *measured - *wanted}),
                       greatest_length_mm);
    }
    return converted;
}

Result<SteppedLength> round_to_step(double length_mm, double step_mm) {
    if (!within(length_mm, 0.0, greatest_length_mm)) {
        return outside("length", length_mm, 0.0, greatest_length_mm);
    }
    if (!within(step_mm, least_step_mm, greatest_step_mm)) {
        return outside("step", step_mm, least_step_mm, greatest_step_mm);
    }
    SteppedLength stepped;
    stepped.down_mm = steps_down(length_mm, step_mm) * step_mm;
    stepped.up_mm = steps_up(length_mm, step_mm) * step_mm;
    const double halfway = (stepped.down_mm + stepped.up_mm) / 2.0;
    stepped.nearest_mm =
        length_mm < halfway - step_rounding * step_mm ? stepped.down_mm : stepped.up_mm;
    stepped.left_mm = stepped.nearest_mm - length_mm;
    return stepped;
}

Result<LengthSurvey> survey_lengths(const std::vector<RequiredLength>& required,
                                    const std::optional<Stock>& stock) {
    if (const auto wrong = wrong_input(required, stock)) {
        return *wrong;
    }
    LengthSurvey survey;
    find_single(required, stock, survey);
    std::vector<Allowed> allowed;
    for (std::size_t at = 0; at < required.size(); ++at) {
        const auto lengths = drawn_in(
            Allowed{allowed_low_mm(required[at]), allowed_high_mm(required[at]), at}, stock);
        if (lengths) {
            allowed.push_back(*lengths);
        } else {
            survey.no_stocked_length.push_back(required[at].valve);
        }
    }
    std::vector<std::optional<double>> taken(required.size());
    for (const Sharing& group : fewest_groups(allowed)) {
        const double wanted = middle_wanted_mm(required, group.valves);
        const double length = stock
                                  ? nearest_stocked_mm(wanted, group.low_mm, group.high_mm, *stock)
                                  : std::clamp(wanted, group.low_mm, group.high_mm);
        survey.lengths_mm.push_back(length);
        for (const std::size_t valve : group.valves) {
            taken[valve] = length;
        }
    }
    for (std::size_t at = 0; at < required.size(); ++at) {
        if (taken[at]) {
            survey.valves.push_back(fitted(required[at], *taken[at]));
        }
    }
    return survey;
}

} // namespace rodway
