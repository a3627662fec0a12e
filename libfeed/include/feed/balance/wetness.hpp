#pragma once
#include <span>

#include "feed/blend/contribution.hpp"
#include "feed/blend/portion.hpp"
#include "feed/quantity/units.hpp"

namespace feed {

/// The water a feeding sets free against what its bedding can still take up. What is left over has
/// to go into the bed below or drains.
struct Wetness {
    Mass released = kilograms(0.0);  ///< water poured in, and what comes out of the scraps
    Mass spare = kilograms(0.0);     ///< what the bedding can still take up
    bool holds = true;               ///< released is no more than spare
    Grade grade = Grade::d;          ///< both shares are judgements
};

/// Wetness of a feeding, without the bed and without evaporation: it is reported, it forbids
/// nothing. portions: masses of at least 0; one without known moisture is left out. Linear in the
/// portions. Threads: pure.
inline Wetness wetness_of(std::span<const Portion> portions) {
    double released = 0.0;
    double spare = 0.0;
    for (const auto& portion : portions) {
        const Contribution one = contribution_of(*portion.feedstock);
        if (!one.is_known(Addend::water_kg)) continue;
        const double wet = portion.wet_mass.in_kilograms();
        released += wet * one[Addend::set_free_kg].value;
        // Dry scraps drink until they are moist.
        const double water = one[Addend::water_kg].value;
        if (one.part == Part::scraps && water < assumed::released_from)
            spare += wet * (assumed::released_from - water) / (1.0 - assumed::released_from);
        if (one.part != Part::bedding) continue;
        const double room = wet * (assumed::usable_capacity.value * one[Addend::capacity_kg].value -
                                   one[Addend::water_kg].value);
        (room > 0.0 ? spare : released) += room > 0.0 ? room : -room;
    }
    return {kilograms(released), kilograms(spare), released <= spare, Grade::d};
}

}  // namespace feed
