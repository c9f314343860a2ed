#include "core/clearance/interval_posterior.h"

#include <Eigen/LU>
#include <cmath>
#include <limits>
#include <numbers>

// A reading is an interval: inside it every gap is as likely as any other, outside the likelihood
// falls like the tail of the gauge's own uncertainty, Φ((high - y)/u) - Φ((low - y)/u). The product
// of a normal prior and such factors is not normal, but each factor is log-concave, and its mean
// and variance are found to a few parts in a hundred by expectation propagation: each reading
// stands in as a normal factor; in turn each is taken out, the exact mean and variance with the
// true factor in its stead are worked out along its slope, and the factor is set so as to give
// those. Source: Minka, "Expectation Propagation for Approximate Bayesian Inference" (2001); the
// moments are those of a normal variable cut off on both sides (Johnson, Kotz & Balakrishnan,
// Continuous Univariate Distributions 1, 10.1), both from memory; the test holds them against
// plain integration.

namespace rodway {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

double bell(double x) {
    return std::exp(-x * x / 2.0) / std::sqrt(2.0 * std::numbers::pi);
}

/// Area beyond x under the bell, divided by the bell's height at x; for x ≥ 5 by its continued
/// fraction (Abramowitz & Stegun 26.2.14), which 60 terms give to rounding.
double area_beyond_by_height(double x) {
    if (x < 5.0) {
        return std::erfc(x / std::numbers::sqrt2) / 2.0 / bell(x);
    }
    double tail = x;
    for (int term = 60; term >= 1; --term) {
        tail = x + term / tail;
    }
    return 1.0 / tail;
}

/// For limits alpha < beta in standard deviations, with Z the area between them and φ the bell:
/// (φ(alpha) - φ(beta))/Z and (beta·φ(beta) - alpha·φ(alpha))/Z.
struct CutOff {
    double first = 0.0;
    double second = 0.0;
};

std::optional<CutOff> cut_off(double alpha, double beta) {
    if (beta < 0.0) { // look from the side where the tail is thin
        const auto mirrored = cut_off(-beta, -alpha);
        return mirrored ? std::optional(CutOff{-mirrored->first, mirrored->second}) : std::nullopt;
    }
    CutOff cut;
    if (alpha > 0.0) {
        // Everything as a multiple of φ(alpha), so that nothing underflows.
        const double height =
            beta < infinity ? std::exp((alpha - beta) * (alpha + beta) / 2.0) : 0.0;
        const double area = area_beyond_by_height(alpha) -
                            (height > 0.0 ? area_beyond_by_height(beta) * height : 0.0);
        cut.first = (1.0 - height) / area;
        cut.second = ((height > 0.0 ? beta * height : 0.0) - alpha) / area;
    } else {
        const double area =
            (std::erfc(-beta / std::numbers::sqrt2) - std::erfc(-alpha / std::numbers::sqrt2)) /
            2.0;
        const double low = std::isfinite(alpha) ? bell(alpha) : 0.0;
        const double high = std::isfinite(beta) ? bell(beta) : 0.0;
        cut.first = (low - high) / area;
        cut.second = ((std::isfinite(beta) ? beta * high : 0.0) -
                      (std::isfinite(alpha) ? alpha * low : 0.0)) /
                     area;
    }
    return std::isfinite(cut.first) && std::isfinite(cut.second) ? std::optional(cut)
                                                                 : std::nullopt;
}

/// A reading's stand-in: a normal factor along its slope, by weight (1/variance) and weight·mean.
struct Factor {
    double weight = 0.0;
    double pull = 0.0;
    bool settled = false; ///< narrower than its gauge is sharp: simply a normal reading
};

Factor first_guess(const LinearReading& reading) {
    Factor factor;
    if (!reading.low || !reading.high) {
        return factor;
    }
    const double half = (*reading.high - *reading.low) / 2.0;
    factor.weight = 1.0 / (half * half / 3.0 + reading.u * reading.u);
    factor.pull = factor.weight * (*reading.low + *reading.high) / 2.0;
    factor.settled = half < 0.1 * reading.u;
    return factor;
}

Spread spread_of(const std::vector<LinearReading>& readings, const std::vector<Factor>& factors) {
    PoseMatrix weight = PoseMatrix::Identity();
    PoseVector pull = PoseVector::Zero();
    for (std::size_t at = 0; at < readings.size(); ++at) {
        weight += factors[at].weight * readings[at].slope * readings[at].slope.transpose();
        pull += factors[at].pull * readings[at].slope;
    }
    Spread spread;
    spread.covariance = weight.inverse();
    spread.covariance = ((spread.covariance + spread.covariance.transpose()) / 2.0).eval();
    spread.mean = spread.covariance * pull;
    return spread;
}

/// Sets one reading's factor anew; says by what part its weight changed.
double renew(const LinearReading& reading, const Spread& spread, Factor& factor) {
    const double variance = reading.slope.dot(spread.covariance * reading.slope);
    if (factor.settled || !(variance > 0.0)) {
        return 0.0;
    }
    const double left = 1.0 / variance - factor.weight;
    if (!(left > 1e-9 / variance)) {
        return 0.0;
    }
    Moments without;
    without.variance = 1.0 / left;
    without.mean = without.variance * (reading.slope.dot(spread.mean) / variance - factor.pull);
    const auto with = after_interval(without, reading.low, reading.high, reading.u);
    if (!with) {
        return 0.0;
    }
    const Factor before = factor;
    factor.weight = std::max(0.0, 1.0 / with->variance - 1.0 / without.variance);
    factor.pull = with->mean / with->variance - without.mean / without.variance;
    return std::abs(factor.weight - before.weight) * variance;
}

} // namespace

std::optional<Moments> after_interval(const Moments& before, const std::optional<double>& low,
                                      const std::optional<double>& high, double u) {
    const double sum = std::sqrt(before.variance + u * u);
    const auto cut = cut_off(low ? (*low - before.mean) / sum : -infinity,
                             high ? (*high - before.mean) / sum : infinity);
    if (!cut) {
        return std::nullopt;
    }
    Moments after;
    const double share = before.variance / sum;
    after.mean = before.mean + share * cut->first;
    after.variance = before.variance - share * share * (cut->first * cut->first + cut->second);
    const bool good = std::isfinite(after.mean) && after.variance > 1e-12 * before.variance &&
                      after.variance <= before.variance * (1.0 + 1e-12);
    return good ? std::optional(after) : std::nullopt;
}

Spread interval_posterior(const std::vector<LinearReading>& readings) {
    std::vector<Factor> factors;
    factors.reserve(readings.size());
    for (const LinearReading& reading : readings) {
        factors.push_back(first_guess(reading));
    }
    constexpr int most_rounds = 100;
    for (int round = 0; round < most_rounds; ++round) {
        double change = 0.0;
        for (std::size_t at = 0; at < readings.size(); ++at) {
            change =
                std::max(change, renew(readings[at], spread_of(readings, factors), factors[at]));
        }
        if (change < 1e-8) {
            break;
        }
    }
    return spread_of(readings, factors);
}

} // namespace rodway
