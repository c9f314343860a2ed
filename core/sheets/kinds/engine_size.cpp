#include "core/sheets/kinds/engine_size.h"

#include "core/engine/firing_order.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

constexpr int most_cylinders = 64;
constexpr double half_an_oversize_mm = 0.005 * inch_mm;

std::optional<Bounded> as_read(const SheetFacts& facts, std::string_view quantity,
                               const std::string& cylinder) {
    const auto range = spread_at(facts.readings, quantity, PlacePart::cylinder, cylinder);
    return range ? std::optional(bounded(*range)) : std::nullopt;
}

/// A set-up without a figure has 0.
std::optional<Bounded> of_set_up(const SheetFacts& facts, double EngineLayout::*size_mm) {
    const double size = facts.engine == nullptr ? 0.0 : facts.engine->layout.*size_mm;
    return size > 0.0 ? std::optional(Bounded::exactly(size)) : std::nullopt;
}

std::vector<std::string> numbered(int count) {
    std::vector<std::string> names;
    for (int number = 1; number <= count; ++number) {
        names.push_back(std::to_string(number));
    }
    return names;
}

bool far_from(const std::optional<Bounded>& read, const std::optional<Bounded>& set_up) {
    return read && set_up &&
           (read->low > set_up->value + half_an_oversize_mm ||
            read->high < set_up->value - half_an_oversize_mm);
}

} // namespace

std::vector<std::string> all_cylinders(const SheetFacts& facts) {
    std::vector<std::string> names;
    if (facts.engine != nullptr) {
        for (const Cylinder& cylinder : facts.engine->layout.cylinders) {
            names.push_back(std::to_string(cylinder.number));
        }
        return names;
    }
    const auto order = facts.readings.word("firing_order");
    for (int count = 1; order && count <= most_cylinders; ++count) {
        if (FiringOrder::parse(*order, count)) {
            return numbered(count);
        }
    }
    return names;
}

std::optional<Bounded> bore_of(const SheetFacts& facts, const std::string& cylinder) {
    const auto bore = of_set_up(facts, &EngineLayout::bore_mm);
    return bore ? bore : as_read(facts, "bore", cylinder);
}

std::optional<Bounded> stroke_of(const SheetFacts& facts, const std::string& cylinder) {
    const auto stroke = of_set_up(facts, &EngineLayout::stroke_mm);
    return stroke ? stroke : as_read(facts, "stroke", cylinder);
}

std::optional<Result<Bounded>> engine_displacement_cc(const SheetFacts& facts) {
    std::vector<BoreAndStroke> cylinders;
    for (const std::string& name : all_cylinders(facts)) {
        const auto bore = bore_of(facts, name);
        const auto stroke = stroke_of(facts, name);
        if (!bore || !stroke) {
            return std::nullopt;
        }
        cylinders.push_back({*bore, *stroke});
    }
    return cylinders.empty() ? std::nullopt : std::optional(displacement_cc(cylinders));
}

std::optional<Interval> known_displacement_cc(const SheetFacts& facts) {
    const auto worked_out = engine_displacement_cc(facts);
    if (worked_out && worked_out->ok()) {
        return range_of(**worked_out);
    }
    return facts.readings.number("displacement");
}

std::optional<Interval> displacement_as_read_cc(const SheetFacts& facts) {
    bool differs = false;
    std::vector<BoreAndStroke> cylinders;
    for (const std::string& name : all_cylinders(facts)) {
        const auto bore = bore_of(facts, name);
        const auto stroke = stroke_of(facts, name);
        if (!bore || !stroke) {
            return std::nullopt;
        }
        const auto read_bore = as_read(facts, "bore", name);
        const auto read_stroke = as_read(facts, "stroke", name);
        differs = differs || far_from(read_bore, bore) || far_from(read_stroke, stroke);
        cylinders.push_back({read_bore.value_or(*bore), read_stroke.value_or(*stroke)});
    }
    const auto displacement = displacement_cc(cylinders);
    return differs && displacement ? std::optional(range_of(*displacement)) : std::nullopt;
}

} // namespace rodway
