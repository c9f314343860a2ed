#include "core/clearance/variant_table.h"

#include <utility>

namespace rodway {
namespace {

/// Under the limit by more than rounding, as `judge` sees it.
bool is_below(const ValveClearance& line, double limit_mm) {
    constexpr double rounding_mm = 1e-9;
    return line.found.minimum && line.found.minimum->clearance_mm < limit_mm - rounding_mm;
}

/// Counts one valve's line in.
void count(VariantOutcome& outcome, const ValveClearance& line, double limit_mm) {
    if (!line.found.minimum) {
        outcome.without_answer.push_back(line.position);
        return;
    }
    if (is_below(line, limit_mm)) {
        outcome.below_limit.push_back(line.position);
    }
    if (!outcome.least_mm || line.found.minimum->clearance_mm < *outcome.least_mm) {
        outcome.tightest = line.position;
        outcome.least_mm = line.found.minimum->clearance_mm;
    }
}

TriedClearance tried_clearance(const ValveClearance& as_it_stands, ValveClearance line,
                               double limit_mm) {
    TriedClearance tried;
    tried.falls_below_limit = is_below(line, limit_mm) && !is_below(as_it_stands, limit_mm);
    if (as_it_stands.found.minimum && line.found.minimum) {
        tried.change_mm =
            line.found.minimum->clearance_mm - as_it_stands.found.minimum->clearance_mm;
    }
    tried.line = std::move(line);
    return tried;
}

/// One more column. `lines` may be fewer than the rows if it was stopped.
void add_column(VariantTable& table, const NamedVariant& named, std::vector<ValveClearance> lines,
                double limit_mm) {
    VariantOutcome outcome{named.name, named.variant, {}, {}, {}, {}, {}};
    for (std::size_t row = 0; row < lines.size() && row < table.valves.size(); ++row) {
        ValveVariants& valve = table.valves[row];
        RODWAY_ASSERT(valve.as_it_stands.position == lines[row].position);
        valve.by_variant.push_back(
            tried_clearance(valve.as_it_stands, std::move(lines[row]), limit_mm));
        const TriedClearance& tried = valve.by_variant.back();
        count(outcome, tried.line, limit_mm);
        if (tried.falls_below_limit) {
            outcome.falls_below_limit.push_back(valve.as_it_stands.position);
        }
    }
    table.variants.push_back(std::move(outcome));
}

} // namespace

Result<VariantTable> variant_table(const Engine& engine, const std::vector<NamedVariant>& variants,
                                   const std::stop_token& stop) {
    const double limit_mm = engine.rod_clearance_limit_mm;
    auto stands = survey(engine, stop);
    if (!stands) {
        return stands.error();
    }
    VariantTable table;
    for (ValveClearance& line : std::move(stands).value()) {
        count(table.as_it_stands, line, limit_mm);
        table.valves.push_back({std::move(line), {}});
    }
    for (const NamedVariant& named : variants) {
        if (stop.stop_requested()) {
            break;
        }
        const auto changed = with_variant(engine, named.variant);
        auto lines =
            changed ? survey(*changed, stop) : Result<std::vector<ValveClearance>>(changed.error());
        if (!lines) {
            Error error = lines.error();
            error.field = named.name + (error.field.empty() ? "" : ": " + error.field);
            return error;
        }
        add_column(table, named, std::move(lines).value(), limit_mm);
    }
    return table;
}

} // namespace rodway
