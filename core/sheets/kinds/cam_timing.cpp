#include <algorithm>
#include <cmath>

#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/lobe_centrelines.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

void add_centrelines(WorkedFigures& figures, const TakenReadings& readings,
                     const LobeCentrelines& lobe) {
    const auto kept = [](const std::optional<DoubtedCentreline>& one) {
        return one ? std::optional(one->as_kept_deg()) : std::nullopt;
    };
    figures.add("centreline_from_heel", lobe.lobe, kept(lobe.from_heel));
    figures.add("centreline_from_peak", lobe.lobe, kept(lobe.from_peak));
    const auto method = readings.word("lobe_centreline_method", lobe.lobe);
    if (method == "up_from_heel") {
        figures.add_beside_reading("lobe_centreline", lobe.lobe, kept(lobe.from_heel));
    } else if (method == "down_from_peak") {
        figures.add_beside_reading("lobe_centreline", lobe.lobe, kept(lobe.from_peak));
    }
}

/// Durations above a rise, and how long both valves of a cylinder stand above it.
void add_events(WorkedFigures& figures, const SheetFacts& facts,
                const std::vector<DegreedLobe>& pairs, const WheelZero& zero) {
    for (const DegreedLobe& pair : pairs) {
        const std::string position = pair.lobe + ' ' + pair.rise;
        const auto centreline = centreline_of(pair, CentrelineMethod::off_the_heel, zero);
        if (centreline && method_of(facts, pair) == CentrelineMethod::off_the_heel) {
            figures.add("lobe_duration", position,
                        Interval::about(centreline->found.between_marks_crank_deg,
                                        pair.opening_mark_deg->half_width() +
                                            pair.closing_mark_deg->half_width()));
        }
        const ValvePosition valve = valve_called(pair.lobe);
        if (valve.kind != ValveKind::intake || !pair.opening_mark_deg ||
            method_of(facts, pair) != CentrelineMethod::off_the_heel) {
            continue;
        }
        const std::string exhaust =
            position_name({valve.cylinder, ValveKind::exhaust, valve.which});
        for (const DegreedLobe& other : pairs) {
            if (other.lobe == exhaust && other.rise == pair.rise && other.closing_mark_deg) {
                // The zero's own error drops out of the difference.
                const double overlap_deg = zero.true_deg(*other.closing_mark_deg).middle() -
                                           zero.true_deg(*pair.opening_mark_deg).middle();
                figures.add("valve_overlap", position,
                            Interval::about(overlap_deg, other.closing_mark_deg->half_width() +
                                                             pair.opening_mark_deg->half_width()));
            }
        }
    }
}

void add_separations(WorkedFigures& figures, const std::vector<LobeCentrelines>& lobes) {
    for (const LobeCentrelines& intake : lobes) {
        const ValvePosition valve = valve_called(intake.lobe);
        if (valve.kind != ValveKind::intake || valve.which != 1 || !intake.from_heel) {
            continue;
        }
        const std::string exhaust = position_name({valve.cylinder, ValveKind::exhaust, 1});
        for (const LobeCentrelines& other : lobes) {
            if (other.lobe == exhaust && other.from_heel) {
                const CamFigures cam = cam_figures(intake.from_heel->found.centreline_crank_deg,
                                                   other.from_heel->found.centreline_crank_deg);
                figures.add("lobe_separation_found", std::to_string(valve.cylinder),
                            Interval::about(cam.lobe_separation_cam_deg,
                                            (intake.from_heel->doubt_crank_deg +
                                             other.from_heel->doubt_crank_deg) /
                                                2.0));
            }
        }
    }
}

void add_cam(WorkedFigures& figures, const std::vector<DegreedValve>& valves, double doubt_deg) {
    const auto found = degreeing_findings(valves);
    if (!found) {
        return;
    }
    const Interval advance = Interval::about(found->common_advanced_crank_deg, doubt_deg);
    figures.add_beside_reading("cam_advance_found", "", advance);
    figures.add("cam_turn_wanted", "", -advance);
    figures.add("cam_turn_wanted_at_sprocket", "", -advance / 2.0);
    for (const ValveDeparture& valve : found->valves) {
        if (valve.off) {
            figures.point_out(
                PointedOut::odd_one_out, "lobe_advance", {position_name(valve.valve)},
                {valve.advanced_crank_deg, valve.advanced_crank_deg - valve.own_crank_deg});
        }
    }
}

