#include "render/tube_drawing.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace rodway {
namespace {

constexpr QSize size(600, 400);

TubeSlice slice_with(double radius, double half_straight, const Vec2& rod_at) {
    TubeSlice slice;
    slice.bore = {radius, half_straight, Vec2::UnitX()};
    slice.rod = RodCut{rod_at, 3.0, 3.0, Vec2::UnitX()};
    return slice;
}

TubeContent content_with(std::vector<TubeSlice> slices) {
    TubeContent content;
    content.slices = std::move(slices);
    return content;
}

TubeStyle plain_style() {
    TubeStyle style{palette_for(Theme::light), {}};
    style.font.setPixelSize(12);
    return style;
}

QColor seen_at(const QImage& image, const TubeLayout& layout, const Vec2& mm,
               std::size_t slice = 0) {
    const QPointF at = layout.middles[slice] + layout.units_per_mm * QPointF(mm.x(), -mm.y());
    return image.pixelColor(at.toPoint());
}

int off(const QColor& one, const QColor& other) {
    return std::abs(one.red() - other.red()) + std::abs(one.green() - other.green()) +
           std::abs(one.blue() - other.blue());
}

TEST(TubeDrawing, puts_the_rod_where_the_content_has_it_12_up_and_3_right) {
    const TubeStyle style = plain_style();
    const Vec2 towards_1(2.0, 3.5);
    const TubeContent content = content_with({slice_with(7.0, 0.0, towards_1)});
    const QImage image = tube_image(content, style, size);
    const TubeLayout layout = lay_out_tube(QRectF(QPointF(), QSizeF(size)), content, style.font);
    const QColor open = style.palette.paper_high;
    // Inside the rod, off its cross of centre lines; and the same place mirrored each way.
    EXPECT_GT(off(seen_at(image, layout, towards_1 + Vec2(1.0, 1.0)), open), 60);
    EXPECT_EQ(seen_at(image, layout, Vec2(-3.0, 4.5)), open);
    EXPECT_EQ(seen_at(image, layout, Vec2(3.0, -4.5)), open);
    // Inside the bore but off the rod, and outside the wall's hatching.
    EXPECT_EQ(seen_at(image, layout, Vec2(-4.0, -4.0)), open);
    EXPECT_EQ(image.pixelColor(2, 399), style.palette.paper);
}

TEST(TubeDrawing, an_obround_bore_is_as_long_as_it_is_stated) {
    const TubeStyle style = plain_style();
    TubeSlice slice = slice_with(5.0, 4.0, Vec2::Zero());
    slice.bore.long_way_mm = Vec2(0.0, 1.0);
    const TubeContent content = content_with({slice});
    const QImage image = tube_image(content, style, size);
    const TubeLayout layout = lay_out_tube(QRectF(QPointF(), QSizeF(size)), content, style.font);
    EXPECT_EQ(seen_at(image, layout, Vec2(0.0, 8.0)), style.palette.paper_high);
    EXPECT_EQ(seen_at(image, layout, Vec2(0.0, -8.0)), style.palette.paper_high);
    EXPECT_NE(seen_at(image, layout, Vec2(8.0, 0.0)), style.palette.paper_high);
}

TEST(TubeDrawing, the_turn_is_shaded_round_the_rod_and_not_beyond) {
    const TubeStyle style = plain_style();
    TubeSlice slice = slice_with(8.0, 0.0, {-2.0, 0.0});
    for (const double x : {-2.0, -1.0, 0.0, 1.0, 2.0}) {
        slice.turn.push_back({Vec2(x, 0.0), 3.0, 3.0, Vec2::UnitX()});
    }
    const TubeContent content = content_with({slice});
    const QImage image = tube_image(content, style, size);
    const TubeLayout layout = lay_out_tube(QRectF(QPointF(), QSizeF(size)), content, style.font);
    const QColor shaded = seen_at(image, layout, Vec2(3.0, 1.5));
    EXPECT_GT(off(shaded, style.palette.paper_high), 25);
    EXPECT_EQ(seen_at(image, layout, Vec2(3.5, -1.5)), shaded) << "evenly, without inner edges";
    EXPECT_EQ(seen_at(image, layout, Vec2(0.0, 5.0)), style.palette.paper_high);
    // In grey too, rod, shade and open bore are three tones.
    const int rod = qGray(seen_at(image, layout, Vec2(-3.0, 1.5)).rgb());
    EXPECT_LT(rod + 30, qGray(shaded.rgb()));
    EXPECT_LT(qGray(shaded.rgb()) + 8, qGray(style.palette.paper_high.rgb()));
}

TEST(TubeDrawing, cuts_never_run_into_each_other_or_out_of_the_picture) {
    const TubeStyle style = plain_style();
    for (const QSizeF place : {QSizeF(1200.0, 300.0), QSizeF(420.0, 500.0), QSizeF(300.0, 900.0)}) {
        const TubeContent content =
            content_with({slice_with(7.0, 3.0, {0.0, 0.0}), slice_with(7.0, 0.0, {0.0, 0.0}),
                          slice_with(9.0, 0.0, {0.0, 0.0})});
        const TubeLayout layout = lay_out_tube(QRectF(QPointF(), place), content, style.font);
        ASSERT_EQ(layout.middles.size(), 3u);
        const double reach = layout.units_per_mm * 10.0;
        for (std::size_t a = 0; a < 3; ++a) {
            EXPECT_TRUE(QRectF(QPointF(), place)
                            .contains(QRectF(layout.middles[a].x() - reach,
                                             layout.middles[a].y() - reach, 2 * reach, 2 * reach)));
            EXPECT_LT(layout.middles[a].y() + reach, layout.notes.top());
            for (std::size_t b = 0; b < a; ++b) {
                const QPointF apart = layout.middles[a] - layout.middles[b];
                EXPECT_GT(std::max(std::abs(apart.x()), std::abs(apart.y())), 2.0 * reach);
            }
        }
    }
}

TEST(TubeDrawing, an_svg_is_lines_and_says_what_the_picture_says) {
    TubeContent content = content_with({slice_with(7.0, 0.0, {1.0, 0.0})});
    content.heading = QStringLiteral("3I, Port tube");
    content.slices[0].closest = ClosestInCut{{4.0, 0.0}, {7.0, 0.0}, QStringLiteral("0.118 in")};
    const QByteArray svg = tube_svg(content, plain_style(), size);
    EXPECT_TRUE(svg.contains("3I, Port tube"));
    EXPECT_TRUE(svg.contains("0.118 in"));
    EXPECT_GT(svg.count("<path"), 3);
    for (int hour = 1; hour <= 12; ++hour) {
        EXPECT_TRUE(svg.contains(">" + QByteArray::number(hour) + "<")) << hour;
    }
}

TEST(TubeDrawing, without_a_tube_only_the_words_are_painted) {
    TubeContent content;
    const QImage silent = tube_image(content, plain_style(), size);
    content.empty_text = QStringLiteral("2E has no tube in this set-up.");
    const QImage said = tube_image(content, plain_style(), size);
    EXPECT_NE(silent, said);
    EXPECT_TRUE(tube_svg(content, plain_style(), size).contains("has no tube"));
}

} // namespace
} // namespace rodway
