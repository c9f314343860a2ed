#pragma once

namespace rodway {

/// Who stands behind a figure that isn't measured.
enum class FigureSource {
    common_practice, ///< what the trade usually does, no source: a default to be changed
    textbook,        ///< a published book or standard, named beside the figure
    maker,           ///< the part's maker
    shop,            ///< the shop's own
};

} // namespace rodway
