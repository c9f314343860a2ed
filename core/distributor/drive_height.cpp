#include "core/distributor/drive_height.h"

#include "core/units/figure_band.h"

namespace rodway {

Result<DriveHeight> drive_height(const std::vector<DriveHeightItem>& items,
                                 const std::optional<Interval>& pump_room_before_mm) {
    if (items.empty()) {
        return Error{ErrorCode::too_few_rows, "item", "0", "1", {}, {}};
    }
    DriveHeight height;
    int line = 0;
    for (const DriveHeightItem& item : items) {
        if (const auto bad =
                first_outside({{"raises", item.raises_mm, {-50.0, 50.0, "mm"}, ++line}})) {
            return *bad;
        }
        height.raised_mm = height.raised_mm + item.raises_mm;
    }
    height.housing_shim_mm = -height.raised_mm;
    if (!pump_room_before_mm) {
        return height;
    }
    if (const auto bad = first_outside({{"pump_room", *pump_room_before_mm, {0.0, 50.0, "mm"}}})) {
        return *bad;
    }
    height.pump_room_mm = *pump_room_before_mm + height.raised_mm;
    switch (standing(*height.pump_room_mm, {0.0, {}, FigureSource::measured_here})) {
        case BandStanding::inside:
            height.pump_drive = PumpDrive::clear;
            break;
        case BandStanding::below:
            height.pump_drive = PumpDrive::bottoms;
            break;
        default:
            height.pump_drive = PumpDrive::undecided;
            break;
    }
    return height;
}

} // namespace rodway
