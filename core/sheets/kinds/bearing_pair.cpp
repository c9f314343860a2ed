#include "core/sheets/kinds/bearing_pair.h"

#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// What the gauge makes of a bearing: bore less journal, over all directions read.
std::optional<Interval> gauged(const TakenReadings& readings, const BearingQuantities& quantities,
                               const std::string& name) {
    const auto bore = spread_at(readings, quantities.bore, quantities.part, name);
    const auto shaft = spread_at(readings, quantities.journal, quantities.part, name);
    if (!bore || !shaft) {
        return std::nullopt;
    }
    return *bore - *shaft;
}

} // namespace

SheetOutcome bearing_outcome(const TakenReadings& readings, const BearingQuantities& quantities,
                             std::string_view method) {
    SheetOutcome outcome;
    for (const std::string& name :
         parts_read(readings, {quantities.journal, quantities.bore}, quantities.part)) {
        const auto clearance = gauged(readings, quantities, name);
        if (!clearance) {
            continue;
        }
        const std::string position = std::string(quantities.mark) + name;
        const std::size_t before = outcome.findings.size();
        add_beside_reading(outcome, readings, quantities.clearance, position, *clearance);
        // A plastic strip that differs is a second opinion, not a slip of the pen: both stay.
        if (outcome.findings.size() > before &&
            readings.word(method, position) == "plastic_strip") {
            outcome.findings.back().what = PointedOut::methods_differ;
        }
    }
    const auto slips = micrometer_slips(readings, quantities);
    outcome.findings.insert(outcome.findings.end(), slips.begin(), slips.end());
    return outcome;
}

} // namespace rodway
