#include <algorithm>

#include "core/engine/firing_order.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

constexpr int most_cylinders = 24;

/// The order alone: "18436572 LH" says which way the engine turns, too.
std::string without_turning(std::string text) {
    while (!text.empty() && std::string_view("LHRlhr ").find(text.back()) != std::string::npos) {
        text.pop_back();
    }
    return text;
}

/// Whether a text names every cylinder once: of an engine with so many, or of any engine.
bool valid_order(const std::string& text, std::optional<int> cylinders) {
    if (cylinders) {
        return FiringOrder::parse(text, *cylinders).ok();
    }
    for (int count = 1; count <= most_cylinders; ++count) {
        if (FiringOrder::parse(text, count).ok()) {
            return true;
        }
    }
    return false;
}

void judge_order(WorkedFigures& figures, const SheetFacts& facts) {
    const auto typed = facts.readings.word("firing_order");
    if (!typed) {
        return;
    }
    const std::string text = without_turning(*typed);
    std::optional<int> cylinders;
    if (facts.places != nullptr && !facts.places->cylinders.empty()) {
        cylinders = static_cast<int>(facts.places->cylinders.size());
    }
    if (!valid_order(text, cylinders)) {
        figures.point_out(PointedOut::cannot_be, "firing_order", {""}, {}, *typed);
        return;
    }
    if (!cylinders || facts.places->firing_order.empty()) {
        return;
    }
    // Both begin with the cylinder that is written first: an order has no beginning.
    const auto written = FiringOrder::parse(text, *cylinders)->cylinders();
    std::vector<int> set_up = facts.places->firing_order;
    std::rotate(set_up.begin(), std::find(set_up.begin(), set_up.end(), written.front()),
                set_up.end());
    if (written != set_up) {
        std::string names;
        for (const int cylinder : set_up) {
            names += (names.empty() ? "" : "-") + std::to_string(cylinder);
        }
        figures.point_out(PointedOut::differs_from_set_up, "firing_order", {""}, {}, names);
    }
}

void judge_turning(WorkedFigures& figures, const SheetFacts& facts) {
    const auto written = facts.readings.word("turning_direction");
    if (!written || facts.engine == nullptr) {
        return;
    }
    const std::string set_up =
        facts.engine->layout.turning == Turning::clockwise ? "clockwise" : "counter_clockwise";
    if (*written != set_up) {
        figures.point_out(PointedOut::differs_from_set_up, "turning_direction", {""}, {}, set_up);
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    judge_order(figures, facts);
    judge_turning(figures, facts);
    return figures.outcome();
}

} // namespace

SheetKind numbering_sheet() {
    return {
        "numbering",
        {
            {"cylinder_numbering", Form::words, Place::engine},
            {"bank_names", Form::words, Place::engine},
            {"turning_direction", Form::choice, Place::engine, "", "clockwise counter_clockwise"},
            {"firing_order", Form::words, Place::engine},
            {"valve_order", Form::words, Place::engine},
            {"lifter_numbering", Form::words, Place::engine},
            {"number_one_location", Form::words, Place::engine},
            {"tdc_mark_true", Form::yes_no, Place::engine},
            {"degrees_counted_as", Form::choice, Place::engine, "", "crank cam"},
        },
        work_out};
}

} // namespace rodway
