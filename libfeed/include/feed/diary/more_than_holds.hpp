#pragma once
#include <algorithm>
#include <optional>
#include <span>
#include <string>

#include "feed/bed/bed.hpp"
#include "feed/blend/contribution.hpp"
#include "feed/blend/portion.hpp"
#include "feed/diary/bed_change.hpp"
#include "feed/diary/observation.hpp"
#include "feed/feedstock/part.hpp"
#include "feed/quantity/amount_words.hpp"

// What no bin of the size holds: a slip of the unit, as 300 kg for 300 g.
namespace feed {

/// What a container holds to its brim, litres; nothing where its size is not given.
inline std::optional<double> held_litres(const BedContainer& container) noexcept {
    const double trays = static_cast<double>(container.stacked);
    if (container.inside)
        return 1000.0 * trays * in_metres(container.inside->length) *
               in_metres(container.inside->width) * in_metres(container.inside->depth);
    if (container.volume) return trays * in_litres(*container.volume);
    return std::nullopt;
}

/// What portions fill at the least, packed as tightly as they lie in any bed, litres.
inline double least_litres(std::span<const Portion> portions) noexcept {
    double litres = 0.0;
    for (const Portion& portion : portions) {
        const double kg = portion.wet_mass.in_kilograms();
        litres += part_of(*portion.feedstock) == Part::poured_water
                      ? kg
                      : 1000.0 * kg * contribution_of(*portion.feedstock)[Addend::settled_m3].low;
    }
    return litres;
}

namespace detail {

inline std::string more_than(const BedContainer& container, double litres) {
    const auto held = held_litres(container);
    if (!held || litres <= *held) return "";
    return "that is at least " + words::volume(litres, UnitSystem::metric) +
           ", and this bin holds " + words::volume(*held, UnitSystem::metric);
}

}  // namespace detail

/// That a feeding, water and all, fills more than the bin ("that is at least 280 L, and this bin
/// holds 60 L"); empty where it fits or the bin's size is not given. Threads: pure.
inline std::string more_than_holds(const BedContainer& container,
                                   std::span<const Portion> portions) {
    return detail::more_than(container, least_litres(portions));
}

/// The same of what was done in one entry: bedding and water that went in, castings that came out,
/// worms that were weighed, as heavy as water.
inline std::string more_than_holds(const BedContainer& container, const Observation& seen) {
    const BedChange change = bed_change_of(seen);
    double litres = least_litres(change.bedding) + change.water_kg;
    litres = std::max(litres, 1000.0 * change.taken_m3);
    if (seen.worm_weight) litres = std::max(litres, seen.worm_weight->in_kilograms());
    return detail::more_than(container, litres);
}

}  // namespace feed
