#include "tests/twins/slow_timing.h"

#include <algorithm>
#include <cmath>

namespace rodway::twins {

SampledLift sampled_lift(const Engine& engine, const ValvePosition& valve, LiftOf of,
                         double step_deg) {
    SampledLift sampled{step_deg, {}};
    const Train* const train = engine.train(valve);
    const auto closing = train ? std::optional(Linkage::close(*train)) : std::nullopt;
    const long samples = std::lround(720.0 / step_deg);
    for (long at = 0; at < samples; ++at) {
        const CrankAngle crank = CrankAngle::deg(static_cast<double>(at) * step_deg);
        double lift = engine.lobe_lift_mm(valve, crank);
        if (of == LiftOf::valve) {
            const Linkage& linkage = closing.value().linkage.value();
            const double gross = linkage.gross_lift_mm(linkage.at(lift).value());
            lift = std::max(0.0, gross - train->valve.lash_mm);
        }
        sampled.lift_mm.push_back(lift);
    }
    return sampled;
}

double sampled_full_lift_mm(const SampledLift& sampled) {
    return *std::max_element(sampled.lift_mm.begin(), sampled.lift_mm.end());
}

std::optional<SampledEvents> sampled_events(const SampledLift& sampled, double lift_mm) {
    const auto samples = static_cast<long>(sampled.lift_mm.size());
    const long peak =
        std::max_element(sampled.lift_mm.begin(), sampled.lift_mm.end()) - sampled.lift_mm.begin();
    const auto stands = [&](long at) {
        const long round = ((at % samples) + samples) % samples;
        return sampled.lift_mm[static_cast<std::size_t>(round)] >= lift_mm;
    };
    if (!stands(peak)) {
        return std::nullopt;
    }
    long opens = peak;
    while (stands(opens - 1) && peak - opens < samples) {
        --opens;
    }
    long closes = peak;
    while (stands(closes + 1) && closes - peak < samples) {
        ++closes;
    }
    return SampledEvents{static_cast<double>(opens) * sampled.step_deg,
                         static_cast<double>(closes) * sampled.step_deg};
}

} // namespace rodway::twins