void add_advances(WorkedFigures& figures, const TakenReadings& readings,
                  const std::vector<LobeCentrelines>& lobes) {
    std::vector<DegreedValve> valves;
    double doubt_deg = 0.0;
    for (const LobeCentrelines& lobe : lobes) {
        const ValvePosition valve = valve_called(lobe.lobe);
        const auto card =
            readings.number("card_centreline", valve.kind == ValveKind::intake ? "I" : "E");
        const auto found = to_compare(readings, lobe);
        if (!card || !found) {
            continue;
        }
        const auto standing = cam_standing(found->found, std::abs(card->middle()));
        if (!standing) {
            continue;
        }
        // The card's figure is what is wanted: its last digit is no doubt of the cam.
        figures.add("lobe_advance", lobe.lobe,
                    Interval::about(standing->advanced_crank_deg, found->doubt_crank_deg));
        valves.push_back({valve, standing->advanced_crank_deg});
        doubt_deg = std::max(doubt_deg, found->doubt_crank_deg);
    }
    if (!valves.empty()) {
        add_cam(figures, valves, doubt_deg);
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    const auto pairs = degreed_lobes(facts.readings);
    const auto zero = wheel_zero(facts.readings);
    if (zero) {
        figures.add("wheel_error", "", Interval::about(zero->tdc.mark_deg, zero->doubt_crank_deg));
        add_events(figures, facts, pairs, *zero);
    } else if (!pairs.empty() || !facts.readings.of("lift_at_angle").empty()) {
        figures.point_out(PointedOut::needs_reading, "wheel_error", {""}, {}, "tdc_stop_reading");
    }
    const auto lobes = lobe_centrelines(facts, pairs, zero);
    for (const LobeCentrelines& lobe : lobes) {
        add_centrelines(figures, facts.readings, lobe);
    }
    add_separations(figures, lobes);
    add_advances(figures, facts.readings, lobes);
    return figures.outcome();
}

} // namespace

SheetKind cam_timing_sheet() {
    const Origin follows = Origin::worked_out;
    return {"cam_timing",
            {
                {"timing_set_position", Form::words, Place::engine},
                {"tdc_stop_reading", Form::crank_angle, Place::stop_side, "deg"},
                {"wheel_error", Form::crank_angle, Place::engine, "deg", "", follows},
                {"lift_at_angle", Form::length, Place::lobe_angle, "in"},
                {"lobe_event", Form::crank_angle, Place::lobe_event, "deg"},
                {"lobe_duration", Form::crank_angle, Place::lobe_rise, "deg", "", follows},
                {"valve_overlap", Form::crank_angle, Place::lobe_rise, "deg", "", follows},
                {"full_lift_angle", Form::crank_angle, Place::lobe, "deg"},
                {"centreline_from_heel", Form::crank_angle, Place::lobe, "deg", "", follows},
                {"centreline_from_peak", Form::crank_angle, Place::lobe, "deg", "", follows},
                {"lobe_centreline", Form::crank_angle, Place::lobe, "deg"},
                {"lobe_centreline_method", Form::choice, Place::lobe, "",
                 "down_from_peak up_from_heel"},
                {"lobe_separation_found", Form::cam_angle, Place::cylinder, "deg", "", follows},
                {"lobe_advance", Form::crank_angle, Place::lobe, "deg", "", follows},
                {"cam_advance_found", Form::advance, Place::engine, "deg"},
                {"cam_turn_wanted", Form::crank_angle, Place::engine, "deg", "", follows},
                {"cam_turn_wanted_at_sprocket", Form::cam_angle, Place::engine, "deg", "", follows},
                {"cam_advance_set", Form::advance, Place::engine, "deg"},
                {"checking_follower", Form::choice, Place::engine, "", "flat roller"},
                {"follower_radius", Form::length, Place::engine, "in"},
                {"chain_slack", Form::length, Place::engine, "in"},
                {"timing_gear_backlash", Form::length, Place::engine, "in"},
            },
            work_out};
}

} // namespace rodway
