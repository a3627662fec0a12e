#pragma once
#include <cmath>

// A count of a unit in the unit that is reckoned with.
namespace feed {

/// A count of units, each of a given size: 700 g in kilograms, 70 % as a share.
///
/// Divides where the unit is a whole part of one, so that the answer is the number that a person
/// would write: 700 of 0.001 are 0.7, which the product misses by the last bit.
/// @param count  any number, in units.
/// @param size   of one unit, more than 0; a whole part of one (0.001) or anything else.
inline double in_units(double count, double size) noexcept {
    if (!(size > 0.0 && size < 1.0)) return count * size;
    const double parts = 1.0 / size;
    if (!(parts < 1e9)) return count * size;
    const double whole = std::floor(parts + 0.5);
    const double off = parts - whole;
    return off < 1e-12 * whole && off > -1e-12 * whole ? count / whole : count * size;
}

}  // namespace feed
