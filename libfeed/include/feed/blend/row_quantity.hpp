#pragma once
#include <cstddef>
#include <cstdint>

#include "feed/blend/blend_properties.hpp"

namespace feed {

/// The quantities of a row of masses, each in the unit of its name: those of BlendProperties.
enum class RowQuantity : std::uint8_t {
    dry_mass_kg,
    water_kg,
    moisture,
    cn_ratio,
    available_cn_ratio,
    carbon_kg,
    nitrogen_kg,
    volume_l,
    bulk_density_kg_m3,
    free_air_space,
    acid_g_citric,
    salt_g,
    potassium_g,
    fat_kg,
    volatile_solids_kg,
    neutralising_g_caco3,
};
inline constexpr std::size_t row_quantity_count = 16;

/// One quantity of a blend in the unit of its name. Constant time, pure.
constexpr Estimate<double> estimate_of(const BlendProperties& blend, RowQuantity quantity) {
    const auto in_kg = [](const Estimate<Mass>& mass) {
        return in_numbers(mass, [](Mass m) { return in_kilograms(m); });
    };
    const auto in_g = [](const Estimate<Mass>& mass) {
        return in_numbers(mass, [](Mass m) { return in_grams(m); });
    };
    switch (quantity) {
        case RowQuantity::dry_mass_kg:
            return in_kg(blend.dry_mass);
        case RowQuantity::water_kg:
            return in_kg(blend.water);
        case RowQuantity::moisture:
            return in_numbers(blend.moisture, [](Moisture m) { return m.value(); });
        case RowQuantity::cn_ratio:
            return blend.cn_ratio;
        case RowQuantity::available_cn_ratio:
            return blend.available_cn_ratio;
        case RowQuantity::carbon_kg:
            return in_kg(blend.carbon);
        case RowQuantity::nitrogen_kg:
            return in_kg(blend.nitrogen);
        case RowQuantity::volume_l:
            return in_numbers(blend.volume, [](Volume v) { return in_litres(v); });
        case RowQuantity::bulk_density_kg_m3:
            return in_numbers(blend.bulk_density,
                              [](Density d) { return in_kilograms_per_cubic_metre(d); });
        case RowQuantity::free_air_space:
            return blend.free_air_space;
        case RowQuantity::acid_g_citric:
            return in_g(blend.acid);
        case RowQuantity::salt_g:
            return in_g(blend.salt);
        case RowQuantity::potassium_g:
            return in_g(blend.potassium);
        case RowQuantity::fat_kg:
            return in_kg(blend.fat);
        case RowQuantity::volatile_solids_kg:
            return in_kg(blend.volatile_solids);
        case RowQuantity::neutralising_g_caco3:
            return in_g(blend.neutralising);
    }
    return {};
}

}  // namespace feed
