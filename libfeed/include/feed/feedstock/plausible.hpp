#pragma once

namespace feed {

/// Most carbon that organic matter holds, kg/kg: fat and oil come nearest with 0.77.
inline constexpr double most_carbon_of_organic_matter = 0.80;

/// Whether a material can hold so much carbon: at most 80 % of its organic matter.
/// carbon_dry: kg/kg of dry mass; ash_dry: kg/kg of dry mass, 0 where unknown.
/// A ratio that stands beside a nitrogen content implies carbon = nitrogen x C:N; printed tables
/// hold pairs that imply 94 % (poultry manure, nitrogen 6.3 %, C:N 15, Golueke 1972).
/// Threads: pure.
constexpr bool carbon_is_plausible(double carbon_dry, double ash_dry = 0.0) noexcept {
    return carbon_dry >= 0.0 && carbon_dry <= most_carbon_of_organic_matter * (1.0 - ash_dry);
}

}  // namespace feed
