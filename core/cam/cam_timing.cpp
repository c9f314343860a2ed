#include "core/cam/cam_timing.h"

#include <cmath>
#include <string>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// Two crank angles after top dead centre of the cylinder's overlap.
struct CrankPoints {
    double opening_deg;
    double closing_deg;
};

CrankPoints points_at(const CamLobes& lobes, ValveKind kind, double lobe_lift_mm) {
    const double full_lift_deg =
        kind == ValveKind::intake ? lobes.centreline_crank_deg : -lobes.centreline_crank_deg;
    const Flanks flanks = lobes.lobe.at_lift(lobe_lift_mm);
    return {full_lift_deg + crank_angle(flanks.opening).in_deg(),
            full_lift_deg + crank_angle(flanks.closing).in_deg()};
}

/// The bottom dead centre before the overlap lies at -180, the one after it at 180.
ValveEvents events_of(ValveKind kind, const CrankPoints& points) {
    if (kind == ValveKind::intake) {
        return {-points.opening_deg, points.closing_deg - 180.0};
    }
    return {-180.0 - points.opening_deg, points.closing_deg};
}

double after_overlap_opening_deg(ValveKind kind, const ValveEvents& events) {
    return kind == ValveKind::intake ? -events.opens_crank_deg : -180.0 - events.opens_crank_deg;
}
double after_overlap_closing_deg(ValveKind kind, const ValveEvents& events) {
    return kind == ValveKind::intake ? 180.0 + events.closes_crank_deg : events.closes_crank_deg;
}

CrankAngle in_engine(const EngineLayout& layout, const ValvePosition& valve,
                     double after_overlap_deg) {
    return (layout.firing_angle(valve.cylinder) + CrankAngle::deg(360.0 + after_overlap_deg))
        .in_cycle();
}

/// A lobe lift, or why there is none.
struct LobeLiftAt {
    TimingStatus status = TimingStatus::answered;
    TrainStatus train = TrainStatus::answered;
    double lobe_lift_mm = 0.0;
};

LobeLiftAt not_closed(const Linkage& linkage, double lobe_lift_mm) {
    return {TimingStatus::train_does_not_close, linkage.status_at(lobe_lift_mm), 0.0};
}

/// The lobe lift at which the valve rises through a net lift, by bisection. At 0 it is where the
/// valve leaves its seat.
LobeLiftAt lobe_lift_for_valve(const Linkage& linkage, double full_lobe_lift_mm,
                               double valve_lift_mm) {
    const auto reached = [&](const Pose& pose) {
        const double lift = linkage.valve_lift_mm(pose);
        return valve_lift_mm > 0.0 ? lift >= valve_lift_mm : lift > 0.0;
    };
    const auto top = linkage.at(full_lobe_lift_mm);
    if (!top) {
        return not_closed(linkage, full_lobe_lift_mm);
    }
    if (!reached(*top)) {
        return {TimingStatus::lift_not_reached, TrainStatus::answered, 0.0};
    }
    double below = 0.0;
    double above = full_lobe_lift_mm;
    for (double middle = (below + above) / 2.0; middle > below && middle < above;
         middle = (below + above) / 2.0) {
        const auto pose = linkage.at(middle);
        if (!pose) {
            return not_closed(linkage, middle);
        }
        (reached(*pose) ? above : below) = middle;
        if (above <= least_checking_lobe_lift_mm / 1000.0) {
            break; // on the heel, and halving towards zero would never end
        }
    }
    return {TimingStatus::answered, TrainStatus::answered, above};
}

/// The lobe lift that belongs to a lift of lobe or valve.
LobeLiftAt lobe_lift_for(const CamLobes& lobes, const Linkage* linkage, LiftOf of, double lift_mm) {
    const double full_mm = lobes.lobe.full_lift_mm();
    LobeLiftAt found{TimingStatus::answered, TrainStatus::answered, lift_mm};
    if (of == LiftOf::valve) {
        if (!linkage) {
            return {TimingStatus::no_train, TrainStatus::answered, 0.0};
        }
        found = lobe_lift_for_valve(*linkage, full_mm, lift_mm);
    } else if (lift_mm > full_mm) {
        found.status = TimingStatus::lift_not_reached;
    }
    if (found.status == TimingStatus::answered &&
        found.lobe_lift_mm < least_checking_lobe_lift_mm) {
        found.status = TimingStatus::on_the_heel;
    }
    return found;
}

