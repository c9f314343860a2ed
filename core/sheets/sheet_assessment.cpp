#include "core/sheets/sheet_assessment.h"

#include <algorithm>
#include <set>

#include "core/sheets/kinds/work_out.h"
#include "core/sheets/odd_ones.h"

namespace rodway {
namespace {

const SheetFigure* figure_at(const SheetOutcome& outcome, std::string_view quantity,
                             std::string_view position) {
    for (const SheetFigure& figure : outcome.figures) {
        if (figure.quantity == quantity && figure.position == position) {
            return &figure;
        }
    }
    return nullptr;
}

/// Usual positions first, then those that were written to or worked out beyond them.
std::vector<std::string> positions_of(const Quantity& quantity, const SheetFacts& facts,
                                      const SheetOutcome& outcome, EntryOrder order) {
    std::vector<std::string> positions;
    if (facts.places != nullptr) {
        positions = usual_positions(quantity.place, *facts.places, order);
    } else if (quantity.place == Place::engine) {
        positions = {""};
    }
    std::set<std::string> there(positions.begin(), positions.end());
    const auto add = [&](const std::string& position) {
        if (there.insert(position).second) {
            positions.push_back(position);
        }
    };
    for (const Taken& taken : facts.readings.of(quantity.id)) {
        add(sheet_position_text(taken.place));
    }
    for (const SheetFigure& figure : outcome.figures) {
        if (figure.quantity == quantity.id) {
            add(figure.position);
        }
    }
    return positions;
}

void put_to_limits(SheetBox& box, const std::vector<SheetLimit>& limits,
                   std::string_view quantity) {
    const auto ruling = [&](LimitFor parts) {
        const SheetLimit* found = ruling_limit(limits, quantity, box.position, parts);
        return found != nullptr ? std::optional(*found) : std::nullopt;
    };
    box.new_limit = ruling(LimitFor::new_parts);
    box.used_limit = ruling(LimitFor::serviceable);
    box.limit = box.new_limit ? box.new_limit : box.used_limit;
    if (!box.limit) {
        box.verdict = SheetVerdict::no_limit;
        return;
    }
    // A figure by hand rules over one worked out: it is what was found.
    auto number = box.taken ? box.taken->reach() : std::nullopt;
    if (!number) {
        number = box.figure;
    }
    if (number) {
        SheetJudgement judged = judge_both(*number, box.new_limit, box.used_limit);
        box.verdict = judged.verdict;
        box.limit = std::move(judged.limit);
    }
}

void compare_stated(const SheetLine& line, std::vector<SheetFinding>& findings) {
    for (const SheetBox& box : line.boxes) {
        const auto written = box.taken ? box.taken->range() : std::nullopt;
        if (written && box.figure && !overlap(*written, *box.figure)) {
            findings.push_back({PointedOut::stated_differs,
                                line.quantity.id,
                                {box.position},
                                {written->middle(), box.figure->low, box.figure->high},
                                dimension_of(line.quantity.form)});
        }
    }
}

/// One that is known to be misread needn't be called odd as well.
void add_odd_ones(const SheetLine& line, const SheetFacts& facts,
                  std::vector<SheetFinding>& findings) {
    for (SheetFinding& odd : odd_ones_out(line.quantity, facts.readings.of(line.quantity.id))) {
        const bool known =
            std::any_of(findings.begin(), findings.end(), [&](const SheetFinding& one) {
                return one.what == PointedOut::misread_by_a_turn && one.quantity == odd.quantity &&
                       std::find(one.positions.begin(), one.positions.end(),
                                 odd.positions.front()) != one.positions.end();
            });
        if (!known) {
            findings.push_back(std::move(odd));
        }
    }
}

void count(const SheetLine& line, std::size_t usual, AssessedSheet& sheet) {
    for (std::size_t which = 0; which < line.boxes.size(); ++which) {
        const SheetBox& box = line.boxes[which];
        if (line.quantity.origin == Origin::read && which < usual) {
            ++sheet.boxes_to_fill;
            const bool filled = box.taken && box.taken->value.said != Said::blank;
            sheet.boxes_filled += filled ? 1 : 0;
        }
        sheet.failed += box.verdict == SheetVerdict::failed ? 1 : 0;
        sheet.too_close += box.verdict == SheetVerdict::too_close ? 1 : 0;
    }
}

} // namespace

SheetJudgement judge_both(const Interval& value, const std::optional<SheetLimit>& new_limit,
                          const std::optional<SheetLimit>& used_limit) {
    if (!new_limit && !used_limit) {
        return {};
    }
    const SheetLimit& first = new_limit ? *new_limit : *used_limit;
    const SheetVerdict as_first = judge(value, first);
    if (!new_limit || !used_limit || as_first == SheetVerdict::passed) {
        return {as_first, first};
    }
    const SheetVerdict used = judge(value, *used_limit);
    return {used == SheetVerdict::passed ? SheetVerdict::serviceable : used, *used_limit};
}

AssessedSheet assess_sheet(const SheetKind& kind, const SheetFacts& facts,
                           const std::vector<SheetLimit>& shop_limits, EntryOrder order) {
    AssessedSheet sheet;
    sheet.kind = kind.id;
    std::vector<SheetLimit> limits;
    if (kind.usual_limits != nullptr) {
        limits = kind.usual_limits(facts);
    }
    limits.insert(limits.end(), shop_limits.begin(), shop_limits.end());
    SheetFacts with_limits = facts;
    with_limits.limits = limits;
    const SheetOutcome outcome =
        kind.work_out != nullptr ? kind.work_out(with_limits) : SheetOutcome{};
    sheet.findings = outcome.findings;
    for (const Quantity& quantity : kind.quantities) {
        SheetLine line{quantity, {}};
        for (const std::string& position : positions_of(quantity, facts, outcome, order)) {
            SheetBox box;
            box.position = position;
            if (const Taken* taken = facts.readings.at(quantity.id, position)) {
                box.taken = *taken;
            }
            if (const SheetFigure* figure = figure_at(outcome, quantity.id, position)) {
                box.figure = figure->value;
            }
            put_to_limits(box, limits, quantity.id);
            line.boxes.push_back(std::move(box));
        }
        if (quantity.origin == Origin::worked_out) {
            compare_stated(line, sheet.findings);
        }
        add_odd_ones(line, facts, sheet.findings);
        const std::size_t usual =
            facts.places != nullptr
                ? usual_positions(quantity.place, *facts.places, order).size()
                : static_cast<std::size_t>(quantity.place == Place::engine ? 1 : 0);
        count(line, usual, sheet);
        sheet.lines.push_back(std::move(line));
    }
    return sheet;
}

} // namespace rodway
