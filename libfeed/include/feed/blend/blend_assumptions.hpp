#pragma once
#include <span>
#include <string>
#include <vector>

#include "feed/blend/available_carbon.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/blend/free_air_space.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed::detail {

/// Names of the portions for which `applies` holds, parted by commas; at most four, then a count.
template <class Applies>
std::string names_where(std::span<const Portion> parts, Applies applies) {
    std::string names;
    int count = 0;
    for (const auto& part : parts) {
        if (!applies(*part.feedstock)) continue;
        ++count;
        if (count <= 4) names += (names.empty() ? "" : "; ") + part.feedstock->name;
    }
    if (count > 4) names += "; and " + std::to_string(count - 4) + " more";
    return names;
}

inline void assume(std::vector<Assumption>& assumed, const std::string& names, std::string before,
                   std::string after) {
    if (!names.empty()) assumed.push_back({std::move(before) + names + std::move(after), Grade::d});
}

/// Whether a stored value is the stated default of its group rather than a value of the material.
inline bool is_group_default(const std::optional<Datum>& datum) {
    return datum && datum->grade == Grade::d && datum->high != 0.0;
}

inline void assume_defaults(std::vector<Assumption>& assumed, std::span<const Portion> parts,
                            Property property) {
    assume(assumed,
           names_where(parts, [&](const Feedstock& f) { return is_group_default(f[property]); }),
           std::string(kind(property).key) + " is a judgement, not a measurement, for: ", "");
}

/// What the answer took for granted, in a fixed order.
inline std::vector<Assumption> blend_assumptions(std::span<const Portion> parts,
                                                 const BlendProperties& blend) {
    std::vector<Assumption> assumed;
    if (blend.available_cn_ratio.has_value())
        assumed.push_back({std::string(available_carbon_definition) +
                               "; published optima near 25 are about available carbon",
                           Grade::c});
    const auto counts_carbon = [](const Feedstock& f) {
        const auto& carbon = f[Property::carbon_dry];
        return !carbon || carbon->value > 0.0;
    };
    if (blend.available_cn_ratio.has_value())
        assume(assumed,
               names_where(parts,
                           [&](const Feedstock& f) {
                               return counts_carbon(f) && !f[Property::lignin_dry] &&
                                      f.decay_class != DecayClass::inert;
                           }),
               "lignin is taken from the decay class (2 %, 6 %, 15 % or 25 % of volatile solids) "
               "for: ",
               "");
    if (blend.free_air_space.has_value()) {
        assume(assumed,
               names_where(parts,
                           [](const Feedstock& f) {
                               return !fills_pores(f) && !f[Property::bulk_density_settled];
                           }),
               "settled, as for free air space, is taken as " +
                   significant(settling_factor.value, 3) + " x the loose density for: ",
               "");
        assume(assumed,
               names_where(parts, [](const Feedstock& f) { return !f[Property::ash_dry]; }),
               "ash is taken as " + significant(default_ash.value * 100.0, 2) + " % for: ", "");
    }
    for (const auto& part : parts) {
        if (!part.feedstock->prepared_as.empty())
            assumed.push_back(
                {"what \"" + part.feedstock->prepared_as +
                     "\" does to moisture, density and speed is a stated factor for: " +
                     part.feedstock->name,
                 Grade::d});
    }
    bool bedding = false;
    bool other = false;
    for (const auto& part : parts) {
        if (fills_pores(*part.feedstock)) continue;
        (packs_as_bedding(*part.feedstock) ? bedding : other) = true;
    }
    if (bedding && other && blend.volume.has_value())
        assumed.push_back({"scraps and bedding pack into one another, up to " +
                               significant(packing_loss.value * 100.0, 2) +
                               " % of their volume; free water adds no volume",
                           Grade::d});
    for (const auto property : {Property::titratable_acidity_wet, Property::sodium_wet,
                                Property::bulk_density_loose, Property::nitrogen_dry})
        assume_defaults(assumed, parts, property);
    return assumed;
}

}  // namespace feed::detail
