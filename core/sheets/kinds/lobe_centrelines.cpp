#include "core/sheets/kinds/lobe_centrelines.h"

#include <cmath>

#include "core/sheets/kinds/set_up_lift.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

constexpr double usual_checking_lift_mm = 0.050 * inch_mm;

/// How far a pair stands from where its method customarily looks.
double from_customary_mm(const SheetFacts& facts, const DegreedLobe& lobe,
                         CentrelineMethod method) {
    const double above_mm = method == CentrelineMethod::off_the_heel
                                ? lobe.rise_mm
                                : full_lobe_lift_mm(facts, lobe.lobe)->middle() - lobe.rise_mm;
    return std::abs(above_mm - usual_checking_lift_mm);
}

/// A lobe's centreline by one method: from the pair of marks nearest to .050 in, else from its
/// lift table.
std::optional<DoubtedCentreline> centreline_by(CentrelineMethod method, const SheetFacts& facts,
                                               const std::string& lobe,
                                               const std::vector<DegreedLobe>& pairs,
                                               const WheelZero& zero) {
    std::optional<DoubtedCentreline> best;
    double best_mm = 0.0;
    for (const DegreedLobe& pair : pairs) {
        if (pair.lobe != lobe || method_of(facts, pair) != method) {
            continue;
        }
        const double away_mm = from_customary_mm(facts, pair, method);
        const auto found = centreline_of(pair, method, zero);
        if (found && (!best || away_mm < best_mm)) {
            best = found;
            best_mm = away_mm;
        }
    }
    if (best) {
        return best;
    }
    const auto by_table = by_lift_table(facts.readings, lobe, method, usual_checking_lift_mm);
    return by_table ? centreline_of(*by_table, method, zero) : std::nullopt;
}

} // namespace

std::optional<CentrelineMethod> method_of(const SheetFacts& facts, const DegreedLobe& lobe) {
    if (const auto lift_mm = full_lobe_lift_mm(facts, lobe.lobe)) {
        return lobe.rise_mm < lift_mm->middle() / 2.0 ? CentrelineMethod::off_the_heel
                                                      : CentrelineMethod::below_the_peak;
    }
    constexpr double highest_customary_mm = 0.1001 * inch_mm;
    return lobe.rise_mm <= highest_customary_mm ? std::optional(CentrelineMethod::off_the_heel)
                                                : std::nullopt;
}

std::optional<DoubtedCentreline> to_compare(const TakenReadings& readings,
                                            const LobeCentrelines& lobe) {
    const auto written = readings.number("lobe_centreline", lobe.lobe);
    if (!written) {
        return lobe.from_heel ? lobe.from_heel : lobe.from_peak;
    }
    DoubtedCentreline found;
    found.found.kind = valve_called(lobe.lobe).kind;
    found.found.centreline_crank_deg = std::abs(written->middle());
    found.doubt_crank_deg = written->half_width();
    return found;
}

std::vector<LobeCentrelines> lobe_centrelines(const SheetFacts& facts,
                                              const std::vector<DegreedLobe>& pairs,
                                              const std::optional<WheelZero>& zero) {
    std::vector<LobeCentrelines> lobes;
    for (const std::string& lobe :
         valves_read(facts.readings, {"lobe_event", "lift_at_angle", "lobe_centreline"})) {
        lobes.push_back({lobe, {}, {}});
        if (zero) {
            lobes.back().from_heel =
                centreline_by(CentrelineMethod::off_the_heel, facts, lobe, pairs, *zero);
            lobes.back().from_peak =
                centreline_by(CentrelineMethod::below_the_peak, facts, lobe, pairs, *zero);
        }
    }
    return lobes;
}

} // namespace rodway
