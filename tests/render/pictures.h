#pragma once

#include <QColor>
#include <QImage>

#include "render/renderer.h"
#include "tests/render/sample_engine.h"

namespace rodway {

/// A frame of a scene, all of it in the picture.
[[nodiscard]] Frame whole_frame(std::shared_ptr<const Scene> scene, PictureSize size = {480, 300});

/// Pixels of two pictures of one size that are not the same.
[[nodiscard]] int different_pixels(const QImage& one, const QImage& other);

/// The renderer of these tests, made once: software pictures are only compared with each other.
[[nodiscard]] Renderer& test_renderer();

/// Draws, or fails the test by ending it.
[[nodiscard]] QImage drawn(const Frame& frame);

} // namespace rodway
