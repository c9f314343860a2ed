#include "core/build/check_standing.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/build/check_dependence.h"
#include "core/build/need.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

template <typename Words>
bool is_one_of(std::string_view word, const Words& words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

/// To a tenth of a micron, or of whatever unit it is: finer is how the program counts.
std::string number_text(double number) {
    constexpr double steps = 1e4;
    return exact_text(std::round(number * steps) / steps);
}

/// The unit in which the quantity's numbers are held, with a blank before it.
std::string held_unit(const Quantity& quantity) {
    const Dimension dimension = dimension_of(quantity.form);
    const auto units = units_of(dimension);
    if (dimension == Dimension::none || units.empty()) {
        return quantity.unit.empty() ? std::string() : ' ' + quantity.unit;
    }
    return ' ' + std::string(units.front().id);
}

std::string value_of(const SheetBox& box, const Quantity& quantity) {
    if (box.taken && box.taken->value.is_number()) {
        const Reading& reading = box.taken->reading;
        const bool bare = std::none_of(reading.text.begin(), reading.text.end(), [](char c) {
            return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '"';
        });
        return bare && !reading.unit.empty() ? reading.text + ' ' + reading.unit : reading.text;
    }
    const std::string low = number_text(box.figure->low);
    const std::string high = number_text(box.figure->high);
    return (low == high ? low : low + ".." + high) + held_unit(quantity);
}

std::string limit_of(const SheetLimit& limit, const Quantity& quantity) {
    std::string text;
    if (limit.low && limit.high) {
        text = number_text(*limit.low) + ".." + number_text(*limit.high);
    } else {
        text = limit.low ? ">= " + number_text(*limit.low) : "<= " + number_text(*limit.high);
    }
    return text + held_unit(quantity);
}

bool touches(const SheetBox& box, std::string_view quantity) {
    if (!is_contact_quantity(quantity)) {
        return false;
    }
    const auto range = box.taken ? box.taken->range() : box.figure;
    return range && range->high <= 0.0;
}

void add_box(const SheetBox& box, const Quantity& quantity, bool says_how, SheetStanding& sheet) {
    const bool number = (box.taken && box.taken->value.is_number()) || box.figure;
    const bool judged = box.limit && box.verdict != SheetVerdict::no_number;
    const bool contact = touches(box, quantity.id);
    if (!number || (!judged && !contact && !says_how)) {
        return;
    }
    CheckedBox checked{quantity.id, box.position};
    if (box.taken) {
        checked.reading_id = box.taken->reading.id;
    }
    checked.value = value_of(box, quantity);
    if (box.limit) {
        checked.limit = limit_of(*box.limit, quantity);
        checked.limit_source = box.limit->usual == UsualSource::common_practice
                                   ? std::string("common_practice")
                                   : box.limit->source;
    }
    checked.verdict = judged ? box.verdict : SheetVerdict::no_limit;
    checked.contact = contact;
    sheet.boxes.push_back(std::move(checked));
}

/// What is pointed out and means that the work isn't done, or isn't right.
void add_findings(const AssessedSheet& assessed, SheetStanding& sheet) {
    for (const SheetFinding& finding : assessed.findings) {
        if (finding.what == PointedOut::bolts_missed) {
            sheet.boxes_to_fill += static_cast<int>(finding.positions.size());
            sheet.empty_at.insert(sheet.empty_at.end(), finding.positions.begin(),
                                  finding.positions.end());
        } else if (finding.what == PointedOut::stop_rule ||
                   finding.what == PointedOut::too_small_beside) {
            for (const std::string& position : finding.positions) {
                CheckedBox box{finding.quantity, position};
                box.verdict = SheetVerdict::failed;
                sheet.boxes.push_back(std::move(box));
            }
        }
    }
}

} // namespace

SheetStanding sheet_standing(const AssessedSheet& assessed) {
    SheetStanding sheet;
    sheet.kind = assessed.kind;
    const auto asked_for = check_quantities(assessed.kind);
    const bool own = is_own_sheet(assessed.kind);
    bool anything = false;
    for (const SheetLine& line : assessed.lines) {
        const bool says_how = is_one_of(line.quantity.id, asked_for);
        const auto filled = [](const SheetBox& box) {
            return box.taken && box.taken->value.said != Said::blank;
        };
        const bool begun = std::any_of(line.boxes.begin(), line.boxes.end(), filled);
        const bool is_read = line.quantity.origin == Origin::read;
        anything = anything || (begun && is_read);
        for (const SheetBox& box : line.boxes) {
            add_box(box, line.quantity, says_how, sheet);
        }
        if (!is_read || (!own && !(says_how && begun))) {
            continue;
        }
        for (const SheetBox& box : line.boxes) {
            ++sheet.boxes_to_fill;
            sheet.boxes_filled += filled(box) ? 1 : 0;
            if (!filled(box) && !is_one_of(box.position, sheet.empty_at)) {
                sheet.empty_at.push_back(box.position);
            }
        }
    }
    if (asked_for.empty() && !own) {
        sheet.boxes_to_fill = 1;
        sheet.boxes_filled = anything ? 1 : 0;
    }
    add_findings(assessed, sheet);
    return sheet;
}

bool is_contact_quantity(std::string_view quantity) {
    static constexpr std::array<std::string_view, 13> quantities{
        "rod_clearance",
        "rod_gap",
        "rod_gap_least",
        "piston_to_valve_clearance",
        "piston_to_valve_side",
        "rod_to_block_clearance",
        "rod_to_cam_clearance",
        "counterweight_to_block_clearance",
        "counterweight_to_piston_clearance",
        "crank_to_pump_clearance",
        "retainer_to_guide",
        "retainer_to_rocker",
        "spring_bind_margin"};
    return is_one_of(quantity, quantities);
}

std::vector<ClearanceStanding> clearance_standings(std::span<const ValveClearance> lines,
                                                   double limit_mm) {
    std::vector<ClearanceStanding> standings;
    for (const ValveClearance& line : lines) {
        ClearanceStanding standing{position_name(line.position), line.verdict, std::nullopt,
                                   line.doubt_mm, limit_mm};
        if (line.found.minimum) {
            standing.clearance_mm = line.found.minimum->clearance_mm;
        }
        standings.push_back(std::move(standing));
    }
    return standings;
}

} // namespace rodway
