#pragma once
#include "feed/quantity/border.hpp"

// What can be true of each number of a bed and of a look at it: files, C and Python refuse the rest
// in the same way. All of them are judgement: wide enough for a jar on a sill and for a windrow.
namespace feed::borders {

inline constexpr Border inside_length{"m", 0.05, 100};
inline constexpr Border inside_width{"m", 0.05, 20};
inline constexpr Border inside_depth{"m", 0.05, 3};
inline constexpr Border volume{"L", 0.5, 1e5};
inline constexpr Border stacked{"trays", 1, 50};
inline constexpr Border depth_of_contents{"m", 0.01, 3};
inline constexpr Border worms_wet_mass{"kg", 0, 1e4};
inline constexpr Border worms_count{"worms", 0, 1e8};
inline constexpr Border temperature{"deg C", -40, 120};
inline constexpr Border moisture{"kg/kg", 0, 1, true};
inline constexpr Border share_gone{"", 0, 1, true};
inline constexpr Border ph{"", 0, 14};
inline constexpr Border lime{"kg", 0, 1000};
inline constexpr Border age{"days", 0, 36525};
inline constexpr Border own_feeding_rate{"kg/kg/day", 0, 5};
/// Of a feeding, from the day for which the bed is described.
inline constexpr Border day{"days", -36525, 36525};
inline constexpr Border earlier_day{"days", -36525, 0};

}  // namespace feed::borders
