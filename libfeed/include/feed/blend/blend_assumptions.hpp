#pragma once
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "feed/blend/available_carbon.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/blend/free_air_space.hpp"
#include "feed/feedstock/part.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed::detail {

/// Names of the portions for which `applies` holds; at most four, then a count.
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

/// Says `what` of the portions for which `applies` holds, if there are any.
template <class Applies>
void assume_for(std::vector<Assumption>& assumed, std::span<const Portion> parts,
                const std::string& what, Applies applies) {
    const std::string names = names_where(parts, applies);
    if (!names.empty()) assumed.push_back({what + ": " + names, Grade::d});
}

/// Whether a stored value is a judgement rather than a value of the material.
inline bool is_judged(const std::optional<Datum>& datum) {
    return datum && datum->grade == Grade::d && datum->high != 0.0;
}

inline bool lacks_lignin(const Feedstock& feedstock) {
    const auto& carbon = feedstock[Property::carbon_dry];
    return (!carbon || carbon->value > 0.0) && !feedstock[Property::lignin_dry] &&
           feedstock.decay_class != DecayClass::inert;
}

inline bool lacks_settled_density(const Feedstock& feedstock) {
    const auto& settled = feedstock[Property::bulk_density_settled];
    return part_of(feedstock) != Part::poured_water && (!settled || is_judged(settled));
}

/// The properties whose judged values are named to the keeper, in plain words.
inline constexpr std::pair<Property, const char*> judged_properties[] = {
    {Property::titratable_acidity_wet, "acid"},
    {Property::sodium_wet, "salt"},
    {Property::bulk_density_loose, "bulk density"},
    {Property::nitrogen_dry, "nitrogen"},
};

inline void assume_packing(std::vector<Assumption>& assumed, std::span<const Portion> parts) {
    bool bedding = false;
    bool other = false;
    for (const auto& part : parts) {
        const Part is = part_of(*part.feedstock);
        if (is == Part::poured_water) continue;
        (is == Part::bedding ? bedding : other) = true;
    }
    if (bedding && other)
        assumed.push_back({"scraps and bedding pack into one another, up to " +
                               significant(assumed::packing_loss.value * 100.0, 2) +
                               " % of their volume; free water adds no volume",
                           Grade::d});
}

/// What the answer took for granted, in a fixed order.
inline std::vector<Assumption> blend_assumptions(std::span<const Portion> parts,
                                                 const BlendProperties& blend) {
    std::vector<Assumption> assumed;
    if (blend.available_cn_ratio.has_value()) {
        assumed.push_back({std::string(available_carbon_definition) +
                               "; published optima near 25 are about available carbon",
                           Grade::c});
        assume_for(assumed, parts,
                   "lignin is taken from the decay class (2 %, 6 %, 15 % or 25 % of volatile "
                   "solids) for",
                   lacks_lignin);
    }
    if (blend.free_air_space.has_value()) {
        assume_for(assumed, parts, "how densely it settles, for free air space, is a judgement for",
                   lacks_settled_density);
        assume_for(assumed, parts,
                   "ash is taken as " + significant(assumed::ash.value * 100.0, 2) +
                       " % (of minerals, all of it) for",
                   [](const Feedstock& feedstock) { return !feedstock[Property::ash_dry]; });
    }
    if (blend.volume.has_value()) assume_packing(assumed, parts);
    for (const auto& part : parts) {
        if (!part.feedstock->prepared_as.empty())
            assumed.push_back({"what \"" + part.feedstock->prepared_as +
                                   "\" does to moisture, density and speed is a stated factor "
                                   "for: " +
                                   part.feedstock->name,
                               Grade::d});
    }
    for (const auto& judged : judged_properties)
        assume_for(assumed, parts,
                   std::string(judged.second) + " is a judgement, not a measurement, for",
                   [&](const Feedstock& feedstock) { return is_judged(feedstock[judged.first]); });
    return assumed;
}

}  // namespace feed::detail
