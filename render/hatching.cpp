#include "render/hatching.h"

namespace rodway {

Hatching hatching_of(CheckState state) {
    switch (state) {
        case CheckState::passed:
            return {};
        case CheckState::serviceable:
            return {24.0f, 0.0f, 0.10f, false};
        case CheckState::too_close:
            return {10.0f, 0.0f, 0.35f, false};
        case CheckState::failed:
            return {9.0f, 18.0f, 0.30f, true};
        case CheckState::waived:
            return {9.0f, 18.0f, 0.30f, false};
        case CheckState::stale:
            return {22.0f, 0.0f, 0.50f, false};
        case CheckState::no_answer:
            return {5.0f, 0.0f, 0.50f, false};
        case CheckState::not_yet:
            return {36.0f, 0.0f, 0.06f, false};
    }
    return {};
}

} // namespace rodway
