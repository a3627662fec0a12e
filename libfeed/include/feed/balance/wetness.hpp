#pragma once
#include <span>

#include "feed/blend/available_carbon.hpp"
#include "feed/blend/portion.hpp"
#include "feed/feedstock/part.hpp"
#include "feed/quantity/units.hpp"

namespace feed {

/// Share of the scraps' own water that comes out of them as they soften (grade D).
inline constexpr ShareRange scraps_water_released{0.8, 0.5, 0.95, Grade::d, true};
/// Share of a bedding's water-holding capacity that takes up water in a bin, where it is neither
/// torn apart nor under water as in the laboratory (grade D).
inline constexpr ShareRange usable_holding_capacity{0.7, 0.5, 0.9, Grade::d, true};
/// Water-holding capacity of a bedding that has no value of its own, kg per kg dry (grade D).
inline constexpr double default_holding_capacity = 2.5;

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
        const auto& feedstock = *portion.feedstock;
        const auto& moisture = feedstock[Property::moisture_wet];
        if (!moisture) continue;
        const double wet = portion.wet_mass.in_kilograms();
        const double water = wet * moisture->value;
        const Part part = part_of(feedstock);
        if (part == Part::poured_water) {
            released += water;
        } else if (part == Part::bedding) {
            const auto& held = feedstock[Property::water_holding_capacity_dry];
            const double capacity =
                usable_holding_capacity.value * (held ? held->value : default_holding_capacity);
            const double room = capacity * (wet - water) - water;
            (room > 0.0 ? spare : released) += room > 0.0 ? room : -room;
        } else if (part == Part::scraps) {
            released += scraps_water_released.value * water;
        }
    }
    return {kilograms(released), kilograms(spare), released <= spare, Grade::d};
}

}  // namespace feed
