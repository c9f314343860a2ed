#include <cmath>

#include "tests/app/command_line/demo_engine.h"

namespace rodway::tests {
namespace {

// The demo's springs as its set-up lists them: load and height shut and open, bind height, room
// below the retainer. Invented for the demo.
struct Listed {
    double height_in;
    double load_lbf;
    double open_height_in;
    double open_load_lbf;
    double bind_in;
    double to_seal_in;

    [[nodiscard]] double rate() const {
        return (open_load_lbf - load_lbf) / (height_in - open_height_in);
    }
};
constexpr Listed intake{1.900, 150.0, 1.250, 430.0, 1.150, 0.700};
constexpr Listed exhaust{1.880, 155.0, 1.250, 425.0, 1.150, 0.690};

// Rounding of doubles alone.
constexpr double rounding = 1e-6;

class SpringCommandsTest : public DemoEngine {
  protected:
    void take_exhaust_springs_away() const {
        QJsonObject changed = set_up();
        QJsonObject springs = changed["springs"].toObject();
        springs.remove("exhaust");
        changed["springs"] = springs;
        take_in(changed);
    }
};

// Expected by hand from the listed loads and the lift that `trains` gives with the lash off.
TEST_F(SpringCommandsTest, SpringsAreWorkedByNetValveLift) {
    const QJsonObject springs = answer("springs");
    const QJsonObject trains = answer("trains");
    ASSERT_EQ(springs["valves"].toArray().size(), 16);
    EXPECT_DOUBLE_EQ(springs["least_to_bind_in"].toDouble(), 0.060);
    for (const QJsonValue& value : springs["valves"].toArray()) {
        const QJsonObject spring = value.toObject();
        const QString name = spring["valve"].toString();
        const Listed& listed = name.endsWith('I') ? intake : exhaust;
        const double lift = valve(trains, name)["net_lift_in"].toDouble();
        ASSERT_GT(lift, 0.5);
        EXPECT_EQ(spring["status"], "answered");
        EXPECT_NEAR(spring["seat_load_lbf"].toDouble(), listed.load_lbf, rounding);
        EXPECT_NEAR(spring["rate_on_seat_lbf_per_in"].toDouble(), listed.rate(), rounding);
        EXPECT_NEAR(spring["net_lift_in"].toDouble(), lift, rounding);
        EXPECT_NEAR(spring["height_at_full_lift_in"].toDouble(), listed.height_in - lift, rounding);
        EXPECT_NEAR(spring["load_at_full_lift_lbf"].toDouble(),
                    listed.load_lbf + listed.rate() * lift, rounding);
        EXPECT_NEAR(spring["to_bind_in"].toDouble(), listed.height_in - lift - listed.bind_in,
                    rounding);
        EXPECT_NEAR(spring["retainer_to_seal_in"].toDouble(), listed.to_seal_in - lift, rounding);
        EXPECT_FALSE(spring["below_bind_limit"].toBool(true));
        EXPECT_TRUE(spring["surge_estimated_Hz"].isNull()) << "no wire is in the set-up";
    }
    EXPECT_TRUE(valve(answer("springs", {"--to-bind", ".300"}), "1I")["below_bind_limit"].toBool());
}

// check-values SP-7 (the formula of Shigley, eq. 10-25, at a valve spring's size): 413.44 Hz with
// 11.2 Msi and 0.284 lbf/in³. The set-up's 77.2 GPa and 7850 kg/m³ make 413.68.
TEST_F(SpringCommandsTest, SurgeIsComparedWithTheCamshaftsSpeedNotTheCranks) {
    QJsonObject changed = set_up();
    QJsonObject springs = changed["springs"].toObject();
    QJsonObject of_intake = springs["intake"].toObject();
    of_intake["wire"] = QJsonObject{{"diameter_in", 0.207},
                                    {"mean_diameter_in", 1.243},
                                    {"active_coils", 4.5},
                                    {"total_coils", 6.5}};
    springs["intake"] = of_intake;
    changed["springs"] = springs;
    take_in(changed);
    const QJsonObject found = answer("springs", {"--rpm", "6000"});
    EXPECT_NEAR(found["cam_Hz"].toDouble(), 50.0, rounding); // 3000 turns a minute
    const QJsonObject spring = valve(found, "3I");
    EXPECT_NEAR(spring["surge_estimated_Hz"].toDouble(), 413.68, 0.01);
    EXPECT_NEAR(spring["surges_a_cam_turn"].toDouble(), 413.68 / 50.0, 0.001);
    EXPECT_TRUE(valve(found, "3E")["surge_estimated_Hz"].isNull());
    EXPECT_TRUE(valve(answer("springs"), "3I")["surges_a_cam_turn"].isNull());
    EXPECT_TRUE(command("springs", {"--rpm", "6000"}).output.contains("Estimated"));
    EXPECT_EQ(command("springs", {"--rpm", "many"}).exit_code, 3);
    EXPECT_EQ(command("springs", {"--rpm", "0"}).exit_code, 3);
}

TEST_F(SpringCommandsTest, ASpringNotInTheSetUpIsSaidNotZero) {
    take_exhaust_springs_away();
    const QJsonObject springs = answer("springs", {}, 5);
    const QJsonObject missing = valve(springs, "5E");
    EXPECT_EQ(missing["status"], "no_spring");
    for (const char* key : {"installed_height_in", "seat_load_lbf", "rate_on_seat_lbf_per_in",
                            "height_at_full_lift_in", "load_at_full_lift_lbf", "to_bind_in",
                            "below_bind_limit", "retainer_to_seal_in"}) {
        EXPECT_TRUE(missing.contains(key)) << key;
        EXPECT_TRUE(missing[key].isNull()) << key;
    }
    EXPECT_EQ(valve(springs, "5I")["status"], "answered");
    EXPECT_EQ(command("springs").output.count("No spring of this valve"), 8);
    const QJsonObject shims = answer("spring-shims", {"--band", "155-159 lbf"}, 5);
    EXPECT_EQ(valve(shims, "5E")["status"], "no_spring");
    EXPECT_TRUE(valve(shims, "5E")["shims_in"].isNull());
    EXPECT_EQ(valve(shims, "5I")["status"], "in_band");
}

// By hand: the middle of the band is 157 lbf. Intakes stand at 150, and .015 in of 430.8 lbf/in
// adds 6.46; exhausts stand at 155, in the band, and .015 in would take them out of it.
TEST_F(SpringCommandsTest, EachValveGetsTheShimThatBringsItNearestTheBandsMiddle) {
    for (const char* band : {"155-159lbf", "155 - 159 LBF", "157±2 lb", "689-707.5 N"}) {
        const QJsonObject shims = answer("spring-shims", {"--band", band});
        EXPECT_EQ(shims["band_of"], "seat_load") << band;
        EXPECT_TRUE(shims["low_in"].isNull());
        for (const QJsonValue& value : shims["valves"].toArray()) {
            const QJsonObject shim = value.toObject();
            const bool of_intake = shim["valve"].toString().endsWith('I');
            const QJsonArray stack = shim["shims_in"].toArray();
            EXPECT_EQ(shim["status"], "in_band") << band;
            ASSERT_EQ(stack.size(), of_intake ? 1 : 0) << band;
            if (of_intake) {
                EXPECT_NEAR(stack.first().toDouble(), 0.015, rounding);
                EXPECT_NEAR(shim["seat_load_lbf"].toDouble(), 150.0 + 0.015 * intake.rate(),
                            rounding);
                EXPECT_NEAR(shim["installed_height_in"].toDouble(), 1.885, rounding);
                EXPECT_NEAR(shim["to_bind_in"].toDouble(),
                            1.885 - shim["net_lift_in"].toDouble() - intake.bind_in, rounding);
            }
        }
        const QJsonArray to_fit = shims["to_fit"].toArray();
        ASSERT_EQ(to_fit.size(), 1);
        EXPECT_EQ(to_fit.first().toObject()["count"].toInt(), 8);
    }
}

// By hand: the middle is 1.875 in. From 1.900 that is .030 (1.870), not .015 (1.885, outside); the
// exhausts' 1.880 stands in the band already, as near as .015 would bring it.
TEST_F(SpringCommandsTest, ABandOfLengthsIsOfInstalledHeight) {
    const QJsonObject shims = answer("spring-shims", {"--band", "1.870-1.880"});
    EXPECT_EQ(shims["band_of"], "installed_height");
    EXPECT_NEAR(valve(shims, "1I")["stack_in"].toDouble(), 0.030, rounding);
    EXPECT_NEAR(valve(shims, "1I")["installed_height_in"].toDouble(), 1.870, rounding);
    EXPECT_EQ(valve(shims, "1E")["shims_in"].toArray().size(), 0);
    // Only thicker shims on the shelf: the stock is heeded.
    const QJsonObject thick =
        answer("spring-shims", {"--band", "1.870-1.880", "--stock", ".060", "--stack", ".060"});
    EXPECT_EQ(valve(thick, "1I")["status"], "not_in_band");
    EXPECT_EQ(thick["stock_in"].toArray().size(), 1);
    // With a comma as the decimal mark, semicolons stand between.
    const QJsonObject metric =
        answer("spring-shims", {"--band", "47,7-48,0 mm", "--stock", "0,4 mm; 0,8 mm"});
    EXPECT_EQ(metric["stock_in"].toArray().size(), 2);
    EXPECT_NEAR(valve(metric, "1I")["stack_in"].toDouble() * 25.4, 0.4, rounding);
}

TEST_F(SpringCommandsTest, CoilBindHoldsAShimBack) {
    const double room = valve(answer("springs"), "1I")["to_bind_in"].toDouble();
    const QString little_more = QString::number(room - 0.005, 'f', 4);
    const QJsonObject held =
        answer("spring-shims", {"--band", "155-159lbf", "--to-bind", little_more});
    EXPECT_EQ(valve(held, "1I")["status"], "held_by_bind");
    EXPECT_EQ(valve(held, "1I")["shims_in"].toArray().size(), 0);
    const QString too_much = QString::number(room + 0.050, 'f', 4);
    const QJsonObject bound =
        answer("spring-shims", {"--band", "155-159lbf", "--to-bind", too_much});
    EXPECT_EQ(valve(bound, "1I")["status"], "binds_bare");
    EXPECT_TRUE(command("spring-shims", {"--band", "155-159lbf", "--to-bind", too_much})
                    .output.contains("TOO CLOSE TO COIL BIND"));
}

TEST_F(SpringCommandsTest, WrongBandsAndStocksAreRefused) {
    for (const char* band : {"118-124", "much", "124-118lbf", "<124lbf", "118mm-124lbf", "lbf"}) {
        const Ran ran = command("spring-shims", {"--band", band});
        EXPECT_EQ(ran.exit_code, 3) << band;
        EXPECT_TRUE(ran.complaints.contains("118-124 lbf")) << "says what would be accepted";
    }
    const QStringList good{"--band", "155-159lbf"};
    EXPECT_EQ(command("spring-shims").exit_code, 2) << "no band";
    EXPECT_EQ(command("spring-shims", {"--band", "1e9-1e9lbf"}).exit_code, 3);
    EXPECT_EQ(command("spring-shims", {"--band", "99998-99999lbf"}).exit_code, 3);
    EXPECT_EQ(command("spring-shims", good + QStringList{"--stock", "some"}).exit_code, 3);
    EXPECT_EQ(command("spring-shims", good + QStringList{"--stock", ".015,,.060"}).exit_code, 3);
    EXPECT_EQ(command("spring-shims", good + QStringList{"--stock", ".900"}).exit_code, 3);
    EXPECT_EQ(command("spring-shims", good + QStringList{"--stack", "9.0"}).exit_code, 3);
    EXPECT_EQ(command("spring-shims", good + QStringList{"--most", "99"}).exit_code, 3);
    EXPECT_EQ(command("spring-shims", good + QStringList{"--to-bind", "5.0"}).exit_code, 3);
}

} // namespace
} // namespace rodway::tests
