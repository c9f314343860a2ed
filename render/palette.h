#pragma once

#include <QColor>
#include <QPalette>
#include <array>

#include "render/check_state.h"
#include "render/material.h"

namespace rodway {

enum class Theme { light, dark };

/// Light or dark, by how bright the window colour of a Qt palette is.
[[nodiscard]] Theme theme_of(const QPalette& window);

/// Every colour that pictures, plots and plans are drawn in. Pairs that must be told apart differ
/// in lightness as well as hue, so that they stay apart for readers who mix up red and green.
struct Palette {
    QColor paper;      ///< ground of plots and plans, foot of the 3D picture
    QColor paper_high; ///< head of the 3D picture
    QColor ink;        ///< text, axes
    QColor faint_ink;  ///< grid, outlines that only guide the eye
    QColor accent;     ///< what is selected
    QColor limit;      ///< limit lines
    QColor cursor;     ///< the crank's place on a curve
    std::array<QColor, material_count> materials; ///< by `Material`; alpha below 255 is glass
    std::array<QColor, check_state_count> states; ///< fill, by `CheckState`
    std::array<QColor, 6> series;                 ///< curves, in the order they are added

    [[nodiscard]] const QColor& of(Material material) const {
        return materials[static_cast<std::size_t>(material)];
    }
    [[nodiscard]] const QColor& of(CheckState state) const {
        return states[static_cast<std::size_t>(state)];
    }
};

[[nodiscard]] Palette palette_for(Theme theme);

} // namespace rodway
