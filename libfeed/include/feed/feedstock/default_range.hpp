#pragma once
#include <algorithm>
#include <array>

#include "feed/feedstock/feedstock.hpp"

namespace feed {

/// Nitrogen and C:N that came without a range are times or divided by this: eight in ten foods of
/// two national tables (USDA SR26, IFCT 2017) differ by less. A judgement (grade D).
inline constexpr double default_nitrogen_factor = 1.5;

/// The stated range of a value that came without one, by property in the order of Property: a share
/// of the value; for fractions of a whole a share of the smaller of the value and its remainder;
/// for pH in pH units; nitrogen and C:N have their factor. A judgement (grade D): the spread from
/// one kitchen and season to the next; for moisture eight in ten foods of two national tables.
inline constexpr std::array<double, property_count> default_spread{
    0.35,  // moisture: 86 % may be 81.1 to 90.9 %
    0.08,  // carbon
    0.00,  // nitrogen: see default_nitrogen_factor
    0.00,  // C:N: see default_nitrogen_factor
    0.30,  // ash
    0.40,  // lignin
    0.40,  // fat
    0.20,  // protein
    0.40,  // fat, fresh
    0.15,  // carbohydrate
    0.30,  // fibre
    0.50,  // pH
    0.50,  // titratable acidity
    0.50,  // organic acids
    0.15,  // neutralising value
    0.50,  // sodium
    0.30,  // potassium
    0.50,  // electrical conductivity
    0.30,  // bulk density
    0.30,  // bulk density, settled
    0.30,  // water-holding capacity
    0.30,  // refuse
    0.25,  // labile share
    0.25,  // cellulosic share
    0.40,  // lignin-like share
};

/// Sets low and high of a datum to the stated default range of its property, inside what is
/// possible, and grades the range D. Threads: pure.
constexpr void set_default_range(Datum& datum, Property property) noexcept {
    const PropertyKind& limits = kind(property);
    datum.range_grade = Grade::d;
    if (property == Property::nitrogen_dry || property == Property::cn_ratio) {
        datum.low = datum.value / default_nitrogen_factor;
        datum.high = std::min(datum.value * default_nitrogen_factor, limits.highest);
        return;
    }
    const double spread = default_spread[static_cast<std::size_t>(property)];
    double reach = spread * datum.value;
    if (property == Property::ph)
        reach = spread;
    else if (limits.highest == 1.0)
        reach = spread * std::min(datum.value, 1.0 - datum.value);
    datum.low = std::clamp(datum.value - reach, limits.lowest, limits.highest);
    datum.high = std::clamp(datum.value + reach, limits.lowest, limits.highest);
}

}  // namespace feed
