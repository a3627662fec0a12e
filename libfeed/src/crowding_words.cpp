#include "crowding_words.hpp"

#include <algorithm>
#include <cmath>

#include "feed/bed/crowding.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/ration/bin_size.hpp"

namespace feed::io {
namespace {

std::string crowded_text(WetMass worms, WetMass room, UnitSystem units) {
    const double worms_kg = worms.in_kilograms();
    return "This bin has room for about " + words::mass(room.in_kilograms(), units) +
           " of worms, not " + words::mass(worms_kg, units) + ". Move them into " +
           bins_text(worms_kg / full_bed.value, units) + ".";
}

}  // namespace

std::string bins_text(double surface_m2, UnitSystem units) {
    constexpr double few = 5.0;
    const double totes = std::max(1.0, std::ceil(surface_m2 / worm_start::tote_m2 - 0.1));
    if (totes <= few) {
        const std::string size = units == UnitSystem::us ? "16 gal" : "60 L";
        return totes == 1.0 ? "one " + size + " tote" : words::number(totes) + " totes of " + size;
    }
    return "a bed 1 m wide and " + words::length(surface_m2, UnitSystem::metric) + " long";
}

std::string crowded_text(const Ration& ration, UnitSystem units) {
    return ration.crowded ? crowded_text(ration.worms, ration.worms_room, units) : "";
}

std::string crowded_text(const CompletedBed& bed, UnitSystem units) {
    return is_crowded(bed) ? crowded_text(bed.worms.value, room_for_worms(bed), units) : "";
}

}  // namespace feed::io
