#include <cmath>

#include "core/cam/typed_timing.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

Interval rounded_to(double value, double step) {
    return Interval::around(value, step);
}

/// What the card's four events make of durations, centrelines, separation and overlap. Events are
/// whole degrees as a rule: a sum of two is within one degree, a mean of two within half.
void add_by_events(WorkedFigures& figures, const TakenReadings& readings) {
    const auto text = readings.word("card_events");
    const auto card = text ? parse_card(*text) : Result<TypedCard>(Error{});
    if (!card) {
        return;
    }
    const auto timing = timing_from_events(card->events());
    if (!timing) {
        return;
    }
    const auto sum = [](const std::optional<double>& deg) {
        return deg ? std::optional(rounded_to(*deg, 2.0)) : std::nullopt;
    };
    figures.add("card_duration_by_events", "I", sum(timing->intake_duration_crank_deg));
    figures.add("card_duration_by_events", "E", sum(timing->exhaust_duration_crank_deg));
    figures.add("card_overlap", "", sum(timing->overlap_crank_deg));
    if (timing->intake_centreline_crank_deg) {
        figures.add_beside_reading("card_centreline", "I",
                                   rounded_to(*timing->intake_centreline_crank_deg, 1.0));
    }
    if (timing->exhaust_centreline_crank_deg) {
        figures.add_beside_reading("card_centreline", "E",
                                   rounded_to(-*timing->exhaust_centreline_crank_deg, 1.0));
    }
    if (timing->lobe_separation_cam_deg) {
        figures.add_beside_reading("card_lobe_separation", "",
                                   rounded_to(*timing->lobe_separation_cam_deg, 1.0));
    }
    figures.add("card_advance", "", sum(timing->advance_crank_deg));
}

/// The same from the card's two centrelines where it gives no events.
void add_by_centrelines(WorkedFigures& figures, const TakenReadings& readings) {
    const auto intake_deg = readings.number("card_centreline", "I");
    const auto exhaust_deg = readings.number("card_centreline", "E");
    if (!intake_deg || !exhaust_deg) {
        return;
    }
    const CamFigures cam =
        cam_figures(std::abs(intake_deg->middle()), std::abs(exhaust_deg->middle()));
    const double doubt_deg = (intake_deg->half_width() + exhaust_deg->half_width()) / 2.0;
    figures.add_beside_reading("card_lobe_separation", "",
                               Interval::about(cam.lobe_separation_cam_deg, doubt_deg));
    figures.add("card_advance", "", Interval::about(cam.advance_crank_deg, doubt_deg));
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    if (facts.readings.word("card_events")) {
        add_by_events(figures, facts.readings);
    } else {
        add_by_centrelines(figures, facts.readings);
    }
    return figures.outcome();
}

} // namespace

SheetKind cam_card_sheet() {
    const Origin follows = Origin::worked_out;
    return {
        "cam_card",
        {
            {"cam_grind", Form::words, Place::engine},
            {"cam_core", Form::words, Place::engine},
            {"card_events", Form::words, Place::engine},
            {"card_duration", Form::crank_angle, Place::card_height, "deg"},
            {"card_duration_by_events", Form::crank_angle, Place::card_lobe, "deg", "", follows},
            {"card_lift", Form::length, Place::card_lobe, "in"},
            {"card_lobe_separation", Form::cam_angle, Place::engine, "deg"},
            {"card_centreline", Form::crank_angle, Place::card_lobe, "deg"},
            {"card_overlap", Form::crank_angle, Place::engine, "deg", "", follows},
            {"card_advance", Form::crank_angle, Place::engine, "deg", "", follows},
        },
        work_out};
}

} // namespace rodway
