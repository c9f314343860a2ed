#include "core/castings/hot_stated.h"

#include "core/base/assert.h"

namespace rodway {

const std::array<HotPart, hot_part_count>& hot_parts() {
    static constexpr std::array<HotPart, hot_part_count> parts{
        HotPart::block,         HotPart::head,         HotPart::head_gasket,  HotPart::intake,
        HotPart::intake_gasket, HotPart::camshaft,     HotPart::lifter,       HotPart::rod,
        HotPart::rocker,        HotPart::intake_valve, HotPart::exhaust_valve};
    return parts;
}

const char* hot_part_name(HotPart part) {
    static constexpr std::array<const char*, hot_part_count> names{
        "block",  "head", "head_gasket", "intake",       "intake_gasket", "camshaft",
        "lifter", "rod",  "rocker",      "intake_valve", "exhaust_valve"};
    const auto at = static_cast<std::size_t>(part);
    RODWAY_ASSERT(at < names.size());
    return names[at];
}

} // namespace rodway
