#pragma once

#include <vector>

#include "core/dyno/pull.h"

namespace rodway {

/// A pull and the air it was made in.
struct PullInAir {
    Pull pull;
    WeatherAir air;
};

/// One speed of two pulls. What stands between rows is on the straight line between them.
struct ComparedPoint {
    double speed_rpm = 0.0;
    Torque first_raw;
    Torque second_raw;
    Torque first_corrected;
    Torque second_corrected;
};

/// One pull's averages over the common band, by area and of its own rows.
struct ComparedAverages {
    BandAverages raw;
    BandAverages corrected;
};

/// Two pulls on one standard, over the speeds that both have. Gained is second less first.
struct PullComparison {
    PowerCorrection first_by; ///< both of one standard; each says whether it may be used
    PowerCorrection second_by;
    SpeedBand band;
    std::vector<ComparedPoint> points; ///< at the band's ends and every row of either within
    ComparedAverages first;
    ComparedAverages second;
    Torque raw_torque_gained; ///< of the averages by area
    Power raw_power_gained;
    Torque torque_gained; ///< of the corrected ones
    Power power_gained;
    /// The raw power says that one pull is the better, the corrected power that the other is.
    bool air_turned_it = false;
};
/// Errors: as `check_pull`, `field` under "first/" or "second/"; as `power_correction`;
/// out_of_range ("band": the pulls have no band in common; `limits` the first's).
Result<PullComparison> compare_pulls(const PullInAir& first, const PullInAir& second,
                                     PowerStandard standard);

} // namespace rodway
