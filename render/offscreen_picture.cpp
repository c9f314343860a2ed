#include "render/offscreen_picture.h"

namespace rodway {

Result<QImage> offscreen_picture(Renderer& renderer, const PictureRequest& request) {
    const Frame& frame = request.frame;
    Result<QImage> drawn = renderer.draw(frame);
    if (!drawn) {
        return drawn;
    }
    QImage picture = std::move(drawn).value();
    QPainter painter(&picture);
    painter.setFont(request.font);
    paint_states(painter, frame, 1.0);
    paint_front(painter, frame, request.front_label, 1.0);
    if (!request.closest) {
        return picture;
    }
    const ClosestSpot& spot = *request.closest;
    paint_closest(painter, frame, spot, 1.0);
    const std::optional<PicturePoint> at = projected(frame.camera, frame.size, spot.p_rod_E);
    if (request.lens && at) {
        const QRectF place = lens_place(QSizeF(picture.size()), {at->x, at->y});
        const Frame lens = lens_frame(frame, spot, static_cast<int>(place.width()));
        const Result<QImage> magnified = renderer.draw(lens);
        if (!magnified) {
            return magnified.error();
        }
        paint_lens(painter, place, *magnified, lens, spot);
    }
    return picture;
}

} // namespace rodway
