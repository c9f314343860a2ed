#include "render/plots/clearance_curve.h"

#include <gtest/gtest.h>

#include <QFile>
#include <QPainter>
#include <QTemporaryDir>
#include <QXmlStreamReader>
#include <cmath>
#include <limits>

#include "tests/render/events.h"
#include "tests/render/pictures.h"

namespace rodway {
namespace {

ClearanceCurveContent content() {
    ClearanceCurveContent made;
    made.crank_title = QStringLiteral("Crank, degrees");
    made.clearance_title = QStringLiteral("Clearance, in");
    made.lift_title = QStringLiteral("Valve lift, in");
    for (const double phase : {0.0, 200.0}) {
        CurveSeries clearance{QStringLiteral("S%1").arg(phase), {}, {}};
        CurveSeries lift = clearance;
        for (int deg = 0; deg <= 720; deg += 5) {
            const double wave = 0.5 + 0.5 * std::cos(radians(deg - phase));
            clearance.crank_deg.push_back(deg);
            clearance.value.push_back(0.1 - 0.04 * wave);
            lift.crank_deg.push_back(deg);
            lift.value.push_back(0.6 * wave);
        }
        made.clearance.push_back(clearance);
        made.lift.push_back(lift);
    }
    made.limits.push_back({QStringLiteral("limit"), 0.03});
    made.cursor_crank_deg = 250.0;
    return made;
}

int count_elements(const QByteArray& svg, const QString& name) {
    QXmlStreamReader reader(svg);
    int count = 0;
    while (!reader.atEnd()) {
        if (reader.readNext() == QXmlStreamReader::StartElement && reader.name() == name) {
            ++count;
        }
    }
    EXPECT_FALSE(reader.hasError()) << reader.errorString().toStdString();
    return count;
}

TEST(ClearanceCurve, svg_is_valid_vector_drawing_with_its_words) {
    const QByteArray svg = clearance_curve_svg(content(), palette_for(Theme::light), {800, 480});
    EXPECT_EQ(count_elements(svg, QStringLiteral("svg")), 1);
    EXPECT_EQ(count_elements(svg, QStringLiteral("image")), 0) << "no pixels hidden in it";
    const int lines = count_elements(svg, QStringLiteral("polyline")) +
                      count_elements(svg, QStringLiteral("path"));
    EXPECT_GT(lines, 20);
    for (const char* words :
         {"Crank, degrees", "Clearance, in", "Valve lift, in", "limit", "S200"}) {
        EXPECT_TRUE(svg.contains(words)) << words;
    }
    ClearanceCurveContent fewer = content();
    fewer.clearance.pop_back();
    fewer.lift.pop_back();
    EXPECT_LT(clearance_curve_svg(fewer, palette_for(Theme::light), {800, 480}).size(), svg.size());
}

TEST(ClearanceCurve, image_has_its_size_and_both_series_colours) {
    const Palette palette = palette_for(Theme::light);
    const QImage image = clearance_curve_image(content(), palette, {700, 420}, 2.0);
    EXPECT_EQ(image.size(), QSize(1400, 840));
    std::array<int, 2> found{};
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            for (std::size_t at = 0; at < found.size(); ++at) {
                found[at] += image.pixelColor(x, y) == palette.series[at] ? 1 : 0;
            }
        }
    }
    EXPECT_GT(found[0], 300);
    EXPECT_GT(found[1], 150) << "dashed, so fewer";
}

TEST(ClearanceCurve, cursor_and_limit_are_in_the_picture) {
    const Palette palette = palette_for(Theme::light);
    const QImage with = clearance_curve_image(content(), palette, {700, 420});
    ClearanceCurveContent bare = content();
    bare.cursor_crank_deg.reset();
    const int cursor = different_pixels(with, clearance_curve_image(bare, palette, {700, 420}));
    EXPECT_GT(cursor, 200);
    EXPECT_LT(cursor, 2000) << "a line, not another plot";
    bare = content();
    bare.limits.clear();
    EXPECT_GT(different_pixels(with, clearance_curve_image(bare, palette, {700, 420})), 500);
}

