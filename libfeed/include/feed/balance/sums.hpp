#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>

#include "feed/balance/balance_problem.hpp"

namespace feed {

/// A quantity that adds up over portions; every target compares two of them.
enum class Sum : std::uint8_t {
    wet_kg,
    water_kg,
    carbon_kg,
    nitrogen_kg,
    acid_g,
    salt_kg,
    fat_kg,
    air_l,      ///< settled volume less solids and water
    settled_l,  ///< settled volume
    loose_l,    ///< loose volume
    bedding_l,  ///< loose volume of bedding
    scraps_l,   ///< loose volume of scraps
    poured_kg,  ///< water as such
    room_kg,    ///< poured water that bedding and dry scraps take up, less what scraps set free
};
inline constexpr std::size_t sum_count = 14;

/// One property of a blend as a ratio of sums: above / below, or above alone.
struct SumRatio {
    Sum above;
    std::optional<Sum> below;
};

/// The sums that make a target property. A window on it is then linear in the wet masses:
/// low <= above / below is above - low below >= 0 (mix formulas: Richard and Trautmann 1996).
constexpr SumRatio ratio_of(TargetProperty property) noexcept {
    switch (property) {
        case TargetProperty::cn_ratio:
            return {Sum::carbon_kg, Sum::nitrogen_kg};
        case TargetProperty::moisture:
            return {Sum::water_kg, Sum::wet_kg};
        case TargetProperty::acid_g_citric_per_wet_kg:
            return {Sum::acid_g, Sum::wet_kg};
        case TargetProperty::salt_wet_fraction:
            return {Sum::salt_kg, Sum::wet_kg};
        case TargetProperty::fat_wet_fraction:
            return {Sum::fat_kg, Sum::wet_kg};
        case TargetProperty::free_air_space:
            return {Sum::air_l, Sum::settled_l};
        case TargetProperty::total_wet_kg:
            return {Sum::wet_kg, std::nullopt};
        case TargetProperty::total_volume_l:
            return {Sum::loose_l, std::nullopt};
        case TargetProperty::bedding_l_per_scraps_l:
            return {Sum::bedding_l, Sum::scraps_l};
        case TargetProperty::water_over_least:
            return {Sum::poured_kg, std::nullopt};
        case TargetProperty::water_over_room:
            return {Sum::poured_kg, Sum::room_kg};
    }
    return {Sum::wet_kg, std::nullopt};
}

}  // namespace feed
