#include "core/cam/spline_grid.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

TEST(SplineGrid, SpansExactlyWhatIsAsked) {
    const SplineGrid grid = spline_grid(-61.3, 74.9, 1.0);
    const QuinticSpline spline = grid.spline(Eigen::VectorXd::Ones(grid.coefficients));
    EXPECT_NEAR(spline.first(), -61.3, 1e-12);
    EXPECT_NEAR(spline.last(), 74.9, 1e-9);
    EXPECT_NEAR(grid.last(), spline.last(), 1e-12);
    EXPECT_NEAR(grid.step, 1.0, 0.01);
}

TEST(SplineGrid, ARowGivesTheSplinesOwnValueAndDerivatives) {
    const SplineGrid grid = spline_grid(-10.0, 12.0, 0.7);
    Eigen::VectorXd values(grid.coefficients);
    for (int at = 0; at < grid.coefficients; ++at) {
        values[at] = std::sin(1.3 * at) + 0.2 * at;
    }
    const QuinticSpline spline = grid.spline(values);
    for (double x = -9.9; x < 12.0; x += 0.37) {
        for (int order = 0; order < 4; ++order) {
            SparseEntries entries;
            add_spline_row(grid, x, order, 2.0, 0, entries);
            double sum = 0.0;
            for (const auto& entry : entries) {
                sum += entry.value() * values[entry.col()];
            }
            // Rounding; factor 2 as asked.
            EXPECT_NEAR(sum, 2.0 * spline.at(x)[static_cast<std::size_t>(order)], 1e-10) << x;
        }
    }
}

TEST(SplineGrid, FollowingACubicIsExact) {
    const SplineGrid grid = spline_grid(0.0, 30.0, 1.0);
    const auto cubic = [](double x) { return 1.0 + x * (-2.0 + x * (0.3 - 0.01 * x)); };
    const QuinticSpline spline = grid.spline(follow_curve(grid, [&](double x) {
        return CurvePoint{cubic(x), 0.6 - 0.06 * x};
    }));
    for (double x = 5.0; x <= 25.0; x += 0.31) { // further out the spline goes to zero
        EXPECT_NEAR(spline.at(x)[0], cubic(x), 1e-11) << x;
    }
}

// The jerk of coefficients k³ is constant, 6.
TEST(SplineGrid, JerkMatrixTakesThirdDifferences) {
    const SparseMatrix matrix = jerk_matrix(9);
    Eigen::VectorXd cubes(9);
    for (int at = 0; at < 9; ++at) {
        cubes[at] = at * at * at;
    }
    const Eigen::VectorXd jerk = matrix * cubes;
    ASSERT_EQ(jerk.size(), 12);
    for (int row = 3; row < 9; ++row) {
        EXPECT_NEAR(jerk[row], 6.0, 1e-12);
    }
    EXPECT_NEAR(jerk[1], 1.0, 1e-12); // 1 − 3·0, zeros beyond the end
}

} // namespace
} // namespace rodway
