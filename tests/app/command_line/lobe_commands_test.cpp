#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "tests/app/command_line/demo_engine.h"

namespace rodway::tests {
namespace {

constexpr double degrees_a_radian = 180.0 / std::numbers::pi;

class LobeCommandsTest : public DemoEngine {
  protected:
    /// The one lobe that a command answers with.
    [[nodiscard]] QJsonObject lobe(const QString& valves, int exit_code = 0) const {
        const QJsonArray lobes = answer("lobe", {"--valves", valves}, exit_code)["lobes"].toArray();
        EXPECT_EQ(lobes.size(), 1);
        return lobes.first().toObject();
    }
    /// The rows of the demo's intake lobe: cam degrees, inches.
    [[nodiscard]] std::vector<std::pair<double, double>> rows() const {
        const QJsonObject intake = set_up()["lobes"].toObject()["intake"].toObject();
        std::vector<std::pair<double, double>> rows;
        for (const QJsonValue& row : intake["lift_table_cam_deg_in"].toArray()) {
            rows.emplace_back(row.toArray()[0].toDouble(), row.toArray()[1].toDouble());
        }
        EXPECT_EQ(rows.size(), 165u);
        return rows;
    }
};

// Expected from the set-up's own rows, whose last digit is 0.0001 in: their central differences are
// off by 0.00005 in a degree at most, which dominates.
TEST_F(LobeCommandsTest, ALobeFromATableFollowsItsRows) {
    const QJsonObject found = lobe("intake");
    EXPECT_EQ(found["source"], "table");
    EXPECT_FALSE(found["estimated"].toBool(true));
    EXPECT_FALSE(found["ramps_estimated"].toBool(true));
    EXPECT_EQ(found["valves"].toArray().size(), 8);
    EXPECT_NEAR(found["full_lift_in"].toDouble(), 0.380, 0.0002);
    EXPECT_NEAR(found["base_circle_radius_in"].toDouble(), 0.560, 1e-9);
    const QJsonObject smoothing = found["smoothing"].toObject();
    EXPECT_GT(smoothing["rows"].toInt(), 100);
    EXPECT_GT(smoothing["residual_rms_in"].toDouble(), 0.0);
    EXPECT_LT(smoothing["residual_rms_in"].toDouble(), 0.0001);
    EXPECT_LE(smoothing["residual_rms_in"].toDouble(),
              std::abs(smoothing["worst_residual_in"].toDouble()));

    const auto table = rows();
    double fastest = 0.0;
    double slowest = 0.0;
    for (std::size_t at = 1; at + 1 < table.size(); ++at) {
        const double here = (table[at + 1].second - table[at - 1].second) / 2.0;
        fastest = std::max(fastest, here);
        slowest = std::min(slowest, here);
    }
    const double opening = found["opening_velocity_in_per_deg"].toDouble();
    EXPECT_NEAR(opening, fastest, 0.0001);
    EXPECT_NEAR(found["closing_velocity_in_per_deg"].toDouble(), -slowest, 0.0001);
    EXPECT_LT(found["opening_velocity_in_per_deg_at_cam_deg"].toDouble(), 0.0);
    EXPECT_GT(found["closing_velocity_in_per_deg_at_cam_deg"].toDouble(), 0.0);
    // What accelerates from the heel to that velocity must somewhere gain it faster than evenly
    // over the ramp's 25 degrees; what falls from it to nothing at full lift, over the nose's 60.
    EXPECT_GT(found["greatest_acceleration_in_per_deg2"].toDouble(), opening / 25.0);
    EXPECT_LT(found["greatest_acceleration_in_per_deg2"].toDouble(), opening / 5.0);
    EXPECT_LT(found["least_acceleration_in_per_deg2"].toDouble(), -opening / 60.0);
    EXPECT_GT(found["least_acceleration_in_per_deg2"].toDouble(), -opening / 15.0);
    EXPECT_GT(found["greatest_jerk_in_per_deg3"].toDouble(), 0.0);
}

// A straight line between the two rows that hold the lift, one degree apart.
TEST_F(LobeCommandsTest, FlanksStandWhereTheRowsReachTheLift) {
    const auto table = rows();
    const QJsonArray flanks = lobe("3I")["flanks"].toArray();
    ASSERT_EQ(flanks.size(), 5);
    for (const QJsonValue& value : flanks) {
        const QJsonObject flank = value.toObject();
        const double lift = flank["lobe_lift_in"].toDouble();
        const auto above = std::find_if(table.begin(), table.end(),
                                        [&](const auto& row) { return row.second >= lift; });
        const auto below = above - 1;
        const double expected =
            below->first + (lift - below->second) / (above->second - below->second);
        EXPECT_NEAR(flank["opening_cam_deg"].toDouble(), expected, 0.1) << lift;
        // The demo's lobe is symmetric, and two crank degrees go by in one of cam.
        EXPECT_NEAR(flank["duration_crank_deg"].toDouble(), -4.0 * expected, 0.4) << lift;
        EXPECT_FALSE(flank["estimated"].toBool(true));
    }
}

// Norton, Design of Machinery, ch. 8 (from memory): a flat face's contact wanders by ds/dθ.
TEST_F(LobeCommandsTest, AFlatFaceMustBeWiderThanTheContactWanders) {
    const QJsonObject found = lobe("intake");
    ASSERT_EQ(found["followers"].toArray().size(), 1);
    const QJsonObject flat = found["followers"].toArray().first().toObject();
    EXPECT_EQ(flat["follower"], "flat");
    EXPECT_EQ(flat["valves"].toArray().size(), 8);
    const double offset = found["opening_velocity_in_per_deg"].toDouble() * degrees_a_radian;
    EXPECT_NEAR(flat["opening_offset_in"].toDouble(), offset, 1e-6);
    EXPECT_TRUE(flat["edge_margin_in"].isNull()) << "the demo gives no face diameter";
    EXPECT_TRUE(flat["runs_on_the_edge"].isNull());
    const double least = flat["least_face_diameter_in"].toDouble();
    EXPECT_GE(least, 2.0 * offset - 1e-6);

    // 3I's lifter a little wider than that, 5I's a little narrower.
    QJsonObject changed = set_up();
    QJsonObject trains = changed["trains"].toObject();
    for (const auto& [name, more] : {std::pair{"3I", 0.040}, std::pair{"5I", -0.040}}) {
        QJsonObject train = trains[name].toObject();
        QJsonObject lifter = train["lifter"].toObject();
        lifter["face_diameter_in"] = std::round((least + more) * 1e4) / 1e4;
        train["lifter"] = lifter;
        trains[name] = train;
    }
    changed["trains"] = trains;
    take_in(changed);
    EXPECT_EQ(lobe("intake")["followers"].toArray().size(), 3) << "like with like";
    const QJsonObject wide = lobe("3I")["followers"].toArray().first().toObject();
    const QJsonObject narrow = lobe("5I")["followers"].toArray().first().toObject();
    EXPECT_NEAR(wide["edge_margin_in"].toDouble(), 0.020, 0.0001); // the rounding above
    EXPECT_FALSE(wide["runs_on_the_edge"].toBool(true));
    EXPECT_NEAR(narrow["edge_margin_in"].toDouble(), -0.020, 0.0001);
    EXPECT_TRUE(narrow["runs_on_the_edge"].toBool());
    EXPECT_TRUE(command("lobe", {"--valves", "5I"}).output.contains("RUNS ON THE EDGE"));
}

// Norton as above: tan of the pressure angle is s' / (R_b + R_r + s), here by the rows' central
// differences, off by 0.00005 in a degree: 0.15 degrees of angle.
TEST_F(LobeCommandsTest, ARollersPressureAngleFollowsFromTheRows) {
    QJsonObject changed = set_up();
    QJsonObject trains = changed["trains"].toObject();
    for (const char* name : {"3I", "5I"}) {
        QJsonObject train = trains[name].toObject();
        QJsonObject lifter = train["lifter"].toObject();
        lifter["follower"] = "roller";
        if (name == QString("3I")) {
            lifter["roller_radius_in"] = 0.375;
        }
        train["lifter"] = lifter;
        trains[name] = train;
    }
    changed["trains"] = trains;
    take_in(changed);
    double steepest = 0.0;
    const auto table = rows();
    for (std::size_t at = 1; at + 1 < table.size(); ++at) {
        const double velocity = (table[at + 1].second - table[at - 1].second) / 2.0;
        steepest = std::max(
            steepest, std::atan2(velocity * degrees_a_radian, 0.560 + 0.375 + table[at].second));
    }
    const QJsonObject roller = lobe("3I")["followers"].toArray().first().toObject();
    EXPECT_EQ(roller["follower"], "roller");
    EXPECT_NEAR(roller["opening_pressure_angle_deg"].toDouble(), steepest * degrees_a_radian, 0.3);
    EXPECT_LT(roller["opening_pressure_angle_deg_at_cam_deg"].toDouble(), 0.0);
    EXPECT_GT(roller["closing_pressure_angle_deg_at_cam_deg"].toDouble(), 0.0);
    // The roller itself fits every hollow of the lobe that its centre's path makes.
    EXPECT_GT(roller["least_hollow_radius_in"].toDouble(), 0.375);
    // A roller whose size nobody gave has no answer.
    const QJsonObject unknown = lobe("5I", 5)["followers"].toArray().first().toObject();
    EXPECT_TRUE(unknown["opening_pressure_angle_deg"].isNull());
    EXPECT_TRUE(unknown["undercut"].isNull());
}

// Invented numbers of the kind that cards state.
TEST_F(LobeCommandsTest, ALobeFromACardIsMarkedEstimated) {
    QJsonObject changed = set_up();
    QJsonObject lobes = changed["lobes"].toObject();
    QJsonObject intake = lobes["intake"].toObject();
    intake.remove("lift_table_cam_deg_in");
    intake["card"] = QJsonObject{
        {"peak_lift_in", 0.380},
        {"durations_in_crank_deg", QJsonArray{QJsonArray{0.020, 264.0}, QJsonArray{0.050, 236.0}}}};
    lobes["intake"] = intake;
    changed["lobes"] = lobes;
    take_in(changed);
    const QJsonObject found = lobe("intake");
    EXPECT_EQ(found["source"], "card");
    EXPECT_TRUE(found["estimated"].toBool());
    EXPECT_TRUE(found["ramps_estimated"].toBool());
    EXPECT_TRUE(found["smoothing"].isNull());
    EXPECT_TRUE(found["measured_from_cam_deg"].isNull());
    for (const QJsonValue& value : found["flanks"].toArray()) {
        const QJsonObject flank = value.toObject();
        EXPECT_TRUE(flank["estimated"].toBool());
        if (flank["lobe_lift_in"].toDouble() == 0.050) {
            EXPECT_NEAR(flank["duration_crank_deg"].toDouble(), 236.0, 0.05); // as from_card says
        }
    }
    EXPECT_TRUE(command("lobe", {"--valves", "intake"}).output.contains("ESTIMATED"));
    EXPECT_EQ(lobe("exhaust")["source"], "table");
}

TEST_F(LobeCommandsTest, WithoutValvesAllLobesAnswerAndAValvesOwnStandsApart) {
    EXPECT_EQ(answer("lobe")["lobes"].toArray().size(), 2);
    QJsonObject changed = set_up();
    QJsonObject lobes = changed["lobes"].toObject();
    lobes["7I"] = QJsonObject{{"base_circle_radius_in", 0.550}};
    changed["lobes"] = lobes;
    take_in(changed);
    const QJsonArray all = answer("lobe")["lobes"].toArray();
    ASSERT_EQ(all.size(), 3);
    EXPECT_EQ(all[0].toObject()["valves"].toArray().size(), 7);
    EXPECT_EQ(all[2].toObject()["valves"].toArray(), QJsonArray{"7I"});
    EXPECT_NEAR(lobe("7i")["base_circle_radius_in"].toDouble(), 0.550, 1e-9);
    EXPECT_NEAR(lobe("5I")["base_circle_radius_in"].toDouble(), 0.560, 1e-9);
    EXPECT_EQ(command("lobe", {"--valves", "9I"}).exit_code, 3);
    EXPECT_EQ(command("lobe", {"--valves", "all"}).exit_code, 3);
}

} // namespace
} // namespace rodway::tests
