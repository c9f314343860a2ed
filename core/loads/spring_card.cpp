#include "core/loads/spring_card.h"

#include <cmath>

namespace rodway {

std::optional<RateComparison> compare_rate(double stated_N_per_mm, const SpringLoad& closed,
                                           const SpringLoad& open) {
    const double down_mm = closed.height_mm - open.height_mm;
    const double gained_N = open.load_N - closed.load_N;
    const double from_loads = gained_N / down_mm;
    const double more_by = stated_N_per_mm / from_loads - 1.0;
    if (!(down_mm > 0.0) || !(gained_N > 0.0) || !(stated_N_per_mm > 0.0) ||
        !std::isfinite(from_loads) || !std::isfinite(more_by)) {
        return std::nullopt;
    }
    return RateComparison{from_loads, more_by};
}

std::optional<TwinComparison> compare_twins(const PrintedValue& first, const PrintedValue& second) {
    TwinComparison twins;
    twins.first_more_by = first.value - second.value;
    twins.rounding = (first.step + second.step) / 2.0;
    if (!std::isfinite(twins.first_more_by) || !std::isfinite(twins.rounding) ||
        !(first.step >= 0.0) || !(second.step >= 0.0)) {
        return std::nullopt;
    }
    twins.contradict = std::abs(twins.first_more_by) > twins.rounding;
    return twins;
}

} // namespace rodway
