#pragma once
#include <array>

#include "feed/bed/factor.hpp"

namespace feed {

/// First-order decay of one pool of organic matter at 25 C, moist and with enough nitrogen.
struct PoolRate {
    Factor rate_per_day;    ///< continuous, natural logarithm
    double respired_share;  ///< the rest becomes castings
    double castings_cn;     ///< C:N of what the pool turns into
};

/// Labile, cellulosic and lignin-like, in this order. Rates: judgements within the published sets,
/// which stand far apart, with room on both sides. The labile rate is the geometric mean of four
/// published ones; its range holds 90 % where the logarithm spreads by 0.75, as bins do (see
/// docs/forecast.md). Respired shares and the C:N of the products: CLM5 technical note,
/// decomposition (Biome-BGC pools).
inline constexpr std::array<PoolRate, 3> pool_rates{{
    {{0.30, 0.09, 1.0, "1/day", Grade::d,
      "geometric mean of 0.0415 (Century pools) and 1.204 (Biome-BGC pools), CLM5 technical note, "
      "and 0.20 and 0.80 (CERES-N, recalled)"},
     0.39,
     12.0},
    {{0.06, 0.011, 0.11, "1/day", Grade::d,
      "geometric mean of 0.0726 (Biome-BGC pools) and 0.05 (CERES-N, recalled); low end 0.0110 "
      "(Century pools), CLM5 technical note; high end half as much again, for worms"},
     0.55,
     12.0},
    {{0.012, 0.0095, 0.0157, "1/day", Grade::d,
      "0.0119 to 0.0157 in composting leaves and grass (Michel et al. 1993); 0.0110 and 0.0141 "
      "(CLM5 technical note); 0.0095 (CERES-N, recalled)"},
     0.29,
     10.0},
}};

}  // namespace feed
