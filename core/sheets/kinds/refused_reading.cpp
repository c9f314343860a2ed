#include "core/sheets/kinds/refused_reading.h"

#include <algorithm>

#include "core/sheets/sheet_kinds.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

bool alike(const SheetFinding& one, const SheetFinding& other) {
    return one.what == other.what && one.quantity == other.quantity &&
           one.numbers == other.numbers && one.other == other.other;
}

} // namespace

void point_out(SheetFinding finding, SheetOutcome& outcome) {
    const auto same = std::find_if(outcome.findings.begin(), outcome.findings.end(),
                                   [&](const SheetFinding& one) { return alike(one, finding); });
    if (same == outcome.findings.end()) {
        outcome.findings.push_back(std::move(finding));
        return;
    }
    for (std::string& position : finding.positions) {
        if (std::find(same->positions.begin(), same->positions.end(), position) ==
            same->positions.end()) {
            same->positions.push_back(std::move(position));
        }
    }
}

void point_out_refused(const Error& error, std::string_view figure, const std::string& position,
                       const std::vector<ReadingOfField>& fields, SheetOutcome& outcome) {
    const auto of = std::find_if(fields.begin(), fields.end(), [&](const ReadingOfField& one) {
        return one.field == error.field;
    });
    const auto value = parse_number(error.value);
    if (of == fields.end() || !value || !error.limits) {
        return;
    }
    const double one_end = error.limits->low * of->factor + of->offset;
    const double other_end = error.limits->high * of->factor + of->offset;
    point_out({PointedOut::out_of_range,
               std::string(figure),
               {position},
               {*value * of->factor + of->offset, std::min(one_end, other_end),
                std::max(one_end, other_end)},
               dimension_of(find_quantity(of->reading)->form),
               std::string(of->reading)},
              outcome);
}

void point_out_needed(std::string_view figure, const std::string& position,
                      std::string_view reading, SheetOutcome& outcome) {
    point_out({PointedOut::needs_reading,
               std::string(figure),
               {position},
               {},
               Dimension::none,
               std::string(reading)},
              outcome);
}

} // namespace rodway
