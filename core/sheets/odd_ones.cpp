#include "core/sheets/odd_ones.h"

#include <map>
#include <string>
#include <vector>

#include "core/sheets/row_statistics.h"
#include "core/sheets/sheet_rows.h"

namespace rodway {

bool row_should_be_alike(const Quantity& quantity) {
    switch (quantity.place) {
        case Place::cylinder:
        case Place::valve:
        case Place::ring:
        case Place::main_journal:
        case Place::rod_pin:
            break;
        default:
            return false;
    }
    switch (dimension_of(quantity.form)) {
        case Dimension::length:
        case Dimension::force:
        case Dimension::mass:
        case Dimension::volume:
        case Dimension::pressure:
        case Dimension::percent:
            return quantity.origin == Origin::read;
        default:
            return false;
    }
}

std::vector<SheetFinding> odd_ones_out(const Quantity& quantity, std::span<const Taken> taken) {
    if (!row_should_be_alike(quantity)) {
        return {};
    }
    std::map<std::string, std::vector<RowReading>> rows;
    for (const Taken& one : taken) {
        if (const auto range = one.range()) {
            rows[row_name(one.place)].push_back({sheet_position_text(one.place), *range});
        }
    }
    std::vector<SheetFinding> findings;
    for (const auto& [name, row] : rows) {
        const auto statistics = row_statistics(row);
        if (!statistics) {
            continue;
        }
        for (const OddReading& odd : statistics->odd) {
            const RowReading& reading = row[odd.index];
            findings.push_back({PointedOut::odd_one_out,
                                quantity.id,
                                {reading.position},
                                {reading.value.middle(), statistics->median},
                                dimension_of(quantity.form)});
        }
    }
    return findings;
}

} // namespace rodway