std::optional<double> below_the_peak(const CamLobes& lobes, ValveKind kind, const Linkage* linkage,
                                     const CheckingLift& checking) {
    double full_mm = lobes.lobe.full_lift_mm();
    if (checking.of == LiftOf::valve) {
        const auto top = linkage->at(full_mm);
        if (!top) {
            return std::nullopt;
        }
        full_mm = linkage->valve_lift_mm(*top);
    }
    const double lift_mm = full_mm - checking.lift_mm;
    if (lift_mm < 0.0) {
        return std::nullopt;
    }
    const LobeLiftAt found = lobe_lift_for(lobes, linkage, checking.of, lift_mm);
    if (found.status != TimingStatus::answered) {
        return std::nullopt;
    }
    return centreline_crank_deg(kind, events_of(kind, points_at(lobes, kind, found.lobe_lift_mm)));
}

Error refused(std::string field, double value, double low, double high, std::string unit) {
    return {ErrorCode::out_of_range,           std::move(field), exact_text(value), {}, {},
            Limits{low, high, std::move(unit)}};
}

std::optional<Error> wrong_lift(const CheckingLift& checking) {
    constexpr double highest_mm = 50.0;
    const bool valve = checking.of == LiftOf::valve;
    if (checking.lift_mm <= highest_mm &&
        (checking.lift_mm > 0.0 || (valve && checking.lift_mm == 0.0))) {
        return std::nullopt;
    }
    return refused("checking_lift", checking.lift_mm, valve ? 0.0 : least_checking_lobe_lift_mm,
                   highest_mm, "mm");
}

std::optional<Error> wrong_event(const char* field, const std::optional<double>& crank_deg) {
    if (!crank_deg || std::abs(*crank_deg) <= furthest_event_crank_deg) {
        return std::nullopt;
    }
    return refused(field, *crank_deg, -furthest_event_crank_deg, furthest_event_crank_deg,
                   "crank_deg");
}

} // namespace

double centreline_crank_deg(ValveKind kind, const ValveEvents& events) {
    const double half = events.duration_crank_deg() / 2.0;
    return kind == ValveKind::intake ? half - events.opens_crank_deg
                                     : half - events.closes_crank_deg;
}

CrankAngle opens_at(const EngineLayout& layout, const ValvePosition& valve,
                    const ValveEvents& events) {
    return in_engine(layout, valve, after_overlap_opening_deg(valve.kind, events));
}

CrankAngle closes_at(const EngineLayout& layout, const ValvePosition& valve,
                     const ValveEvents& events) {
    return in_engine(layout, valve, after_overlap_closing_deg(valve.kind, events));
}

Result<ValveTiming> valve_timing(const CamLobes& lobes, ValveKind kind, const Linkage* linkage,
                                 const CheckingLift& checking) {
    if (const auto wrong = wrong_lift(checking)) {
        return *wrong;
    }
    ValveTiming timing;
    timing.kind = kind;
    timing.checking = checking;
    timing.estimated = lobes.lobe.estimated();
    timing.centreline_at_full_lift_crank_deg = lobes.centreline_crank_deg;
    const LobeLiftAt found = lobe_lift_for(lobes, linkage, checking.of, checking.lift_mm);
    timing.status = found.status;
    timing.train = found.train;
    if (found.status == TimingStatus::no_train ||
        found.status == TimingStatus::train_does_not_close) {
        return timing;
    }
    if (found.status == TimingStatus::answered) {
        timing.lobe_lift_mm = found.lobe_lift_mm;
        timing.events = events_of(kind, points_at(lobes, kind, found.lobe_lift_mm));
        timing.centreline_off_the_heel_crank_deg = centreline_crank_deg(kind, *timing.events);
    }
    timing.centreline_below_the_peak_crank_deg = below_the_peak(lobes, kind, linkage, checking);
    return timing;
}

Result<ValveTiming> valve_timing(const Engine& engine, const ValvePosition& valve,
                                 const CheckingLift& checking) {
    if (valve.cylinder < 1 ||
        static_cast<std::size_t>(valve.cylinder) > engine.layout.cylinders.size()) {
        return Error{ErrorCode::valve_unknown, "valve", position_name(valve), {}, {}, {}};
    }
    const CamLobes& lobes = engine.lobes(valve);
    const Train* const train = engine.train(valve);
    if (!train) {
        return valve_timing(lobes, valve.kind, nullptr, checking);
    }
    const Linkage::Closing closing = Linkage::close(*train);
    const Linkage* const linkage = closing.linkage ? &*closing.linkage : nullptr;
    auto timing = valve_timing(lobes, valve.kind, linkage, checking);
    if (timing && timing->status == TimingStatus::no_train) {
        ValveTiming changed = *timing;
        changed.status = TimingStatus::train_does_not_close;
        changed.train = closing.status;
        return changed;
    }
    return timing;
}

