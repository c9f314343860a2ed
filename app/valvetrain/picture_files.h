#pragma once

#include <QByteArray>
#include <QString>

#include "app/valvetrain/by_hand.h"
#include "app/valvetrain/tube_pictures.h"
#include "app/valvetrain/valvetrain_model.h"
#include "core/base/result.h"
#include "render/offscreen_picture.h"
#include "render/tube_drawing.h"

namespace rodway {

/// What goes out of the valvetrain place as a file. Drawings become SVG where the file's name ends
/// in .svg, else PNG.
enum class ViewFile { view, tube, curve, plan, clearances, curves };
constexpr std::size_t view_file_count = 6;

/// "view.png", what the dialog offers, and the kinds of file it lets choose.
[[nodiscard]] QString offered_name(ViewFile file, const std::optional<ValvePosition>& valve);
[[nodiscard]] QString name_filter(ViewFile file);

/// What is seen when it is asked for.
struct ViewSource {
    const ValvetrainModel& model;
    std::optional<PictureRequest> view; ///< of the 3D view; nothing: it has no scene
    TubeChoice tube;
    std::vector<ValvePosition> curve_valves;
    ByHand by_hand;
    QFont font; ///< of the window
};

/// Errors: no_graphics, cannot_write; missing_field "engine" while there is none.
[[nodiscard]] Result<Done> write_view_file(ViewFile file, const ViewSource& source,
                                           const QString& path);

[[nodiscard]] QByteArray png_bytes(const QImage& image);

} // namespace rodway
