#include <algorithm>

#include "core/engine/dynamic_compression.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/cylinder_room.h"
#include "core/sheets/kinds/deck_readings.h"
#include "core/sheets/kinds/engine_size.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

void put(std::string_view quantity, const std::string& position,
         const std::optional<Bounded>& value, SheetOutcome& outcome) {
    if (value) {
        outcome.figures.push_back({std::string(quantity), position, range_of(*value)});
    }
}

/// Only who has begun this sheet is told what it still needs.
bool begun(const SheetFacts& facts) {
    const auto written = {"gasket_bore", "gasket_compressed", "gasket_volume", "compression_target",
                          "dynamic_intake_closing"};
    return std::any_of(written.begin(), written.end(), [&](const char* quantity) {
        return facts.readings.number(quantity).has_value();
    });
}

void put_displacement(const SheetFacts& facts, SheetOutcome& outcome) {
    const auto displacement = engine_displacement_cc(facts);
    if (!displacement) {
        return;
    }
    if (!displacement->ok()) {
        point_out_refused(displacement->error(), "displacement", "", room_readings(), outcome);
        return;
    }
    put("displacement", "", **displacement, outcome);
    if (const auto read = displacement_as_read_cc(facts)) {
        outcome.findings.push_back({PointedOut::methods_differ,
                                    "displacement",
                                    {""},
                                    {(*displacement)->value, read->low, read->high},
                                    Dimension::volume});
    }
}

void put_quench(const SheetFacts& facts, const std::string& cylinder, SheetOutcome& outcome) {
    const auto deck = deck_height_mm(facts.readings, cylinder);
    const auto gasket = facts.readings.number("gasket_compressed");
    if (deck && gasket) {
        outcome.figures.push_back({"quench", cylinder, *deck + *gasket});
    }
}

/// What to take off for the ratio wanted, each way by itself. What a block or head lacks can't be
/// put back, and no gasket is thinner than nothing: no figure then.
void put_ways(const SheetFacts& facts, const CylinderAtTop& top, const std::string& cylinder,
              SheetOutcome& outcome) {
    const auto target = facts.readings.number("compression_target");
    if (!target) {
        return;
    }
    const auto way = way_to_ratio(top, target->middle());
    if (!way) {
        point_out_refused(way.error(), "compression_take_off", cylinder, room_readings(), outcome);
        return;
    }
    put("compression_take_off", cylinder, way->take_off_cc, outcome);
    if (way->gasket_left_mm && way->gasket_left_mm->high > 0.0) {
        put("gasket_for_target", cylinder, way->gasket_left_mm, outcome);
        put("quench_with_target_gasket", cylinder, way->quench_by_gasket_mm, outcome);
    }
    if (way->take_off_cc.high <= 0.0) {
        return;
    }
    put("deck_cut_for_target", cylinder, way->deck_mm, outcome);
    put("quench_after_deck_cut", cylinder, way->quench_by_deck_mm, outcome);
    const auto mm_per_cc = facts.readings.number("head_cut_per_cc");
    if (mm_per_cc && mm_per_cc->low > 0.0 && way->chamber_left_cc.high > 0.0) {
        outcome.figures.push_back(
            {"head_cut_for_target", cylinder, product(range_of(way->take_off_cc), *mm_per_cc)});
    }
}

/// Without the lift at which the valve counts as shut the figure would say nothing.
void put_dynamic(const SheetFacts& facts, const CylinderAtTop& top, const std::string& cylinder,
                 SheetOutcome& outcome) {
    constexpr const char* figure = "dynamic_compression_ratio";
    const auto closes = intake_closes_crank_deg(facts);
    if (!closes) {
        return;
    }
    const auto rod_mm = rod_length_mm(facts, cylinder);
    if (!rod_mm) {
        point_out_needed(figure, cylinder, "connecting_rod_length", outcome);
    }
    if (!facts.readings.number("dynamic_closing_lift")) {
        point_out_needed(figure, cylinder, "dynamic_closing_lift", outcome);
        return;
    }
    if (!rod_mm) {
        return;
    }
    const auto found = dynamic_compression(top, *rod_mm, *closes);
    if (!found) {
        point_out_refused(found.error(), figure, cylinder, room_readings(), outcome);
        return;
    }
    put(figure, cylinder, found->ratio, outcome);
}

