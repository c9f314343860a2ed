#include "render/joint_drawing.h"

#include <gtest/gtest.h>

#include "tests/render/pictures.h"

namespace rodway {
namespace {

const QRectF place(0.0, 0.0, 560.0, 200.0);

QFont drawing_font() {
    QFont font;
    font.setPixelSize(12);
    return font;
}

JointDrawing joint_of(std::size_t bolts, std::size_t passes) {
    JointDrawing drawing;
    drawing.title = QStringLiteral("Head left");
    drawing.mark_words = {"waiting", "done", "missed", "off", "twice"};
    for (std::size_t bolt = 0; bolt < bolts; ++bolt) {
        drawing.bolts.push_back({QString::number(bolt + 1), QString::number(bolts - bolt),
                                 std::vector<BoltMark>(passes, BoltMark::waiting)});
        drawing.path.push_back(bolts - bolt - 1);
    }
    return drawing;
}

QImage painted(const JointDrawing& drawing) {
    QImage image(place.size().toSize(), QImage::Format_RGB32);
    QPainter painter(&image);
    paint_joint(painter, place, drawing, palette_for(Theme::light), drawing_font());
    painter.end();
    return image;
}

TEST(JointDrawing, EverythingIsInsideAndNothingOverlaps) {
    for (const std::size_t bolts : {1U, 2U, 5U, 8U, 10U, 17U, 24U}) {
        for (const std::size_t passes : {1U, 3U, 5U}) {
            const JointDrawing drawing = joint_of(bolts, passes);
            const JointLayout layout = lay_out_joint(place, drawing, drawing_font());
            std::vector<QRectF> apart{layout.title, layout.key};
            for (std::size_t bolt = 0; bolt < bolts; ++bolt) {
                // The tag overlaps its own head's corner, as tags do.
                apart.push_back(layout.bolts[bolt].united(layout.orders[bolt]));
                for (const QRectF& mark : layout.marks[bolt]) {
                    EXPECT_GE(mark.width(), 5.0);
                    apart.push_back(mark);
                }
            }
            for (std::size_t a = 0; a < apart.size(); ++a) {
                EXPECT_TRUE(place.contains(apart[a])) << bolts << " bolts, rectangle " << a;
                for (std::size_t b = 0; b < a; ++b) {
                    EXPECT_FALSE(apart[a].intersects(apart[b]))
                        << a << " and " << b << " of " << bolts << " bolts, " << passes;
                }
            }
        }
    }
}

// One grey for all colours leaves nothing but the shapes.
TEST(JointDrawing, MarksDifferInShapeAlone) {
    for (const Theme theme : {Theme::light, Theme::dark}) {
        Palette palette = palette_for(theme);
        palette.states.fill(QColor(128, 128, 128));
        const auto grey = [&](std::size_t mark) {
            QImage image(20, 20, QImage::Format_RGB32);
            image.fill(palette.paper);
            QPainter painter(&image);
            paint_bolt_mark(painter, QRectF(2.0, 2.0, 16.0, 16.0), static_cast<BoltMark>(mark),
                            palette);
            painter.end();
            return image.convertToFormat(QImage::Format_Grayscale8)
                .convertToFormat(QImage::Format_RGB32);
        };
        for (std::size_t a = 0; a < bolt_mark_count; ++a) {
            for (std::size_t b = 0; b < a; ++b) {
                EXPECT_GT(different_pixels(grey(a), grey(b)), 30) << a << " and " << b;
            }
        }
    }
}

TEST(JointDrawing, AMissedBoltChangesItsOwnMarkOnly) {
    JointDrawing drawing = joint_of(10, 3);
    const QImage before = painted(drawing);
    drawing.bolts[6].passes[1] = BoltMark::missed;
    const QImage after = painted(drawing);
    const QRect mark = lay_out_joint(place, drawing, drawing_font())
                           .marks[6][1]
                           .adjusted(-1, -1, 1, 1)
                           .toAlignedRect();
    EXPECT_GT(different_pixels(before.copy(mark), after.copy(mark)), 30);
    EXPECT_EQ(different_pixels(before, after),
              different_pixels(before.copy(mark), after.copy(mark)));
}

TEST(JointDrawing, APointIsTheBoltsUnderIt) {
    const JointDrawing drawing = joint_of(10, 3);
    const JointLayout layout = lay_out_joint(place, drawing, drawing_font());
    for (std::size_t bolt = 0; bolt < 10; ++bolt) {
        EXPECT_EQ(bolt_at(layout.bolts[bolt].center(), place, drawing, drawing_font()), bolt);
        EXPECT_EQ(bolt_at(layout.marks[bolt][2].center(), place, drawing, drawing_font()), bolt);
    }
    EXPECT_FALSE(bolt_at(layout.title.center(), place, drawing, drawing_font()));
}

} // namespace
} // namespace rodway
