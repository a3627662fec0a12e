#pragma once
// What is said of worms that have too little room, and the bins that give them enough.
#include <string>

#include "feed/bed/completed.hpp"
#include "feed/quantity/unit_system.hpp"
#include "feed/ration/ration.hpp"

namespace feed::io {

/// A bin of that surface as people buy it: "one 60 L tote", "3 totes of 60 L", or a bed a metre
/// wide.
std::string bins_text(double surface_m2, UnitSystem units);

/// "This bin has room for about 70 g of worms, not 450 g. Move them into one 60 L tote."; "" where
/// they are not crowded.
std::string crowded_text(const Ration& ration, UnitSystem units);
std::string crowded_text(const CompletedBed& bed, UnitSystem units);

}  // namespace feed::io