/// One finding for the engine: its widest bore over the gasket's.
void point_out_overhang(const std::vector<CylinderAtTop>& cylinders, SheetOutcome& outcome) {
    std::optional<CylinderAtTop> widest;
    for (const CylinderAtTop& one : cylinders) {
        const bool wider = !widest || one.size.bore_mm.value > widest->size.bore_mm.value;
        widest = wider ? one : widest;
    }
    if (widest && compression_of(*widest)->gasket_overhangs) {
        outcome.findings.push_back({PointedOut::too_small_beside,
                                    "gasket_bore",
                                    {""},
                                    {widest->gasket.bore_mm->value, widest->size.bore_mm.value},
                                    Dimension::length,
                                    "bore"});
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    put_displacement(facts, outcome);
    std::vector<CylinderAtTop> worked_out;
    for (const std::string& cylinder : cylinders_with_room(facts)) {
        put_quench(facts, cylinder, outcome);
        const CylinderRoom room = cylinder_room(facts, cylinder);
        if (!room.cylinder) {
            for (const std::string_view reading : room.missing) {
                if (begun(facts)) {
                    point_out_needed("compression_ratio", cylinder, reading, outcome);
                }
            }
            continue;
        }
        const auto found = compression_of(*room.cylinder);
        if (!found) {
            point_out_refused(found.error(), "compression_ratio", cylinder, room_readings(),
                              outcome);
            continue;
        }
        worked_out.push_back(*room.cylinder);
        put("clearance_volume", cylinder, found->clearance_cc, outcome);
        put("compression_ratio", cylinder, found->ratio, outcome);
        put_ways(facts, *room.cylinder, cylinder, outcome);
        put_dynamic(facts, *room.cylinder, cylinder, outcome);
    }
    if (worked_out.size() > 1) {
        put("compression_spread", "", compression_survey(worked_out)->spread, outcome);
    }
    point_out_overhang(worked_out, outcome);
    return outcome;
}

/// .035 to .045 in between piston and head, with steel rods.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    std::vector<SheetLimit> limits;
    for (const char* quantity : {"quench", "quench_after_deck_cut", "quench_with_target_gasket"}) {
        limits.push_back(common_practice(quantity, 0.035 * inch_mm, 0.045 * inch_mm));
    }
    return limits;
}

} // namespace

SheetKind compression_sheet() {
    constexpr Origin follows = Origin::worked_out;
    return {"compression",
            {
                {"displacement", Form::volume, Place::engine, "ci", "", follows},
                {"gasket_bore", Form::length, Place::engine, "in"},
                {"gasket_compressed", Form::length, Place::engine, "in"},
                {"gasket_volume", Form::volume, Place::engine, "cc"},
                {"crevice_volume", Form::volume, Place::engine, "cc"},
                {"clearance_volume", Form::volume, Place::cylinder, "cc", "", follows},
                {"compression_ratio", Form::ratio, Place::cylinder, "", "", follows},
                {"compression_spread", Form::ratio, Place::engine, "", "", follows},
                {"quench", Form::length, Place::cylinder, "in", "", follows},
                {"compression_target", Form::ratio, Place::engine},
                {"head_cut_per_cc", Form::length, Place::engine, "in"},
                {"compression_take_off", Form::volume, Place::cylinder, "cc", "", follows},
                {"head_cut_for_target", Form::length, Place::cylinder, "in", "", follows},
                {"deck_cut_for_target", Form::length, Place::cylinder, "in", "", follows},
                {"quench_after_deck_cut", Form::length, Place::cylinder, "in", "", follows},
                {"gasket_for_target", Form::length, Place::cylinder, "in", "", follows},
                {"quench_with_target_gasket", Form::length, Place::cylinder, "in", "", follows},
                {"dynamic_intake_closing", Form::crank_angle, Place::engine, "deg"},
                {"dynamic_closing_lift", Form::length, Place::engine, "in"},
                {"dynamic_compression_ratio", Form::ratio, Place::cylinder, "", "", follows},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
