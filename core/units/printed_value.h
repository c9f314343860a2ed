#pragma once

namespace rodway {

/// A printed number: its value and one step of the last digit printed, both in one unit.
struct PrintedValue {
    double value = 0.0;
    double step = 0.0; ///< 0 or more
};

} // namespace rodway
