#include "core/valvetrain/lash_growth.h"

#include <map>

#include "core/units/length.h"

namespace rodway {
namespace {

constexpr double spread_share = 0.055;

const Limits lengths_allowed{0.0, 2000.0, "mm"};
const Limits warming{-100.0, 500.0, "K"};
const Limits offsets{-2.0, 2.0, "mm"};

double listed_per_K(Metal metal) {
    switch (metal) {
        case Metal::carbon_steel:
            return 11.7e-6;
        case Metal::alloy_steel:
            return 12.3e-6;
        case Metal::grey_iron:
            return 11.4e-6;
        case Metal::ductile_iron:
            return 11.2e-6;
        case Metal::strong_ductile_iron:
            return 10.6e-6;
        case Metal::cast_aluminium:
            return 21.5e-6;
        case Metal::wrought_aluminium:
            return 23.6e-6;
        case Metal::titanium_alloy:
            break;
    }
    return 8.6e-6;
}

/// What a length's growth does to the gap at the valve, mm for each mm.
double leverage(const WarmLength& length, double ratio) {
    return (length.under_pivot ? 1.0 + ratio : 0.0) - (length.under_rod_seat ? ratio : 0.0) -
           (length.under_valve_tip ? 1.0 : 0.0);
}

/// Growth of the gap as it was passed round, cold less hot; see LashOffsetBasis::other_rule.
Interval other_rule_mm(EngineMetals metals) {
    const auto growth = [](double low_in, double high_in) {
        return -Interval{Length::inches(low_in).in_mm(), Length::inches(high_in).in_mm()};
    };
    switch (metals) {
        case EngineMetals::iron:
            return growth(0.003, 0.005);
        case EngineMetals::iron_block_aluminium_heads:
            return growth(0.005, 0.007);
        case EngineMetals::aluminium:
            break;
    }
    return growth(0.007, 0.015);
}

LashOffset offset_of(LashOffsetBasis basis, FigureSource source, const Interval& cold_less_hot_mm,
                     const Interval& hot_lash_mm) {
    LashOffset offset{basis, source, cold_less_hot_mm, {}};
    if (const Interval cold_mm = hot_lash_mm + cold_less_hot_mm; cold_mm.high >= 0.0) {
        offset.cold_lash_mm = cold_mm;
    }
    return offset;
}

} // namespace

Interval expansion_per_K(Metal metal) {
    const double listed = listed_per_K(metal);
    return Interval::about(listed, spread_share * listed);
}

Result<Interval> growth_mm(Metal metal, const Interval& length_mm, const Interval& warmed_K) {
    if (const auto bad = first_outside(
            {{"length", length_mm, lengths_allowed}, {"warmed", warmed_K, warming}})) {
        return *bad;
    }
    return product(expansion_per_K(metal), product(length_mm, warmed_K));
}

Result<Interval> gap_growth_mm(const std::vector<WarmLength>& lengths, double rocker_ratio) {
    if (lengths.empty()) {
        return Error{ErrorCode::too_few_rows, "lengths", "0", "1", {}, {}};
    }
    if (const auto bad =
            first_outside({{"ratio", Interval::exactly(rocker_ratio), {0.5, 4.0, {}}}})) {
        return *bad;
    }
    std::map<Metal, Interval> levered_mm_K;
    int line = 0;
    for (const WarmLength& length : lengths) {
        ++line;
        if (const auto bad = first_outside({{"length", length.length_mm, lengths_allowed, line},
                                            {"warmed", length.warmed_K, warming, line}})) {
            return *bad;
        }
        Interval& sum = levered_mm_K[length.metal];
        sum = sum + product(length.length_mm, length.warmed_K) * leverage(length, rocker_ratio);
    }
    Interval growth;
    for (const auto& [metal, levered] : levered_mm_K) {
        growth = growth + product(expansion_per_K(metal), levered);
    }
    return growth;
}

Result<std::vector<LashOffset>> cold_lash_choices(const Interval& hot_lash_mm,
                                                  const LashGrowthKnown& known) {
    const Interval none = Interval::exactly(0.0);
    if (const auto bad =
            first_outside({{"hot_lash", hot_lash_mm, {0.0, 5.0, "mm"}},
                           {"own_offset", known.own_cold_less_hot_mm.value_or(none), offsets},
                           {"worked_out", known.worked_out_growth_mm.value_or(none), offsets}})) {
        return *bad;
    }
    std::vector<LashOffset> choices;
    const auto add = [&](LashOffsetBasis basis, FigureSource source, const Interval& offset_mm) {
        choices.push_back(offset_of(basis, source, offset_mm, hot_lash_mm));
    };
    if (known.own_cold_less_hot_mm) {
        add(LashOffsetBasis::measured_here, FigureSource::measured_here,
            *known.own_cold_less_hot_mm);
    }
    if (known.worked_out_growth_mm) {
        add(LashOffsetBasis::expansion, FigureSource::published, -*known.worked_out_growth_mm);
    }
    if (known.metals) {
        add(LashOffsetBasis::rule, FigureSource::common_practice,
            Interval::exactly(published_cold_less_hot_mm(*known.metals)));
        add(LashOffsetBasis::other_rule, FigureSource::common_practice,
            other_rule_mm(*known.metals));
    }
    if (choices.empty()) {
        return Error{ErrorCode::missing_field, "offset", {}, {}, {}, {}};
    }
    return choices;
}

} // namespace rodway
