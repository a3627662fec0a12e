#pragma once
// From the core's typed results to the plain structs of the C interface.
#include <string>

#include "feed/blend/blend_properties.hpp"
#include "guard.hpp"

namespace feed::c {

/// An estimate as plain numbers; `number` turns the typed value into the unit of the field.
template <class T, class Number>
feed_estimate plain(const Estimate<T>& estimate, Number number) noexcept {
    if (!estimate.has_value()) {
        return {not_a_number,     not_a_number, not_a_number,
                estimate.covered, FEED_UNKNOWN, static_cast<std::int32_t>(estimate.grade)};
    }
    const bool known = estimate.is_known();
    return {number(estimate.value),
            known ? number(estimate.low) : not_a_number,
            known ? number(estimate.high) : not_a_number,
            estimate.covered,
            known ? FEED_KNOWN : FEED_AT_LEAST,
            static_cast<std::int32_t>(estimate.grade)};
}

inline feed_estimate plain(const Estimate<double>& estimate) noexcept {
    return plain(estimate, [](double number) { return number; });
}

/// An estimate of which nothing is known.
inline constexpr feed_estimate nothing_known{not_a_number, not_a_number, not_a_number,
                                             0.0,          FEED_UNKNOWN, FEED_GRADE_D};

// Outputs of which nothing is known yet: pointers and integers are zero, numbers NaN.

inline constexpr feed_blend_properties no_blend{sizeof(feed_blend_properties),
                                                0,
                                                not_a_number,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known,
                                                nothing_known};

inline constexpr feed_answer_summary no_answer{sizeof(feed_answer_summary),
                                               FEED_BALANCE_FAILED,
                                               FEED_GRADE_D,
                                               0,
                                               0,
                                               0,
                                               0,
                                               0,
                                               not_a_number,
                                               "",
                                               ""};

inline constexpr feed_reached nothing_reached{
    sizeof(feed_reached), 0, 0, 0, not_a_number, not_a_number, not_a_number, nothing_known, ""};

inline void fill(feed_blend_properties& out, const BlendProperties& blend) noexcept {
    const auto fraction = [](Moisture part) { return part.value(); };
    const auto density = [](Density d) { return in_kilograms_per_cubic_metre(d); };
    out.cautions = static_cast<std::int32_t>(blend.cautions);
    out.wet_kg = blend.wet_mass.in_kilograms();
    out.dry_kg = plain(blend.dry_mass, in_kilograms);
    out.water_kg = plain(blend.water, in_kilograms);
    out.moisture_wet = plain(blend.moisture, fraction);
    out.cn_ratio = plain(blend.cn_ratio);
    out.available_cn_ratio = plain(blend.available_cn_ratio);
    out.carbon_kg = plain(blend.carbon, in_kilograms);
    out.nitrogen_kg = plain(blend.nitrogen, in_kilograms);
    out.volume_l = plain(blend.volume, in_litres);
    out.bulk_density_kg_m3 = plain(blend.bulk_density, density);
    out.free_air_space = plain(blend.free_air_space);
    out.acid_g_citric = plain(blend.acid, in_grams);
    out.salt_g = plain(blend.salt, in_grams);
    out.potassium_g = plain(blend.potassium, in_grams);
    out.fat_kg = plain(blend.fat, in_kilograms);
    out.volatile_solids_kg = plain(blend.volatile_solids, in_kilograms);
    out.neutralising_g_caco3 = plain(blend.neutralising, in_grams);
}

}  // namespace feed::c
