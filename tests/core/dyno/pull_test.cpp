#include "core/dyno/pull.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace rodway {
namespace {

Pull made_up() {
    Pull pull;
    for (const auto& [rpm, Nm] :
         {std::pair{3000.0, 500.0}, std::pair{4000.0, 560.0}, std::pair{5000.0, 540.0},
          std::pair{5500.0, 500.0}, std::pair{6000.0, 440.0}}) {
        pull.rows.push_back({rpm, Torque::Nm(Nm)});
    }
    return pull;
}

// Arithmetic: 100 N m at 3000/π rpm, 100 rad/s, are 10 kW.
TEST(Pull, PowerIsTorqueTimesSpeed) {
    const double rpm = 3000.0 / std::acos(-1.0);
    EXPECT_NEAR(power_of(Torque::Nm(100.0), rpm).in_kW(), 10.0, 1e-12);
    EXPECT_NEAR(torque_of(Power::kW(10.0), rpm).in_Nm(), 100.0, 1e-12);
}

TEST(Pull, PeaksAreRowsWithTheirSpeeds) {
    const auto figures = pull_figures(made_up());
    ASSERT_TRUE(figures.ok());
    EXPECT_EQ(figures->peak_torque.speed_rpm, 4000.0);
    EXPECT_DOUBLE_EQ(figures->peak_torque.torque.in_Nm(), 560.0);
    // 500 N m at 5500 beat 540 at 5000 and 440 at 6000.
    EXPECT_EQ(figures->peak_power.speed_rpm, 5500.0);
    EXPECT_NEAR(figures->peak_power.power.in_kW(), power_of(Torque::Nm(500.0), 5500.0).in_kW(),
                1e-12);
    EXPECT_FALSE(figures->peak_power.bmep.has_value()); // no displacement, never 0
    const auto with = pull_figures(made_up(), Volume::litres(5.0));
    EXPECT_NEAR(with->points[0].bmep->in_kPa(), 4.0 * std::acos(-1.0) * 500.0 / 5.0, 1e-9);
    // Of two equal rows the first.
    Pull flat = made_up();
    flat.rows[2].torque = flat.rows[1].torque;
    EXPECT_EQ(pull_figures(flat)->peak_torque.speed_rpm, 4000.0);
}

// By hand, N m times rpm: 530·1000 + 550·1000 + 520·500 + 470·500 = 1 575 000 over 3000.
TEST(Pull, AnAverageByAreaDoesNotCountCrowdedRowsForMore) {
    const auto averages = band_averages(made_up(), {3000.0, 6000.0});
    ASSERT_TRUE(averages.ok());
    EXPECT_NEAR(averages->torque_by_area.in_Nm(), 525.0, 1e-9);
    EXPECT_EQ(averages->rows, 5u);
    EXPECT_NEAR(averages->torque_of_rows->in_Nm(), 508.0, 1e-9);
    double power_kW = 0.0;
    for (const PullRow& row : made_up().rows) {
        power_kW += power_of(row.torque, row.speed_rpm).in_kW() / 5.0;
    }
    EXPECT_NEAR(averages->power_of_rows->in_kW(), power_kW, 1e-9);
    // Power by hand, in N m rpm: 500·3000, 560·4000, 540·5000, 500·5500, 440·6000.
    const double area = (1.50e6 + 2.24e6) / 2.0 * 1000.0 + (2.24e6 + 2.70e6) / 2.0 * 1000.0 +
                        (2.70e6 + 2.75e6) / 2.0 * 500.0 + (2.75e6 + 2.64e6) / 2.0 * 500.0;
    EXPECT_NEAR(averages->power_by_area.in_kW(),
                power_of(Torque::Nm(1.0), 1.0).in_kW() * area / 3000.0, 1e-9);
}

// By hand: at 3500 530, at 4500 550; (545·500 + 555·500)/1000.
TEST(Pull, ABandIsCutBetweenRows) {
    const auto averages = band_averages(made_up(), {3500.0, 4500.0});
    ASSERT_TRUE(averages.ok());
    EXPECT_NEAR(averages->torque_by_area.in_Nm(), 550.0, 1e-9);
    EXPECT_EQ(averages->rows, 1u);
    EXPECT_NEAR(averages->torque_of_rows->in_Nm(), 560.0, 1e-9);
    const auto between = band_averages(made_up(), {3200.0, 3600.0});
    EXPECT_EQ(between->rows, 0u);
    EXPECT_FALSE(between->torque_of_rows.has_value());
    EXPECT_FALSE(between->power_of_rows.has_value());
    EXPECT_NEAR(between->torque_by_area.in_Nm(), 524.0, 1e-9);
    EXPECT_NEAR(torque_at(made_up(), 3400.0).in_Nm(), 524.0, 1e-9);
    EXPECT_DOUBLE_EQ(torque_at(made_up(), 3000.0).in_Nm(), 500.0);
    EXPECT_DOUBLE_EQ(torque_at(made_up(), 6000.0).in_Nm(), 440.0);
}

TEST(Pull, TheRawPullStaysBesideTheCorrectedOne) {
    PowerCorrection correction;
    correction.standard = PowerStandard::sae_j607;
    correction.factor = 1.1;
    const auto both = corrected_pull(made_up(), correction, Volume::litres(5.0));
    ASSERT_TRUE(both.ok());
    EXPECT_EQ(both->correction.standard, PowerStandard::sae_j607);
    for (std::size_t at = 0; at < 5; ++at) {
        EXPECT_EQ(both->raw.points[at].torque, made_up().rows[at].torque);
        EXPECT_NEAR(both->corrected.points[at].torque.in_Nm(),
                    1.1 * made_up().rows[at].torque.in_Nm(), 1e-9);
        EXPECT_NEAR(both->corrected.points[at].power.in_kW(),
                    1.1 * both->raw.points[at].power.in_kW(), 1e-9);
        EXPECT_NEAR(both->corrected.points[at].bmep->in_kPa(),
                    1.1 * both->raw.points[at].bmep->in_kPa(), 1e-9);
    }
    correction.factor = 11.0;
    EXPECT_EQ(corrected_pull(made_up(), correction).error().field, "factor");
}

TEST(Pull, BadRowsAreErrorsThatNameThem) {
    const auto error = [](auto&& change) {
        Pull pull = made_up();
        change(pull.rows);
        return pull_figures(pull).error();
    };
    const double nan_value = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(error([](auto& rows) { rows.clear(); }).code, ErrorCode::too_few_rows);
    const Error order = error([](auto& rows) { rows[2].speed_rpm = 4000.0; });
    EXPECT_EQ(order.code, ErrorCode::order_wrong);
    EXPECT_EQ(order.line, 3);
    EXPECT_EQ(order.expected, "4000");
    EXPECT_EQ(error([](auto& rows) { rows[1].torque = Torque::Nm(-1.0); }).field, "torque");
    EXPECT_EQ(error([&](auto& rows) { rows[1].torque = Torque::Nm(nan_value); }).code,
              ErrorCode::not_a_number);
    EXPECT_EQ(error([](auto& rows) { rows[0].speed_rpm = 0.0; }).field, "speed");
    EXPECT_EQ(error([](auto& rows) { rows.assign(100001, {}); }).field, "rows");
    EXPECT_EQ(pull_figures(made_up(), Volume::cc(5.0)).error().field, "displacement");
    const auto band = [](double low, double high) {
        return band_averages(made_up(), {low, high}).error().field;
    };
    EXPECT_EQ(band(2999.0, 6000.0), "band/low");
    EXPECT_EQ(band(3000.0, 6001.0), "band/high");
    EXPECT_EQ(band(5000.0, 4000.0), "band/high");
    EXPECT_EQ(band(4000.0, 4000.0), "band/high");
    EXPECT_EQ(band(nan_value, 6000.0), "band/low");
}

} // namespace
} // namespace rodway
