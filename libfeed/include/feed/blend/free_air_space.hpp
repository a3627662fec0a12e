#pragma once
#include "feed/feedstock/assumed.hpp"
#include "feed/quantity/basis.hpp"
#include "feed/quantity/units.hpp"

namespace feed {

/// Volume of the water, organic matter and ash in one kilogram as it is, without air.
/// moisture: wet basis; ash: of the dry mass. Threads: pure.
constexpr Volume phase_volume_per_kilogram(Moisture moisture, DryFraction ash) {
    return cubic_metres(phases_m3_per_kg(moisture.value(), ash.value()));
}

/// Density without any air. Threads: pure.
constexpr Density compact_density(Moisture moisture, DryFraction ash) {
    return kilograms_per_cubic_metre(1.0 / phase_volume_per_kilogram(moisture, ash).value());
}

/// Free air space: the share of the volume that is neither water, organic matter nor ash,
/// 1 - density x phase volume (Richard et al. 2004); 0 where the phases fill the volume.
/// density: wet mass over volume, settled; ash: of the dry mass. Threads: pure.
constexpr double free_air_space(Density density, Moisture moisture, DryFraction ash) {
    const double air = 1.0 - density.value() * phase_volume_per_kilogram(moisture, ash).value();
    return air > 0.0 ? air : 0.0;
}

/// Volume of scraps and bedding lying in one another: the sum less `loss` x 4 b (1 - b) of it, with
/// b the bedding's share of the sum. Grows with either part for a loss up to 0.25.
constexpr Volume packed_volume(Volume bedding, Volume other, double loss) {
    const double sum = bedding.value() + other.value();
    if (sum <= 0.0) return cubic_metres(0.0);
    return cubic_metres(sum - 4.0 * loss * bedding.value() * (other.value() / sum));
}

}  // namespace feed
