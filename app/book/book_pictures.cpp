#include "app/book/book_pictures.h"

#include <QPicture>
#include <algorithm>

#include "app/book/book_text.h"
#include "app/valvetrain/survey_pictures.h"
#include "render/offscreen_picture.h"

namespace rodway {
namespace {

constexpr std::size_t most_curves = 4;
constexpr QSizeF curves_size{658.0, 340.0}; ///< 1/96 in, as recorded

Palette paper_palette() {
    Palette palette = palette_for(Theme::light);
    palette.paper = Qt::white;
    return palette;
}

QByteArray recorded_curves(const BookFacts& facts) {
    const auto valves = valves_with_curves(facts);
    if (valves.empty()) {
        return {};
    }
    QPicture picture;
    QPainter painter(&picture);
    paint_clearance_curve(painter, QRectF(QPointF(0.0, 0.0), curves_size),
                          survey_curves(*facts.engine, facts.lines, valves), paper_palette(),
                          book_font(8.0));
    painter.end();
    return QByteArray(picture.data(), static_cast<qsizetype>(picture.size()));
}

} // namespace

std::vector<ValvePosition> valves_with_curves(const BookFacts& facts) {
    std::vector<const ValveClearance*> found;
    for (const ValveClearance& line : facts.lines) {
        if (facts.engine && line.found.minimum) found.push_back(&line);
    }
    std::stable_sort(found.begin(), found.end(), [](const auto* a, const auto* b) {
        return a->found.minimum->clearance_mm < b->found.minimum->clearance_mm;
    });
    found.resize(std::min(found.size(), most_curves));
    std::vector<ValvePosition> valves;
    for (const ValveClearance* line : found) valves.push_back(line->position);
    return valves;
}

BookPictures draw_book_pictures(const BookFacts& facts, Renderer* renderer) {
    constexpr PictureSize size{1900, 1150};
    BookPictures pictures;
    pictures.curves = recorded_curves(facts);
    if (!facts.engine || renderer == nullptr) {
        return pictures;
    }
    const auto draw = [&](const ValveClearance* line) -> std::optional<QImage> {
        PictureRequest request = survey_picture(*facts.engine, line, size, paper_palette());
        request.font.setPixelSize(32);
        const auto picture = offscreen_picture(*renderer, request);
        return picture ? std::optional(*picture) : std::nullopt;
    };
    pictures.engine = draw(nullptr);
    if (const ValveClearance* line = facts.tightest_line()) {
        pictures.tightest = draw(line);
    }
    return pictures;
}

void paint_book_curves(QPainter& painter, const QRectF& place, const QByteArray& curves) {
    QPicture picture; // of its own: one that is played by two threads isn't safe
    picture.setData(curves.constData(), static_cast<uint>(curves.size()));
    // A recorded picture is enlarged by the resolution of the device on which it is played: that is
    // taken back.
    const double enlarged =
        static_cast<double>(painter.device()->logicalDpiX()) / picture.logicalDpiX();
    const double scale = place.width() / curves_size.width() / enlarged;
    painter.save();
    painter.translate(place.topLeft());
    painter.scale(scale, scale);
    painter.drawPicture(0, 0, picture);
    painter.restore();
}

double book_curves_height(double width) {
    return curves_size.height() * width / curves_size.width();
}

} // namespace rodway
