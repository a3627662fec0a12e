#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "feed/balance/balance_problem.hpp"

namespace feed {

/// The fixed facts of a property that a target can limit.
struct TargetKind {
    TargetProperty property;
    std::string_view key;   ///< in files and answers
    std::string_view name;  ///< in sentences
    std::string_view unit;  ///< of low, high and aim
    double lowest;          ///< smallest number that makes sense
    double highest;         ///< largest number that makes sense
    bool is_fraction;       ///< 0 to 1, so that a number above 1 is a per cent slip
};

inline constexpr std::size_t target_property_count = 11;

/// Every target property in the order of the enumeration.
inline constexpr std::array<TargetKind, target_property_count> target_kinds{{
    {TargetProperty::cn_ratio, "cn_ratio", "C:N ratio", "kg carbon per kg nitrogen", 1, 1000,
     false},
    {TargetProperty::moisture, "moisture", "moisture", "kg water per kg wet mass", 0, 1, true},
    {TargetProperty::acid_g_citric_per_wet_kg, "acid_g_citric_per_wet_kg", "acid",
     "g citric acid per kg wet mass", 0, 1000, false},
    {TargetProperty::salt_wet_fraction, "salt_wet_fraction", "salt", "kg salt per kg wet mass", 0,
     1, true},
    {TargetProperty::fat_wet_fraction, "fat_wet_fraction", "fat", "kg fat per kg wet mass", 0, 1,
     true},
    {TargetProperty::free_air_space, "free_air_space", "free air space", "share of the volume", 0,
     1, true},
    {TargetProperty::total_wet_kg, "total_wet_kg", "total mass", "kg wet mass", 0, 1e9, false},
    {TargetProperty::total_volume_l, "total_volume_l", "total volume", "L", 0, 1e12, false},
    {TargetProperty::bedding_l_per_scraps_l, "bedding_l_per_scraps_l", "bedding for scraps",
     "L loose bedding per L scraps", 0, 1000, false},
    {TargetProperty::water_over_least, "water_over_least", "water, times the least",
     "kg poured per kg of the least that will do", 1, 1000, false},
    {TargetProperty::water_over_room, "water_over_room", "water poured",
     "kg poured per kg that bedding and dry scraps take up", 0, 1000, false},
}};

/// The fixed facts of one property. Constant time.
constexpr const TargetKind& kind(TargetProperty property) noexcept {
    return target_kinds[static_cast<std::size_t>(property)];
}

/// Is it a limit on poured water, which is only ever an upper one?
constexpr bool limits_water(TargetProperty property) noexcept {
    return property == TargetProperty::water_over_least ||
           property == TargetProperty::water_over_room;
}

/// Does the property fix how much there is, rather than what it is like?
constexpr bool fixes_amount(TargetProperty property) noexcept {
    return property == TargetProperty::total_wet_kg || property == TargetProperty::total_volume_l;
}

}  // namespace feed
