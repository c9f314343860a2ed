#include "app/sheets/sheet_plan.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/words/box_words.h"
#include "app/words/sheet_words.h"
#include "core/sheets/sheet_rows.h"

namespace rodway {
namespace {

struct Plans {
    Q_DECLARE_TR_FUNCTIONS(Plans)
};

constexpr int most_signs = 8; ///< of a value that a plan has room for

QString value_of(const SheetBox& box, const Quantity& quantity) {
    if (box.taken) {
        const QString typed = QString::fromStdString(box.taken->reading.text);
        const auto range = box.taken->range();
        if (typed.size() <= most_signs || !range) {
            return typed.size() <= most_signs ? typed : typed.left(most_signs - 1) + QChar(0x2026);
        }
        return words::bare_amount(*range, quantity);
    }
    return box.figure ? words::bare_amount(*box.figure, quantity) : QString();
}

} // namespace

const std::string* SheetPlan::position_at(const ValvePosition& spot) const {
    const auto found = std::find_if(spots.begin(), spots.end(),
                                    [&](const auto& one) { return one.first == spot; });
    return found == spots.end() ? nullptr : &found->second;
}

std::optional<ValvePosition> SheetPlan::spot_of(const std::string& position) const {
    const auto found = std::find_if(spots.begin(), spots.end(),
                                    [&](const auto& one) { return one.second == position; });
    return found == spots.end() ? std::nullopt : std::optional(found->first);
}

std::optional<SheetPlan> sheet_plan(const SheetLine& line, const Engine* engine,
                                    const std::string& in_hand) {
    const Quantity& quantity = line.quantity;
    if (engine == nullptr || line.boxes.empty()) {
        return std::nullopt;
    }
    auto hand = parted_position(in_hand, quantity.place);
    if (!hand) {
        hand = parted_position(line.boxes.front().position, quantity.place);
    }
    if (!hand) {
        return std::nullopt;
    }
    SheetPlan plan;
    plan.content = hand->at_valve ? places_of(*engine) : cylinders_of(*engine);
    plan.content.front_label = Plans::tr("Front");
    plan.content.intake_letter = Plans::tr("I");
    plan.content.exhaust_letter = Plans::tr("E");
    for (const SheetBox& box : line.boxes) {
        const auto stand = parted_position(box.position, quantity.place);
        if (!stand || stand->at_valve != hand->at_valve || stand->rest != hand->rest) {
            continue;
        }
        const auto there =
            std::find_if(plan.content.valves.begin(), plan.content.valves.end(),
                         [&](const PlanValve& valve) { return valve.position == stand->spot; });
        if (there == plan.content.valves.end()) {
            continue;
        }
        there->value = value_of(box, quantity);
        there->state = words::check_state(box.verdict);
        plan.spots.emplace_back(stand->spot, box.position);
    }
    if (plan.spots.empty()) {
        return std::nullopt;
    }
    plan.content.selected = plan.spot_of(in_hand);
    return plan;
}

} // namespace rodway
