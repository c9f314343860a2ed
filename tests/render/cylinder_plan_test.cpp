#include "render/cylinder_plan.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "tests/render/pictures.h"

namespace rodway {
namespace {

const QRectF small_place(0.0, 0.0, 420.0, 300.0);

QFont plan_font() {
    QFont font;
    font.setPixelSize(12);
    return font;
}

PlanContent filled(const SampleKind& kind) {
    PlanContent content = places_of(sample_engine(kind));
    content.front_label = QStringLiteral("Front");
    content.intake_letter = QStringLiteral("I");
    content.exhaust_letter = QStringLiteral("E");
    for (PlanValve& valve : content.valves) {
        valve.value = QStringLiteral("0.065");
        valve.state = CheckState::passed;
    }
    return content;
}

class PlanOfAnEngine : public testing::TestWithParam<SampleKind> {};

TEST_P(PlanOfAnEngine, everything_is_inside_and_nothing_overlaps) {
    const PlanContent content = filled(GetParam());
    for (const QRectF& place :
         {small_place, QRectF(10.0, 20.0, 900.0, 520.0), QRectF(0.0, 0.0, 640.0, 300.0)}) {
        const PlanLayout layout = lay_out_plan(place, content, plan_font());
        ASSERT_EQ(layout.valves.size(), content.valves.size());
        EXPECT_GE(layout.text_px, 8.0);
        std::vector<QRectF> apart;
        for (std::size_t at = 0; at < layout.valves.size(); ++at) {
            EXPECT_TRUE(place.contains(layout.valves[at])) << "valve " << at;
            EXPECT_GE(layout.valves[at].width(), 13.0) << "large enough to see its shape";
            apart.push_back(layout.valves[at]);
            // As wide as the painted figures, not the room they have.
            QFont font = plan_font();
            font.setPixelSize(static_cast<int>(layout.text_px));
            const double width = QFontMetricsF(font).horizontalAdvance(content.valves[at].value);
            QRectF text = layout.values[at];
            text.adjust(0.5 * (text.width() - width), 0.0, -0.5 * (text.width() - width), 0.0);
            EXPECT_TRUE(place.contains(text)) << "value " << at;
            apart.push_back(text);
        }
        for (const QRectF& number : layout.numbers) {
            EXPECT_TRUE(place.contains(number));
            apart.push_back(number);
        }
        for (std::size_t a = 0; a < apart.size(); ++a) {
            for (std::size_t b = 0; b < a; ++b) {
                EXPECT_FALSE(apart[a].intersects(apart[b]))
                    << a << " and " << b << " of " << apart.size();
            }
        }
    }
}

TEST_P(PlanOfAnEngine, order_along_the_crank_is_the_engines) {
    const PlanContent content = filled(GetParam());
    const PlanLayout layout = lay_out_plan(small_place, content, plan_font());
    std::map<int, double> line;
    for (const PlanCylinder& cylinder : content.cylinders) {
        line[cylinder.number] = cylinder.y_mm;
    }
    for (std::size_t a = 0; a < content.valves.size(); ++a) {
        for (std::size_t b = 0; b < content.valves.size(); ++b) {
            const bool same_bank = line[content.valves[a].position.cylinder] ==
                                   line[content.valves[b].position.cylinder];
            if (same_bank && content.valves[a].x_mm < content.valves[b].x_mm) {
                EXPECT_LT(layout.valves[a].center().x(), layout.valves[b].center().x());
            }
            if (content.valves[a].y_mm > content.valves[b].y_mm + 60.0) {
                EXPECT_LT(layout.valves[a].center().y(), layout.valves[b].center().y())
                    << "y goes up";
            }
        }
    }
}

TEST_P(PlanOfAnEngine, each_valve_is_hit_at_its_own_centre_and_none_beside_the_plan) {
    const PlanContent content = filled(GetParam());
    const PlanLayout layout = lay_out_plan(small_place, content, plan_font());
    for (std::size_t at = 0; at < content.valves.size(); ++at) {
        EXPECT_EQ(valve_at(layout.valves[at].center(), small_place, content, plan_font()),
                  content.valves[at].position);
    }
    EXPECT_FALSE(valve_at({2.0, 2.0}, small_place, content, plan_font()));
}

INSTANTIATE_TEST_SUITE_P(Layouts, PlanOfAnEngine,
                         testing::Values(SampleKind{Arrangement::vee, 8, Turning::clockwise},
                                         SampleKind{Arrangement::vee, 2, Turning::clockwise},
                                         SampleKind{Arrangement::vee, 12, Turning::clockwise},
                                         SampleKind{Arrangement::inline_row, 4, Turning::clockwise},
                                         SampleKind{Arrangement::inline_row, 6, Turning::clockwise},
                                         SampleKind{Arrangement::inline_row, 8, Turning::clockwise},
                                         SampleKind{Arrangement::flat, 4, Turning::clockwise},
                                         SampleKind{Arrangement::flat, 6, Turning::clockwise}));

TEST(CylinderPlan, valves_of_two_rows_keep_to_their_own_side) {
    PlanContent content = filled({Arrangement::inline_row, 4, Turning::clockwise});
    for (PlanValve& valve : content.valves) {
        valve.y_mm += valve.position.kind == ValveKind::intake ? 30.0 : -30.0;
    }
    const PlanLayout layout = lay_out_plan(small_place, content, plan_font());
    for (std::size_t at = 0; at + 1 < content.valves.size(); at += 2) {
        EXPECT_LT(layout.valves[at].bottom(), layout.valves[at + 1].top());
    }
}

QImage grey_sign(CheckState state, Palette palette) {
    QImage image(40, 40, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    paint_state_sign(painter, QRectF(4.0, 4.0, 32.0, 32.0), state, palette);
    painter.end();
    return image.convertToFormat(QImage::Format_Grayscale8).convertToFormat(QImage::Format_RGB32);
}

// One grey for all states leaves nothing but their shapes.
TEST(CylinderPlan, states_differ_in_shape_alone) {
    for (const Theme theme : {Theme::light, Theme::dark}) {
        Palette palette = palette_for(theme);
        palette.states.fill(QColor(128, 128, 128));
        for (std::size_t a = 0; a < check_state_count; ++a) {
            for (std::size_t b = 0; b < a; ++b) {
                const int changed =
                    different_pixels(grey_sign(static_cast<CheckState>(a), palette),
                                     grey_sign(static_cast<CheckState>(b), palette));
                EXPECT_GT(changed, 120) << "states " << a << " and " << b << " of 1600 pixels";
            }
        }
    }
}

TEST(CylinderPlan, states_differ_in_colour_too) {
    for (const Theme theme : {Theme::light, Theme::dark}) {
        const Palette palette = palette_for(theme);
        for (std::size_t a = 0; a < check_state_count; ++a) {
            for (std::size_t b = 0; b < a; ++b) {
                const QColor one = palette.states[a];
                const QColor other = palette.states[b];
                EXPECT_GT(std::abs(one.red() - other.red()) +
                              std::abs(one.green() - other.green()) +
                              std::abs(one.blue() - other.blue()),
                          60);
            }
        }
    }
}

QImage painted(const PlanContent& content, bool focused = false) {
    QImage image(420, 300, QImage::Format_RGB32);
    QPainter painter(&image);
    paint_cylinder_plan(painter, small_place, content,
                        {palette_for(Theme::light), plan_font(), focused});
    painter.end();
    return image;
}

TEST(CylinderPlan, a_state_changes_its_own_valve_only) {
    PlanContent content = filled({});
    const QImage before = painted(content);
    content.valves[5].state = CheckState::failed;
    const QImage after = painted(content);
    const QRect sign = lay_out_plan(small_place, content, plan_font()).valves[5].toAlignedRect();
    EXPECT_GT(different_pixels(before.copy(sign), after.copy(sign)), 60);
    EXPECT_EQ(different_pixels(before, after),
              different_pixels(before.copy(sign), after.copy(sign)));
}

TEST(CylinderPlan, selection_is_ringed_and_the_turning_direction_shown) {
    PlanContent content = filled({});
    const QImage plain = painted(content);
    content.selected = content.valves[3].position;
    const QImage ringed = painted(content);
    const QRect round = lay_out_plan(small_place, content, plan_font())
                            .valves[3]
                            .adjusted(-5, -5, 5, 5)
                            .toAlignedRect();
    EXPECT_GT(different_pixels(plain, ringed), 40);
    EXPECT_EQ(different_pixels(plain, ringed),
              different_pixels(plain.copy(round), ringed.copy(round)));
    EXPECT_GT(different_pixels(ringed, painted(content, true)), 20) << "stronger with the focus";
    content.turning = Turning::counter_clockwise;
    const QImage other_way = painted(content);
    EXPECT_GT(different_pixels(ringed, other_way), 40);
    const QRect body(60, 0, 360, 300);
    EXPECT_EQ(different_pixels(ringed.copy(body), other_way.copy(body)), 0) << "only at the front";
}

TEST_P(PlanOfAnEngine, whole_cylinders_stand_at_their_bores_and_no_letter_with_them) {
    PlanContent content = cylinders_of(sample_engine(GetParam()));
    ASSERT_EQ(content.valves.size(), content.cylinders.size());
    for (PlanValve& whole : content.valves) {
        whole.value = QStringLiteral("4.0312");
    }
    const PlanLayout layout = lay_out_plan(small_place, content, plan_font());
    for (std::size_t at = 0; at < content.valves.size(); ++at) {
        EXPECT_EQ(content.valves[at].position.cylinder, content.cylinders[at].number);
        // Neighbours whose values have room don't push each other aside.
        EXPECT_NEAR(layout.valves[at].center().x(), layout.cylinders[at].center().x(), 3.0);
        EXPECT_TRUE(small_place.contains(layout.valves[at]));
    }
    const QImage without = painted(content);
    content.intake_letter = QStringLiteral("I");
    content.exhaust_letter = QStringLiteral("E");
    EXPECT_EQ(different_pixels(without, painted(content)), 0);
}

TEST(CylinderPlan, paints_onto_a_part_of_a_page_only) {
    QImage page(600, 500, QImage::Format_RGB32);
    page.fill(Qt::magenta);
    QPainter painter(&page);
    paint_cylinder_plan(painter, QRectF(100.0, 100.0, 420.0, 300.0), filled({}),
                        {palette_for(Theme::light), plan_font(), false});
    painter.end();
    for (int y = 0; y < 500; ++y) {
        for (int x = 0; x < 600; ++x) {
            if (!QRect(99, 99, 422, 302).contains(x, y)) {
                ASSERT_EQ(page.pixelColor(x, y), QColor(Qt::magenta)) << x << ", " << y;
            }
        }
    }
}

} // namespace
} // namespace rodway
