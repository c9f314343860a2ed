#pragma once

#include <map>
#include <optional>

#include "app/valvetrain/survey_pictures.h"
#include "render/look.h"

namespace rodway {

/// Which picture of an engine is wanted, in the words of a person who asks for one.
struct ViewChoice {
    Look look = Look::corner;
    std::optional<double> yaw_deg; ///< turns the camera off the look's own direction
    std::optional<double> pitch_deg;
    bool whole_engine = false;       ///< or the selected train alone fills the picture
    std::optional<CrankAngle> crank; ///< left out: where the selected valve is tightest
    Others others = Others::faded;
    Rockers rockers = Rockers::shown;
    Cut cut = Cut::none;
    double cut_by_mm = 0.0; ///< towards what is taken away
    bool sweep = false;
    bool states = false; ///< rods by how their clearances stand
    bool pistons = true;
    bool closest = true; ///< the dimension line at the closest point
    bool lens = true;
};

/// How every computed clearance stands.
[[nodiscard]] std::map<ValvePosition, CheckState> states_of(
    const std::vector<ValveClearance>& lines);

/// Where a valve's rod is nearest to anything at one crank angle, labelled; nothing where its train
/// doesn't close there.
[[nodiscard]] std::optional<ClosestSpot> closest_spot_at(const Engine& engine,
                                                         const ValvePosition& valve,
                                                         CrankAngle crank);

/// The word at the front end of the crank.
[[nodiscard]] QString front_words();

/// The picture asked for. `line`: of the selected valve; null: none is.
[[nodiscard]] PictureRequest view_picture(std::shared_ptr<const Scene> scene,
                                          const std::vector<ValveClearance>& lines,
                                          const ValveClearance* line, const ViewChoice& choice,
                                          PictureSize size, const Palette& palette);

} // namespace rodway
