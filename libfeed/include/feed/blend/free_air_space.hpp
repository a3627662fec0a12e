#pragma once
#include "feed/blend/available_carbon.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/feedstock/part.hpp"

namespace feed {

/// Densities of the phases (Richard, Veeken, de Wilde and Hamelers 2004, Biotechnol. Prog.
/// 20:1372; recalled). Published particle densities of organic matter run from 1000 to 1600.
inline constexpr double water_kg_per_m3 = 1000.0;
inline constexpr double organic_kg_per_m3 = 1600.0;
inline constexpr double ash_kg_per_m3 = 2500.0;

/// How much denser a settled material lies than a loose one, where its settled density is not
/// known (grade D).
inline constexpr ShareRange settling_factor{1.25, 1.1, 1.6, Grade::d, true};

/// How much volume goes where scraps and bedding meet half and half, because one fills the gaps of
/// the other: 15 %, 5 to 25 % (grade D).
inline constexpr ShareRange packing_loss{0.15, 0.05, 0.25, Grade::d, true};

/// Volume of the water, organic matter and ash in one kilogram as it is, without air.
/// moisture: wet basis; ash: of the dry mass. Threads: pure.
constexpr Volume phase_volume_per_kilogram(Moisture moisture, DryFraction ash) {
    const double dry = 1.0 - moisture.value();
    return cubic_metres(moisture.value() / water_kg_per_m3 +
                        dry * (1.0 - ash.value()) / organic_kg_per_m3 +
                        dry * ash.value() / ash_kg_per_m3);
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

/// Whether a feedstock is a free liquid that fills pores and adds no volume of its own.
constexpr bool fills_pores(const Feedstock& feedstock) noexcept {
    return part_of(feedstock) == Part::poured_water;
}

/// Whether a feedstock packs as bedding does.
constexpr bool packs_as_bedding(const Feedstock& feedstock) noexcept {
    return part_of(feedstock) == Part::bedding;
}

}  // namespace feed
