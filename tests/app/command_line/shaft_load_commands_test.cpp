#include <cmath>

#include "tests/app/command_line/demo_engine.h"

namespace rodway::tests {
namespace {

class ShaftLoadCommandsTest : public DemoEngine {};

// The slow way: what `open-valves` says is open, each with its spring's load at that lift (by hand
// from the demo's listed loads) and, lifting the rocker from the other side, its rod's, which is
// the rocker's ratio times as much. The two lie some 24 degrees apart and the ratio changes a
// little through the lift, which the 8 % allow for.
TEST_F(ShaftLoadCommandsTest, AShaftBearsTheSpringsAndTheRodsOfItsOpenValves) {
    const QJsonObject trains = answer("trains");
    const QJsonArray shafts = answer("shaft-load")["shafts"].toArray();
    ASSERT_EQ(shafts.size(), 2);
    for (const int crank : {100, 300, 500, 700}) {
        const QJsonObject lifts = answer("open-valves", {QString::number(crank)});
        for (const QJsonValue& value : shafts) {
            const QJsonArray points = value.toObject()["points"].toArray();
            ASSERT_EQ(points.size(), 72);
            const QJsonObject point = points[crank / 10].toObject();
            ASSERT_DOUBLE_EQ(point["crank_deg"].toDouble(), crank);
            double expected_lbf = 0.0;
            QJsonArray open;
            for (const QJsonValue& named : value.toObject()["valves"].toArray()) {
                const QString name = named.toString();
                const QJsonObject lifted = valve(lifts, name);
                if (!lifted["open"].toBool()) {
                    continue;
                }
                open.append(name);
                const double lift = lifted["valve_lift_in"].toDouble();
                const double spring = name.endsWith('I') ? 150.0 + 280.0 / 0.650 * lift
                                                         : 155.0 + 270.0 / 0.630 * lift;
                expected_lbf += spring * (1.0 + valve(trains, name)["ratio_half_lift"].toDouble());
            }
            EXPECT_EQ(point["open"].toArray(), open) << crank;
            EXPECT_NEAR(point["load_lbf"].toDouble(-1.0), expected_lbf, 0.08 * expected_lbf)
                << crank;
        }
    }
}

TEST_F(ShaftLoadCommandsTest, LeastAndGreatestBoundEveryRow) {
    for (const char* step : {"10", "90", "0.5"}) {
        const QJsonObject loads = answer("shaft-load", {"--step", step});
        for (const QJsonValue& value : loads["shafts"].toArray()) {
            const QJsonObject shaft = value.toObject();
            EXPECT_TRUE(shaft["known_everywhere"].toBool());
            const double least = shaft["least_lbf"].toDouble();
            const double greatest = shaft["greatest_lbf"].toDouble();
            EXPECT_LT(least, greatest);
            for (const QJsonValue& row : shaft["points"].toArray()) {
                EXPECT_GE(row.toObject()["load_lbf"].toDouble(), least);
                EXPECT_LE(row.toObject()["load_lbf"].toDouble(), greatest);
            }
        }
    }
    // A coarse table still knows the cycle's own greatest: eight rows are not where it is looked
    // for.
    const auto greatest = [&](const char* step) {
        const QJsonArray shafts = answer("shaft-load", {"--step", step})["shafts"].toArray();
        return shafts.first().toObject()["greatest_lbf"].toDouble();
    };
    EXPECT_DOUBLE_EQ(greatest("90"), greatest("1"));
}

TEST_F(ShaftLoadCommandsTest, AShaftIsCalledByItsBank) {
    const QJsonArray left = answer("shaft-load", {"--shaft", "LEFT"})["shafts"].toArray();
    ASSERT_EQ(left.size(), 1);
    EXPECT_EQ(left.first().toObject()["bank"], "left");
    EXPECT_TRUE(left.first().toObject()["shaft"].isNull()) << "a bank's one shaft has no name";
    const Ran ran = command("shaft-load", {"--shaft", "middle"});
    EXPECT_EQ(ran.exit_code, 3);
    EXPECT_TRUE(ran.complaints.contains("right")) << "says which there are";
    EXPECT_EQ(command("shaft-load", {"--step", "0"}).exit_code, 3);
    EXPECT_EQ(command("shaft-load", {"--step", "nan"}).exit_code, 3);
}

TEST_F(ShaftLoadCommandsTest, AnOpenValveWithoutASpringMakesTheLoadUnknownNotLess) {
    QJsonObject changed = set_up();
    QJsonObject springs = changed["springs"].toObject();
    springs.remove("exhaust");
    changed["springs"] = springs;
    take_in(changed);
    for (const QJsonValue& value : answer("shaft-load", {}, 5)["shafts"].toArray()) {
        const QJsonObject shaft = value.toObject();
        EXPECT_FALSE(shaft["known_everywhere"].toBool(true));
        EXPECT_EQ(shaft["without_spring"].toArray().size(), 4);
        for (const QJsonValue& row : shaft["points"].toArray()) {
            bool an_exhaust_is_open = false;
            for (const QJsonValue& open : row.toObject()["open"].toArray()) {
                an_exhaust_is_open = an_exhaust_is_open || open.toString().endsWith('E');
            }
            EXPECT_EQ(row.toObject()["load_lbf"].isNull(), an_exhaust_is_open);
        }
    }
    EXPECT_TRUE(command("shaft-load").output.contains("UNKNOWN"));
}

} // namespace
} // namespace rodway::tests
