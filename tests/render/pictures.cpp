#include "tests/render/pictures.h"

namespace rodway {

Frame whole_frame(std::shared_ptr<const Scene> scene, PictureSize size) {
    Frame frame;
    frame.scene = std::move(scene);
    frame.palette = palette_for(Theme::light);
    frame.size = size;
    frame.camera = framed(frame.camera, frame.scene->outline_E(), size);
    return frame;
}

int different_pixels(const QImage& one, const QImage& other) {
    RODWAY_ASSERT(one.size() == other.size());
    int count = 0;
    for (int y = 0; y < one.height(); ++y) {
        for (int x = 0; x < one.width(); ++x) {
            count += one.pixel(x, y) != other.pixel(x, y) ? 1 : 0;
        }
    }
    return count;
}

Renderer& test_renderer() {
    static const std::unique_ptr<Renderer> renderer = [] {
        Result<std::unique_ptr<Renderer>> made = Renderer::create();
        return std::move(made).value();
    }();
    return *renderer;
}

QImage drawn(const Frame& frame) {
    return *test_renderer().draw(frame);
}

} // namespace rodway
