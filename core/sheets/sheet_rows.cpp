#include "core/sheets/sheet_rows.h"

#include <algorithm>

#include "core/sheets/odd_ones.h"
#include "core/sheets/position.h"

namespace rodway {
namespace {

std::optional<Interval> number_in(const SheetBox& box) {
    const auto range = box.taken ? box.taken->range() : std::nullopt;
    return range ? range : box.figure;
}

} // namespace

std::string row_name(const SheetPosition& place) {
    std::string name;
    SheetPosition common = place;
    common.parts.erase(PlacePart::cylinder);
    common.parts.erase(PlacePart::journal);
    common.parts.erase(PlacePart::bolt);
    if (const auto valve = place.part(PlacePart::valve) ? place.valve() : std::nullopt) {
        common.parts.erase(PlacePart::valve);
        name = valve->kind == ValveKind::intake ? "I" : "E";
        name += valve->which > 1 ? std::to_string(valve->which) : "";
    }
    const std::string rest = sheet_position_text(common);
    return name.empty() || rest.empty() ? name + rest : name + ' ' + rest;
}

std::optional<PartedPosition> parted_position(std::string_view position, Place place) {
    const auto read = parse_sheet_position(position, place);
    if (!read) {
        return std::nullopt;
    }
    SheetPosition rest = *read;
    PartedPosition parted;
    if (const auto valve = read->part(PlacePart::valve) ? read->valve() : std::nullopt) {
        rest.parts.erase(PlacePart::valve);
        parted = {position_name(*valve), {}, *valve, true};
    } else if (const auto cylinder =
                   read->part(PlacePart::cylinder) ? read->cylinder() : std::nullopt) {
        rest.parts.erase(PlacePart::cylinder);
        parted = {std::to_string(*cylinder), {}, {*cylinder, ValveKind::intake, 1}, false};
    } else {
        return std::nullopt;
    }
    parted.rest = sheet_position_text(rest);
    return parted;
}

std::vector<SheetRow> rows_of(const SheetLine& line) {
    std::vector<SheetRow> rows;
    for (const SheetBox& box : line.boxes) {
        const auto number = number_in(box);
        const auto place = parse_sheet_position(box.position, line.quantity.place);
        if (!number || !place) {
            continue;
        }
        const std::string name = row_name(*place);
        auto row = std::find_if(rows.begin(), rows.end(),
                                [&](const SheetRow& one) { return one.name == name; });
        if (row == rows.end()) {
            row = rows.insert(rows.end(), SheetRow{name, {}, {}});
        }
        row->readings.push_back({box.position, *number});
    }
    std::erase_if(rows, [&](SheetRow& row) {
        auto statistics = row_statistics(row.readings);
        if (!statistics || row.readings.size() < 2) {
            return true;
        }
        row.statistics = std::move(statistics).value();
        if (!row_should_be_alike(line.quantity)) {
            row.statistics.odd.clear();
        }
        return false;
    });
    return rows;
}

} // namespace rodway
