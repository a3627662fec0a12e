#pragma once
#include <cmath>

namespace feed {

/// Share of a standard normal distribution below z.
inline double normal_below(double z) noexcept {
    return 0.5 * std::erfc(-z * 0.70710678118654752);
}

}  // namespace feed
