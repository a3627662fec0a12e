#pragma once
// The chance that a normal number lies in an interval, and how it moves with the mean.
#include <cmath>
#include <limits>

#include "feed/quantity/normal.hpp"

namespace feed::detail {

/// Logarithm of the chance that a standard normal number is above z, any z.
/// Source: complementary error function; beyond 8 the asymptotic series (Abramowitz & Stegun 1964,
/// 26.2.12), off by less than 1e-6 there.
inline double log_normal_above(double z) noexcept {
    if (z < 8.0) return std::log(0.5 * std::erfc(z * 0.70710678118654752));
    const double inverse = 1.0 / (z * z);
    const double series =
        1.0 - inverse * (1.0 - 3.0 * inverse * (1.0 - 5.0 * inverse * (1.0 - 7.0 * inverse)));
    return -0.5 * z * z - std::log(z * 2.5066282746310002) + std::log(series);
}

/// A log-likelihood and its first two derivatives by the mean.
struct LogChance {
    double value = 0.0;
    double slope = 0.0;
    double bend = 0.0;  ///< second derivative, never above 0
};

/// Logarithm of the chance that mean + sigma z lies in (low, high]; low may be minus infinity and
/// high infinity, not both. sigma above 0.
inline LogChance log_chance_in(double low, double high, double mean, double sigma) noexcept {
    double from = (low - mean) / sigma;
    double to = (high - mean) / sigma;
    // The side on which the chance is small is turned to the right, where it has all its digits.
    const bool turned = from + to < 0.0;
    if (turned) {
        const double kept = from;
        from = -to;
        to = -kept;
    }
    const double above_from = log_normal_above(from);
    double value = above_from;
    if (std::isfinite(to)) {
        const double part = std::exp(log_normal_above(to) - above_from);
        value += std::log1p(-std::fmin(part, 1.0 - 1e-15));
    }
    const auto weight = [&](double z) {
        return std::isfinite(z) ? std::exp(-0.5 * z * z - 0.91893853320467274 - value) : 0.0;
    };
    const double at_from = weight(from);
    const double at_to = weight(to);
    const double slope = (at_from - at_to) / sigma;
    const double product =
        (std::isfinite(from) ? from * at_from : 0.0) - (std::isfinite(to) ? to * at_to : 0.0);
    LogChance chance;
    chance.value = value;
    chance.slope = turned ? -slope : slope;
    chance.bend = std::fmin(0.0, product / (sigma * sigma) - slope * slope);
    return chance;
}

}  // namespace feed::detail
