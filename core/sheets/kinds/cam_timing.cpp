#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind cam_timing_sheet() {
    return {"cam_timing",
            {
                {"timing_set_position", Form::words, Place::engine},
                {"tdc_stop_reading", Form::crank_angle, Place::stop_side, "deg"},
                {"lift_at_angle", Form::length, Place::lobe_angle, "in"},
                {"lobe_event", Form::crank_angle, Place::lobe_event, "deg"},
                {"full_lift_angle", Form::crank_angle, Place::lobe, "deg"},
                {"lobe_centreline", Form::crank_angle, Place::lobe, "deg"},
                {"lobe_centreline_method", Form::choice, Place::lobe, "",
                 "down_from_peak up_from_heel"},
                {"cam_advance_found", Form::advance, Place::engine, "deg"},
                {"cam_advance_set", Form::advance, Place::engine, "deg"},
                {"checking_follower", Form::choice, Place::engine, "", "flat roller"},
                {"follower_radius", Form::length, Place::engine, "in"},
                {"chain_slack", Form::length, Place::engine, "in"},
                {"timing_gear_backlash", Form::length, Place::engine, "in"},
            }};
}

} // namespace rodway