TEST(ClearanceCurve, a_gap_in_the_values_is_a_gap_in_the_line) {
    ClearanceCurveContent gap = content();
    for (std::size_t at = 40; at < 100; ++at) {
        gap.clearance[0].value[at] = std::numeric_limits<double>::quiet_NaN();
    }
    const Palette palette = palette_for(Theme::light);
    EXPECT_GT(different_pixels(clearance_curve_image(content(), palette, {700, 420}),
                               clearance_curve_image(gap, palette, {700, 420})),
              200);
}

TEST(ClearanceCurve, paints_as_vectors_where_it_is_told_to) {
    QImage page(600, 600, QImage::Format_RGB32);
    page.fill(Qt::magenta);
    QPainter painter(&page);
    paint_clearance_curve(painter, QRectF(50.0, 100.0, 500.0, 300.0), content(),
                          palette_for(Theme::light));
    painter.end();
    EXPECT_EQ(page.pixelColor(20, 20), QColor(Qt::magenta));
    EXPECT_EQ(page.pixelColor(300, 580), QColor(Qt::magenta));
    EXPECT_NE(page.pixelColor(55, 105), QColor(Qt::magenta));
    EXPECT_NE(page.pixelColor(545, 395), QColor(Qt::magenta));
}

TEST(ClearanceCurve, saves_files_or_says_which_it_could_not) {
    const QTemporaryDir folder;
    const QString png = folder.filePath(QStringLiteral("curve.png"));
    const QString svg = folder.filePath(QStringLiteral("curve.svg"));
    ASSERT_TRUE(save_png(png, content(), palette_for(Theme::light), {640, 400}));
    ASSERT_TRUE(save_svg(svg, content(), palette_for(Theme::light), {640, 400}));
    EXPECT_EQ(QImage(png).size(), QSize(640, 400));
    EXPECT_GT(QFile(svg).size(), 5000);
    const Result<Done> nowhere = save_png(folder.filePath(QStringLiteral("no/such/curve.png")),
                                          content(), palette_for(Theme::light), {64, 40});
    ASSERT_FALSE(nowhere);
    EXPECT_EQ(nowhere.error().code, ErrorCode::cannot_write);
    EXPECT_NE(nowhere.error().field.find("curve.png"), std::string::npos);
}

TEST(ClearanceCurve, a_click_chooses_the_crank_angle_under_it_and_keys_step) {
    ClearanceCurve curve;
    curve.resize(800, 480);
    curve.set_content(content());
    curve.show();
    wait_ms(50);
    std::vector<double> chosen;
    QObject::connect(&curve, &ClearanceCurve::crank_chosen,
                     [&](double deg) { chosen.push_back(deg); });
    QWidget* plot = curve.findChildren<QWidget*>().first();
    click(*plot, QPoint(300, 150));
    click(*plot, QPoint(500, 150));
    click(*plot, QPoint(0, 150));
    ASSERT_EQ(chosen.size(), 3u);
    EXPECT_GT(chosen[0], 90.0);
    EXPECT_LT(chosen[0], 360.0);
    EXPECT_NEAR(chosen[1] - chosen[0], 720.0 * 200.0 / 730.0, 15.0) << "axis about 730 px wide";
    EXPECT_EQ(chosen[2], 0.0) << "left of the axis is its beginning";
    type_key(curve, Qt::Key_Left, Qt::ShiftModifier);
    EXPECT_DOUBLE_EQ(chosen.back(), 240.0);
    curve.set_cursor(719.5);
    type_key(curve, Qt::Key_Right);
    EXPECT_DOUBLE_EQ(chosen.back(), 0.5) << "the cycle closes";
}

} // namespace
} // namespace rodway
