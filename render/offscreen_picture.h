#pragma once

#include <QFont>
#include <QImage>
#include <optional>

#include "render/annotation.h"
#include "render/renderer.h"

namespace rodway {

/// A picture for a file or a document: the scene as `frame` says with the signs of its states, and,
/// where given, the closest spot with its label and a lens.
struct PictureRequest {
    Frame frame;
    std::optional<ClosestSpot> closest;
    bool lens = true;    ///< matters only with a closest spot
    QFont font;          ///< of all text
    QString front_label; ///< names the front end; empty: nothing does
};

/// The same for the same request on the same machine, to the byte. Needs a QGuiApplication for its
/// text, no display. Error: no_graphics.
[[nodiscard]] Result<QImage> offscreen_picture(Renderer& renderer, const PictureRequest& request);

} // namespace rodway
