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

/// Labile, cellulosic and lignin-like, in this order. Rates: judgements within the published sets;
/// respired shares and the C:N of the products: CLM5 technical note, decomposition (Biome-BGC
/// pools).
inline constexpr std::array<PoolRate, 3> pool_rates{{
    {{0.22, 0.04, 1.2, "1/day", Grade::d,
      "0.0415 (Century pools) to 1.204 (Biome-BGC pools), CLM5 technical note"},
     0.39,
     12.0},
    {{0.07, 0.01, 0.07, "1/day", Grade::d,
      "0.0110 (Century pools) to 0.0726 (Biome-BGC pools), CLM5 technical note"},
     0.55,
     12.0},
    {{0.014, 0.011, 0.014, "1/day", Grade::b, "0.0141 (Biome-BGC pools), CLM5 technical note"},
     0.29,
     10.0},
}};

}  // namespace feed
