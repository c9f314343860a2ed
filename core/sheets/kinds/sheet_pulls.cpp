#include "core/sheets/kinds/sheet_pulls.h"

#include <algorithm>

#include "core/sheets/kinds/pull_rows.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

std::optional<Pull> raw_rows(const TakenReadings& readings, const std::string& number) {
    Pull pull;
    for (const ReadRow& row : rows_of(readings, number)) {
        pull.rows.push_back({row.speed_rpm, Torque::Nm(row.torque_Nm.middle())});
    }
    return check_pull(pull) ? std::optional(pull) : std::nullopt;
}

/// What the weather lacks, whether or not anybody has begun on it.
std::vector<std::string> needs_of(const SheetOutcome& outcome, const TakenReadings& readings,
                                  const std::string& pull) {
    std::vector<std::string> needs;
    for (const SheetFinding& finding : outcome.findings) {
        if (finding.what == PointedOut::needs_reading || finding.what == PointedOut::out_of_range) {
            needs.push_back(finding.other);
        }
    }
    if (!needs.empty()) {
        return needs;
    }
    for (const char* quantity :
         {"pull_air_pressure", "pull_barometer_kind", "pull_dry_bulb", "pull_humidity"}) {
        if (readings.at(quantity, pull) == nullptr) {
            needs.emplace_back(quantity);
        }
    }
    return needs;
}

} // namespace

std::vector<SheetPull> sheet_pulls(const SheetFacts& facts) {
    std::vector<SheetPull> pulls;
    for (const std::string& number :
         parts_read(facts.readings, {"pull_torque", "pull_power"}, PlacePart::pull)) {
        SheetPull pull;
        pull.position = "pull " + number;
        pull.raw = raw_rows(facts.readings, number);
        SheetOutcome outcome;
        pull.air = work_out_air(facts, pull.position, outcome);
        if (!pull.air) {
            pull.air_needs = needs_of(outcome, facts.readings, pull.position);
        }
        pulls.push_back(std::move(pull));
    }
    return pulls;
}

} // namespace rodway
