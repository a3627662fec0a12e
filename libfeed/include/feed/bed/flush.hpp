#pragma once
#include <algorithm>
#include <cmath>

#include "feed/bed/completed.hpp"
#include "feed/bed/factor.hpp"
#include "feed/bed/ranged.hpp"

// Salt that water takes along when it runs through a bed.
namespace feed {

namespace limits {

/// Of the water that runs through, what takes salt along as if it mixed with all that is held: some
/// runs down cracks. It is fitted to the rule for soils that 6, 12 and 24 inches of water take a
/// half, four fifths and nine tenths of the salt from a foot of soil (extension pages on
/// reclamation, from memory), with 5 inches of water held in the foot: the three give 0.58, 0.67
/// and 0.48.
inline constexpr Factor flush_mixing{
    0.58,
    0.40,
    1.00,
    "",
    Grade::d,
    "6 in of water takes half of the salt from a foot of soil, 12 in four fifths, 24 in nine "
    "tenths (extension pages, from memory); high end full mixing"};

}  // namespace limits

/// Share of a bed's salt that is left when water was poured through it: what the bed drinks up
/// first takes nothing along; the rest mixes with what the bed holds and drains, so the salt falls
/// as exp(-mixing x water / held). Low is the most that it may take.
/// @param water_kg  poured on, at least 0.
inline Ranged flushed_salt_left(const CompletedBed& bed, double water_kg) noexcept {
    const double held_kg = std::max(in_kilograms(bed.water_capacity.value), 1e-9);
    const double drunk_kg = std::max(0.0, held_kg - in_kilograms(bed.water.value));
    const double through = std::max(0.0, water_kg - drunk_kg) / held_kg;
    const Factor& mixing = limits::flush_mixing;
    return {std::exp(-mixing.value * through), std::exp(-mixing.high * through),
            std::exp(-mixing.low * through)};
}

/// Water that leaves a share of the salt, kg: the inverse of flushed_salt_left.
/// @param share_left  above 0, at most 1.
inline double flush_water_for(const CompletedBed& bed, double share_left) noexcept {
    const double held_kg = std::max(in_kilograms(bed.water_capacity.value), 1e-9);
    const double drunk_kg = std::max(0.0, held_kg - in_kilograms(bed.water.value));
    return drunk_kg +
           held_kg * -std::log(std::clamp(share_left, 1e-6, 1.0)) / limits::flush_mixing.value;
}

}  // namespace feed
