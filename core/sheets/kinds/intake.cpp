#include "core/intake/end_gap.h"
#include "core/intake/face_feeler.h"
#include "core/intake/intake_bolts.h"
#include "core/intake/port_heights.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"
#include "core/units/angle.h"

namespace rodway {
namespace {

/// Ports at each end of each side: where the head's and the intake's stand, up the face.
std::vector<PortHeight> ports_read(const TakenReadings& readings,
                                   std::vector<std::string>& positions) {
    std::vector<PortHeight> ports;
    for (const Taken& taken : readings.of("head_port_height")) {
        const auto end = taken.place.part(PlacePart::end);
        const std::string position = sheet_position_text(taken.place);
        const auto head_mm = taken.range();
        const auto intake_mm = readings.number("intake_port_height", position);
        if (!head_mm || !intake_mm || (end != "front" && end != "rear")) {
            continue;
        }
        const bool right = taken.place.part(PlacePart::bank) == "right";
        ports.push_back({right ? std::size_t{1} : std::size_t{0},
                         end == "front" ? IntakeEnd::front : IntakeEnd::rear, *head_mm,
                         *intake_mm});
        positions.push_back(position);
    }
    return ports;
}

/// What a port may be off is for the shop to say: nothing is usual.
void add_ports(WorkedFigures& figures, const TakenReadings& readings) {
    std::vector<std::string> positions;
    const auto ports = ports_read(readings, positions);
    const auto found = port_heights(ports, 0.0);
    if (!found) {
        return;
    }
    for (std::size_t port = 0; port < positions.size(); ++port) {
        figures.add("intake_port_high_by", positions[port], found->ports[port].mismatch_mm);
    }
    figures.add("intake_high_by", "", found->mean_mm);
    figures.add("intake_tilt", "", found->tilt_mm);
    figures.add("intake_sides_differ", "", found->sides_differ_mm);
}

/// Top against bottom at one place along a face. The face's width gives the angle.
void add_faces(WorkedFigures& figures, const TakenReadings& readings) {
    for (const Taken& taken : readings.of("intake_face_gap")) {
        const auto top_mm = taken.range();
        if (!top_mm || taken.place.part(PlacePart::height) != "top") {
            continue;
        }
        SheetPosition place = taken.place;
        place.parts[PlacePart::height] = "bottom";
        const auto bottom_mm = readings.number("intake_face_gap", sheet_position_text(place));
        if (!bottom_mm) {
            continue;
        }
        place.parts.erase(PlacePart::height);
        if (place.parts.empty()) {
            continue;
        }
        const std::string position = sheet_position_text(place);
        figures.add("intake_face_wedge", position, *top_mm - *bottom_mm);
        const auto width_mm = readings.number("intake_face_width");
        if (!width_mm) {
            continue;
        }
        if (const auto face =
                face_angle({not_below_zero(*top_mm), not_below_zero(*bottom_mm), *width_mm}, 0.0)) {
            figures.add("intake_face_angle", position, face->angle_rad * degrees(1.0));
        }
    }
}

void add_beads(WorkedFigures& figures, const TakenReadings& readings) {
    const auto front_mm = readings.number("end_rail_gap", "front");
    const auto rear_mm = readings.number("end_rail_gap", "rear");
    const auto crush = readings.number("bead_crush");
    if (front_mm && rear_mm) {
        figures.add("end_rail_front_less_rear", "", *front_mm - *rear_mm);
    }
    if (!front_mm || !rear_mm || !crush) {
        return;
    }
    if (const auto beads =
            end_beads({not_below_zero(*front_mm), not_below_zero(*rear_mm)}, *crush / 100.0)) {
        figures.add("end_rail_bead_wanted", "front", beads->front_mm);
        figures.add("end_rail_bead_wanted", "rear", beads->rear_mm);
    }
}

/// Reach needs grip; nobody need have measured the thread to know where a bolt ends.
void add_bolts(WorkedFigures& figures, const TakenReadings& readings) {
    for (const Taken& taken : readings.of("intake_bolt_length")) {
        const std::string bolt = sheet_position_text(taken.place);
        const auto length_mm = taken.range();
        const auto grip_mm = readings.number("intake_bolt_grip", bolt);
        if (!length_mm || !grip_mm) {
            continue;
        }
        const auto thread_mm = readings.number("intake_thread_depth", bolt);
        const Interval any_thread_mm{0.0, 200.0};
        const auto reach =
            intake_bolt_reach({*length_mm, *grip_mm, thread_mm.value_or(any_thread_mm),
                               readings.number("intake_hole_bottom", bolt),
                               readings.number("intake_hole_to_passage", bolt)},
                              0.0);
        if (!reach) {
            continue;
        }
        figures.add("intake_bolt_to_bottom", bolt, reach->to_bottom_mm);
        figures.add("intake_bolt_to_passage", bolt, reach->to_passage_mm);
        if (thread_mm) {
            figures.add("intake_bolt_engaged", bolt, reach->engaged_mm);
        }
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    add_ports(figures, facts.readings);
    add_faces(figures, facts.readings);
    add_beads(figures, facts.readings);
    add_bolts(figures, facts.readings);
    return figures.outcome();
}

/// No bolt's end stands in a rod's passage, none bottoms before it clamps.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    return {common_practice("end_rail_gap", {}, usual_bead_gap_mm().high),
            common_practice("intake_bolt_to_passage", 0.0, {}),
            common_practice("intake_bolt_to_bottom", 0.0, {})};
}

} // namespace

SheetKind intake_sheet() {
    const Origin follows = Origin::worked_out;
    return {"intake",
            {
                {"intake_face_removed", Form::length, Place::spot, "in"},
                {"port_mismatch", Form::length, Place::cylinder_side, "in"},
                {"head_port_height", Form::length, Place::spot, "in"},
                {"intake_port_height", Form::length, Place::spot, "in"},
                {"intake_port_high_by", Form::length, Place::spot, "in", "", follows},
                {"intake_high_by", Form::length, Place::engine, "in", "", follows},
                {"intake_tilt", Form::length, Place::engine, "in", "", follows},
                {"intake_sides_differ", Form::length, Place::engine, "in", "", follows},
                {"intake_face_gap", Form::length, Place::spot, "in"},
                {"intake_face_width", Form::length, Place::engine, "in"},
                {"intake_face_wedge", Form::length, Place::spot, "in", "", follows},
                {"intake_face_angle", Form::angle, Place::spot, "deg", "", follows},
                {"end_rail_gap", Form::length, Place::spot, "in"},
                {"end_rail_front_less_rear", Form::length, Place::engine, "in", "", follows},
                {"intake_gasket", Form::words, Place::engine},
                {"bead_crush", Form::percent, Place::engine, "%"},
                {"end_rail_bead_wanted", Form::length, Place::spot, "in", "", follows},
                {"end_rail_bead", Form::length, Place::engine, "in"},
                {"intake_bolt_length", Form::length, Place::bolt, "in"},
                {"intake_bolt_grip", Form::length, Place::bolt, "in"},
                {"intake_thread_depth", Form::length, Place::bolt, "in"},
                {"intake_hole_bottom", Form::length, Place::bolt, "in"},
                {"intake_hole_to_passage", Form::length, Place::bolt, "in"},
                {"intake_bolt_engaged", Form::length, Place::bolt, "in", "", follows},
                {"intake_bolt_to_bottom", Form::length, Place::bolt, "in", "", follows},
                {"intake_bolt_to_passage", Form::length, Place::bolt, "in", "", follows},
                {"intake_bolt_sealer", Form::words, Place::bolt},
                {"valley_leak_test", Form::words, Place::engine},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
