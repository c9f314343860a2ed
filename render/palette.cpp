#include "render/palette.h"

namespace rodway {
namespace {

QColor rgb(unsigned value) {
    return QColor::fromRgb(0xff000000u | value);
}

QColor glassy(unsigned value, int alpha) {
    QColor colour = rgb(value);
    colour.setAlpha(alpha);
    return colour;
}

// Metals differ a little in warmth and lightness, as they do on a bench: iron cam, black lifters,
// bright rods, bronze-toned shaft, golden retainers.
void set_metals(Palette& palette) {
    const auto set = [&](Material material, QColor colour) {
        palette.materials[static_cast<std::size_t>(material)] = colour;
    };
    set(Material::cam, rgb(0x8a8580));
    set(Material::lifter, rgb(0x5b6470));
    set(Material::rod, rgb(0xd9dde2));
    set(Material::rocker, rgb(0x9fb0c4));
    set(Material::roller, rgb(0xe6e6e0));
    set(Material::adjuster, rgb(0x6b6f76));
    set(Material::shaft, rgb(0xa58b66));
    set(Material::valve, rgb(0xb9b4ae));
    set(Material::spring, rgb(0x5f86a8));
    set(Material::retainer, rgb(0xb99a45));
    set(Material::piston, rgb(0xa9adb0));
    set(Material::rod_open, rgb(0xd55e00));
    set(Material::obstacle, rgb(0x8c6f5a));
}

} // namespace

Theme theme_of(const QPalette& window) {
    return window.color(QPalette::Window).lightness() < 128 ? Theme::dark : Theme::light;
}

// State and curve colours come from the set of Okabe and Ito (Color Universal Design, 2008),
// darkened or lightened where the ground needs it.
Palette palette_for(Theme theme) {
    Palette palette;
    set_metals(palette);
    const auto set = [&](Material material, QColor colour) {
        palette.materials[static_cast<std::size_t>(material)] = colour;
    };
    if (theme == Theme::light) {
        palette.paper = rgb(0xfbfaf7);
        palette.paper_high = rgb(0xdfe5ea);
        palette.ink = rgb(0x1d2226);
        palette.faint_ink = rgb(0xb4bbc0);
        palette.accent = rgb(0x0064a8);
        palette.limit = rgb(0xa83200);
        palette.cursor = rgb(0x454c52);
        palette.states = {rgb(0xe9eaea), rgb(0x57b894), rgb(0xf0e442), rgb(0xd55e00),
                          rgb(0xc9c2d6), rgb(0x7fc4ee), rgb(0x4a4f55), rgb(0xb5c95a)};
        palette.series = {rgb(0x0072b2), rgb(0xc85000), rgb(0x00805d),
                          rgb(0xa8487f), rgb(0x8a6a00), rgb(0x33383c)};
        set(Material::guide_line, rgb(0xaab3ba));
        set(Material::rim, rgb(0x2b6f8f));
        set(Material::glass, glassy(0x4f9fc4, 70));
        set(Material::sweep, glassy(0xe69f00, 90));
        set(Material::casting, glassy(0x7d8a74, 70));
        set(Material::mark, rgb(0x5c6870));
    } else {
        palette.paper = rgb(0x191c1f);
        palette.paper_high = rgb(0x2c333a);
        palette.ink = rgb(0xe9ecee);
        palette.faint_ink = rgb(0x535b62);
        palette.accent = rgb(0x66c2ff);
        palette.limit = rgb(0xff8a4c);
        palette.cursor = rgb(0xc9d0d6);
        palette.states = {rgb(0x3a4046), rgb(0x2fa67f), rgb(0xf0e442), rgb(0xe8702a),
                          rgb(0x76698f), rgb(0x4aa3d8), rgb(0xd4d8dc), rgb(0x9bb84a)};
        palette.series = {rgb(0x66c2ff), rgb(0xff9a52), rgb(0x3fc79a),
                          rgb(0xe39ac4), rgb(0xf0e442), rgb(0xd8dde1)};
        set(Material::guide_line, rgb(0x5d666e));
        set(Material::rim, rgb(0x8fd4f2));
        set(Material::glass, glassy(0x8fd4f2, 60));
        set(Material::sweep, glassy(0xe69f00, 95));
        set(Material::casting, glassy(0xb4c4a4, 60));
        set(Material::mark, rgb(0x9aa6ae));
    }
    return palette;
}

} // namespace rodway
