#pragma once

#include <optional>
#include <vector>

#include "core/clearance/passage_pose.h"

namespace rodway {

/// What one reading says of four unknowns: slope·x lies between low and high, each limit being as
/// sharp as the gauge, a normal distribution of standard deviation `u`. An empty limit says
/// nothing on that side.
struct LinearReading {
    PoseVector slope = PoseVector::Zero();
    std::optional<double> low;
    std::optional<double> high;
    double u = 1.0; ///< above 0
};

/// Mean and covariance of four unknowns.
struct Spread {
    PoseVector mean = PoseVector::Zero();
    PoseMatrix covariance = PoseMatrix::Identity();
};

/// Mean and covariance of four unknowns that were normal, of mean 0 and standard deviation 1 each,
/// before the readings: how they are derived is said in interval_posterior.cpp. One reading of half
/// width h, and little else known, leaves a variance of h²/3 + u² along its slope.
[[nodiscard]] Spread interval_posterior(const std::vector<LinearReading>& readings);

/// Mean and variance of a normal variable of given mean and variance, once a reading has put it
/// between low and high (each as sharp as `u`). Public so that it can be tested by itself.
struct Moments {
    double mean = 0.0;
    double variance = 0.0;
};
/// Empty where the reading is too far off for numbers to say anything.
[[nodiscard]] std::optional<Moments> after_interval(const Moments& before,
                                                    const std::optional<double>& low,
                                                    const std::optional<double>& high, double u);

} // namespace rodway