CamFigures cam_figures(double intake_centreline_crank_deg, double exhaust_centreline_crank_deg) {
    CamFigures figures;
    figures.intake_centreline_crank_deg = intake_centreline_crank_deg;
    figures.exhaust_centreline_crank_deg = exhaust_centreline_crank_deg;
    figures.lobe_separation_cam_deg =
        (intake_centreline_crank_deg + exhaust_centreline_crank_deg) / 2.0;
    figures.advance_crank_deg = figures.lobe_separation_cam_deg - intake_centreline_crank_deg;
    return figures;
}

Result<CylinderTiming> cylinder_timing(const Engine& engine, int cylinder,
                                       const CheckingLift& checking) {
    const auto intake = valve_timing(engine, {cylinder, ValveKind::intake, 1}, checking);
    if (!intake) {
        return intake.error();
    }
    const auto exhaust = valve_timing(engine, {cylinder, ValveKind::exhaust, 1}, checking);
    if (!exhaust) {
        return exhaust.error();
    }
    CylinderTiming timing;
    timing.intake = *intake;
    timing.exhaust = *exhaust;
    timing.at_full_lift = cam_figures(intake->centreline_at_full_lift_crank_deg,
                                      exhaust->centreline_at_full_lift_crank_deg);
    const auto figures = [](const std::optional<double>& intake_deg,
                            const std::optional<double>& exhaust_deg) {
        return intake_deg && exhaust_deg ? std::optional(cam_figures(*intake_deg, *exhaust_deg))
                                         : std::nullopt;
    };
    timing.off_the_heel = figures(intake->centreline_off_the_heel_crank_deg,
                                  exhaust->centreline_off_the_heel_crank_deg);
    timing.below_the_peak = figures(intake->centreline_below_the_peak_crank_deg,
                                    exhaust->centreline_below_the_peak_crank_deg);
    if (intake->events && exhaust->events) {
        timing.overlap_crank_deg =
            intake->events->opens_crank_deg + exhaust->events->closes_crank_deg;
    }
    return timing;
}

CardEvents advanced(const CardEvents& events, double by_crank_deg) {
    const auto moved = [](const std::optional<double>& event, double by_deg) {
        return event ? std::optional(*event + by_deg) : std::nullopt;
    };
    return {moved(events.intake_opens_crank_deg, by_crank_deg),
            moved(events.intake_closes_crank_deg, -by_crank_deg),
            moved(events.exhaust_opens_crank_deg, by_crank_deg),
            moved(events.exhaust_closes_crank_deg, -by_crank_deg)};
}

Result<CardFigures> timing_from_events(const CardEvents& events) {
    for (const auto& wrong : {wrong_event("intake_opens", events.intake_opens_crank_deg),
                              wrong_event("intake_closes", events.intake_closes_crank_deg),
                              wrong_event("exhaust_opens", events.exhaust_opens_crank_deg),
                              wrong_event("exhaust_closes", events.exhaust_closes_crank_deg)}) {
        if (wrong) {
            return *wrong;
        }
    }
    CardFigures figures;
    if (events.intake_opens_crank_deg && events.intake_closes_crank_deg) {
        const ValveEvents intake{*events.intake_opens_crank_deg, *events.intake_closes_crank_deg};
        figures.intake_duration_crank_deg = intake.duration_crank_deg();
        figures.intake_centreline_crank_deg = centreline_crank_deg(ValveKind::intake, intake);
    }
    if (events.exhaust_opens_crank_deg && events.exhaust_closes_crank_deg) {
        const ValveEvents exhaust{*events.exhaust_opens_crank_deg,
                                  *events.exhaust_closes_crank_deg};
        figures.exhaust_duration_crank_deg = exhaust.duration_crank_deg();
        figures.exhaust_centreline_crank_deg = centreline_crank_deg(ValveKind::exhaust, exhaust);
    }
    for (const auto& [field, duration] :
         {std::pair{"intake_duration", figures.intake_duration_crank_deg},
          std::pair{"exhaust_duration", figures.exhaust_duration_crank_deg}}) {
        if (duration && !(*duration > 0.0)) {
            return refused(field, *duration, 0.0, 540.0, "crank_deg");
        }
    }
    if (events.intake_opens_crank_deg && events.exhaust_closes_crank_deg) {
        figures.overlap_crank_deg =
            *events.intake_opens_crank_deg + *events.exhaust_closes_crank_deg;
    }
    if (figures.intake_centreline_crank_deg && figures.exhaust_centreline_crank_deg) {
        const CamFigures cam = cam_figures(*figures.intake_centreline_crank_deg,
                                           *figures.exhaust_centreline_crank_deg);
        figures.lobe_separation_cam_deg = cam.lobe_separation_cam_deg;
        figures.advance_crank_deg = cam.advance_crank_deg;
    }
    return figures;
}

} // namespace rodway
