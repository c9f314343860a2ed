#include "core/heads/chamber_survey.h"
#include "core/intake/milling_match.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

void add_chambers(WorkedFigures& figures, const TakenReadings& readings) {
    std::vector<ChamberReading> chambers;
    for (const Taken& taken : readings.of("chamber_volume")) {
        if (const auto volume_cc = taken.range()) {
            chambers.push_back({*taken.place.cylinder(), *volume_cc});
        }
    }
    if (chambers.size() < 2) {
        return;
    }
    const auto survey = survey_chambers(chambers);
    if (!survey) {
        return;
    }
    figures.add("chamber_spread", "", survey->spread_cc);
    for (const SurveyedChamber& chamber : survey->chambers) {
        const std::string position = std::to_string(chamber.cylinder);
        figures.add("chamber_from_mean", position, chamber.from_mean_cc);
        figures.add("chamber_to_open", position, chamber.below_largest_cc);
    }
}

/// Seen from the rear, the bank that leans to the block frame's +y stands on the right.
std::string side_of(const Bank& bank) {
    return bank.lean_deg > 0.0 ? "right" : "left";
}

struct MilledFace {
    std::string side;
    MatchedFace face;
};

/// The heads' intake faces with what this job cut off their decks, and nothing else changed.
std::vector<MilledFace> milled_faces(const SheetFacts& facts) {
    std::vector<MilledFace> faces;
    const Engine& engine = *facts.engine;
    for (std::size_t bank = 0; bank < engine.flanges.size(); ++bank) {
        const Bank& here = engine.layout.banks[bank];
        const auto removed_mm = facts.readings.number("head_removed", side_of(here));
        if (engine.flanges[bank] && removed_mm) {
            faces.push_back({side_of(here),
                             {here.frame.to_block(engine.flanges[bank]->normal_K),
                              here.frame.to_block(-removed_mm->middle() * Vec3::UnitZ()), 0.0}});
        }
    }
    return faces;
}

/// What the intake, or the heads' faces, must lose for its ports to meet the lowered heads'.
void add_milling(WorkedFigures& figures, const SheetFacts& facts) {
    if (facts.engine == nullptr || !facts.engine->one_intake_for_all) {
        return;
    }
    const auto faces = milled_faces(facts);
    if (faces.size() != 2 || faces[0].side == faces[1].side) {
        return;
    }
    const auto match = milling_match(faces[0].face, faces[1].face);
    if (!match) {
        return;
    }
    for (std::size_t at = 0; at < 2; ++at) {
        figures.add("intake_face_to_mill", faces[at].side,
                    Interval::exactly(match->off_face_mm[at]));
    }
    figures.add("end_rails_to_mill", "", Interval::exactly(match->off_end_rails_mm));
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    add_chambers(figures, facts.readings);
    add_milling(figures, facts);
    return figures.outcome();
}

} // namespace

SheetKind heads_sheet() {
    const Origin follows = Origin::worked_out;
    return {"heads",
            {
                {"head_thickness", Form::length, Place::spot, "in"},
                {"head_flatness", Form::length, Place::bank, "in"},
                {"head_removed", Form::length, Place::bank, "in"},
                {"intake_face_to_mill", Form::length, Place::bank, "in", "", follows},
                {"end_rails_to_mill", Form::length, Place::engine, "in", "", follows},
                {"chamber_volume", Form::volume, Place::cylinder, "cc"},
                {"chamber_from_mean", Form::volume, Place::cylinder, "cc", "", follows},
                {"chamber_to_open", Form::volume, Place::cylinder, "cc", "", follows},
                {"chamber_spread", Form::volume, Place::engine, "cc", "", follows},
                {"port_height", Form::length, Place::spot, "in"},
                {"intake_bolt_height", Form::length, Place::spot, "in"},
            },
            work_out};
}

} // namespace rodway
