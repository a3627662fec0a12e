#pragma once
#include <cstdint>
#include <optional>
#include <string>

namespace feed {

/// A property that a target can limit.
enum class TargetProperty : std::uint8_t {
    cn_ratio,
    moisture,
    acid_g_citric_per_wet_kg,
    salt_wet_fraction,
    fat_wet_fraction,
    free_air_space,
    total_wet_kg,
    total_volume_l,
    bedding_l_per_scraps_l,
    /// Water poured, over the least with which all other targets can be met; only an upper limit.
    water_over_least,
    /// Water poured, over what the bedding takes up until it alone stands at the share of its
    /// capacity that is aimed at and what dry scraps take until they are moist, less what the
    /// scraps set free; only an upper limit. Where that is nothing, none is poured.
    water_over_room,
};

/// Windows on one property: the must has to hold, the wish is good to hold. Numbers are in the unit
/// named by the property, fractions 0 to 1.
struct Target {
    TargetProperty property = TargetProperty::cn_ratio;
    std::optional<double> low;   ///< must
    std::optional<double> high;  ///< must
    std::optional<double> aim;
    std::string source;               ///< where the numbers come from, shown with the answer
    std::string label;                ///< the keeper's own words, for conflicts
    std::optional<double> wish_low;   ///< nothing: as the must
    std::optional<double> wish_high;  ///< nothing: as the must
};

}  // namespace feed
