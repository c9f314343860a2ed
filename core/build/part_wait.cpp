#include "core/build/part_wait.h"

namespace rodway {

std::optional<PartWait> part_wait(const PartRecord& part, std::string_view today) {
    if (part.returned) {
        return std::nullopt;
    }
    if (part.failed) {
        return PartWait::failed;
    }
    if (part.fitted) {
        return part.temporary ? std::optional(PartWait::temporary) : std::nullopt;
    }
    if (part.received || part.measured) {
        return part.measured ? PartWait::not_fitted : PartWait::not_measured;
    }
    if (part.promised) {
        // ISO days stand in the order of the calendar.
        return *part.promised < today ? PartWait::overdue : PartWait::promised;
    }
    return part.ordered ? PartWait::ordered : PartWait::needed;
}

bool is_to_come(PartWait wait) {
    switch (wait) {
        case PartWait::not_listed:
        case PartWait::needed:
        case PartWait::ordered:
        case PartWait::promised:
        case PartWait::overdue:
            return true;
        case PartWait::not_measured:
        case PartWait::not_fitted:
        case PartWait::temporary:
        case PartWait::failed:
            return false;
    }
    return false;
}

} // namespace rodway
