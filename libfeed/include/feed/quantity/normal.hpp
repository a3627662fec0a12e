#pragma once
#include <cmath>

namespace feed {

/// Share of a standard normal distribution below z.
inline double normal_below(double z) noexcept {
    return 0.5 * std::erfc(-z * 0.70710678118654752);
}

/// The 95 % point of the standard normal distribution: nine in ten lie within it on both sides.
inline constexpr double normal_95 = 1.6448536269514722;

}  // namespace feed
