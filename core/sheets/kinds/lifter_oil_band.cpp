#include "core/valvetrain/lifter_oil_band.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/set_up_lift.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

/// What stands out of the bore at both its ends; nothing unless both ends are known.
std::optional<Interval> exposed(const OilBandAt& at) {
    return at.out_above_mm && at.out_below_mm ? std::optional(*at.out_above_mm + *at.out_below_mm)
                                              : std::nullopt;
}

void add_band(WorkedFigures& figures, const SheetFacts& facts, const std::string& valve) {
    const TakenReadings& readings = facts.readings;
    const auto lower_mm = readings.number("oil_band_lower_edge", valve);
    const auto upper_mm = readings.number("oil_band_upper_edge", valve);
    const auto feed_mm = readings.number("oil_feed_height", valve);
    const auto feed_size_mm = readings.number("oil_feed_diameter", valve);
    const auto lift_mm = full_lobe_lift_mm(facts, valve);
    if (!lower_mm || !upper_mm || !feed_mm || !feed_size_mm || !lift_mm) {
        return;
    }
    const auto band = lifter_oil_band({*lower_mm, *upper_mm, *feed_mm, *feed_size_mm, *lift_mm,
                                       readings.number("lifter_bore_lower_end", valve),
                                       readings.number("lifter_bore_upper_end", valve)});
    if (!band) {
        return;
    }
    figures.add("oil_feed_open_on_heel", valve, band->on_heel.on_band_mm);
    figures.add("oil_feed_open_at_full_lift", valve, band->at_full_lift.on_band_mm);
    figures.add("oil_band_exposed_on_heel", valve, exposed(band->on_heel));
    figures.add("oil_band_exposed_at_full_lift", valve, exposed(band->at_full_lift));
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    for (const std::string& valve : valves_read(facts.readings, {"oil_band_lower_edge"})) {
        add_band(figures, facts, valve);
    }
    return figures.outcome();
}

/// A band that stands out of its bore lets the oil go.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    return {common_practice("oil_band_exposed_on_heel", {}, 0.0),
            common_practice("oil_band_exposed_at_full_lift", {}, 0.0)};
}

} // namespace

SheetKind lifter_oil_band_sheet() {
    const Origin follows = Origin::worked_out;
    return {"lifter_oil_band",
            {
                {"oil_band_lower_edge", Form::length, Place::valve, "in"},
                {"oil_band_upper_edge", Form::length, Place::valve, "in"},
                {"oil_feed_height", Form::length, Place::valve, "in"},
                {"oil_feed_diameter", Form::length, Place::valve, "in"},
                {"lifter_bore_lower_end", Form::length, Place::valve, "in"},
                {"lifter_bore_upper_end", Form::length, Place::valve, "in"},
                {"oil_feed_open_on_heel", Form::length, Place::valve, "in", "", follows},
                {"oil_feed_open_at_full_lift", Form::length, Place::valve, "in", "", follows},
                {"oil_band_exposed_on_heel", Form::length, Place::valve, "in", "", follows},
                {"oil_band_exposed_at_full_lift", Form::length, Place::valve, "in", "", follows},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
