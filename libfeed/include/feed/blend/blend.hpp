#pragma once
#include <algorithm>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "feed/blend/blend_assumptions.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/blend/mix.hpp"
#include "feed/blend/parts.hpp"
#include "feed/blend/volume_numbers.hpp"

namespace feed {

/// Up to this share of the mass it concerns a property may be missing and the known part is still
/// given, as a lower bound (grade D).
inline constexpr double most_missing_share = 0.10;

/// What a missing part is at worst when the C:N of a blend is bounded from below: pure protein,
/// 53 % carbon and 16 % nitrogen of dry mass.
inline constexpr double protein_carbon = 0.53;
inline constexpr double protein_nitrogen = 0.16;

namespace detail {

/// How much of a quantity is known.
struct Known {
    Knowledge knowledge = Knowledge::known;
    double covered = 1.0;
};

/// From the mass that a quantity concerns and the part of it whose property is missing.
inline Known known_from(double concerned, double missing) {
    if (!(missing > 0.0)) return {};
    const double share = missing / concerned;
    return {share <= most_missing_share ? Knowledge::at_least : Knowledge::unknown, 1.0 - share};
}

inline Known known_part(const BlendSums& sums, BlendQuantity quantity) {
    const auto at = static_cast<std::size_t>(quantity);
    return known_from(sums.concerned[at], sums.missing[at]);
}

/// A volume that is only a lower bound gives no density and no share of air.
inline Known known_density(Known volume, double volume_m3) {
    if (volume.knowledge != Knowledge::known || !(volume_m3 > 0.0))
        volume.knowledge = Knowledge::unknown;
    return volume;
}

inline Known known_air(Known density, bool moisture_is_known, const VolumeSums& sums) {
    if (!moisture_is_known || !settles(sums)) density.knowledge = Knowledge::unknown;
    return density;
}

inline Known both(Known a, Known b) {
    return {std::max(a.knowledge, b.knowledge), std::min(a.covered, b.covered)};
}

/// An estimate from plain numbers in the unit that `make` names. The range always holds the value.
template <class T, class Make>
Estimate<T> estimate(Known known, const Range& range, Grade grade, Make make) {
    Estimate<T> made;
    made.knowledge = known.knowledge;
    made.covered = known.covered;
    made.grade = grade;
    if (known.knowledge == Knowledge::unknown) return made;
    const Range around = range.around_value();
    made.value = make(around.value);
    made.low = make(around.low);
    made.high = make(around.high);
    return made;
}

inline constexpr auto plain = [](double number) { return number; };

/// A C:N ratio from below: a missing part counts as pure protein. Masses in kg.
inline Range bounded_ratio(const Range& ratio, double nitrogen, double missing_dry) {
    const auto bounded = [&](double one) {
        return (one * nitrogen + protein_carbon * missing_dry) /
               (nitrogen + protein_nitrogen * missing_dry);
    };
    return {bounded(ratio.value), bounded(ratio.low), ratio.high};
}

/// Carbon over nitrogen. Where a part is missing, the lower bound counts it as pure protein.
inline Estimate<double> ratio_estimate(Known known, double carbon, double nitrogen,
                                       const std::vector<RatioPart>& parts, double missing_dry,
                                       Grade grade) {
    if (!(nitrogen > 0.0)) known.knowledge = Knowledge::unknown;
    if (known.knowledge == Knowledge::unknown) return estimate<double>(known, {}, grade, plain);
    const double typical = carbon / nitrogen;
    Range range = ratio_range(parts, typical).value_or(Range(typical));
    if (known.knowledge != Knowledge::known) range = bounded_ratio(range, nitrogen, missing_dry);
    return estimate<double>(known, range, grade, plain);
}

/// The sums of merged portions and their parts in the two ratios.
struct BlendParts {
    BlendSums sums;
    std::vector<RatioPart> total_ratio, available_ratio;
    /// Water over wet mass; empty where every mass was weighed.
    std::vector<RatioPart> moisture;

    explicit BlendParts(std::span<const Portion> parts) {
        bool weighed = true;
        total_ratio.reserve(parts.size());
        available_ratio.reserve(parts.size());
        for (const auto& portion : parts) {
            const Range wet = wet_range(portion);
            const Contribution one = contribution_of(*portion.feedstock);
            sums.add(wet, one, is_by_volume(portion));
            weighed = weighed && is_weighed(portion);
            if (one.total_ratio) total_ratio.push_back(wet * *one.total_ratio);
            if (one.available_ratio) available_ratio.push_back(wet * *one.available_ratio);
        }
        if (weighed) return;
        for (const auto& portion : parts) {
            const Contribution one = contribution_of(*portion.feedstock);
            const Range& water = one[Addend::water_kg];
            if (one.is_known(Addend::water_kg))
                moisture.push_back(wet_range(portion) * RatioPart{ends(1.0, 1.0, water.high, 1.0),
                                                                  ends(1.0, 1.0, water.low, 1.0)});
        }
    }
};

inline void set_ratios(BlendProperties& blend, const BlendParts& parts) {
    const BlendSums& sums = parts.sums;
    const Known known = known_part(sums, BlendQuantity::carbon_nitrogen);
    const double nitrogen = sums[Addend::nitrogen_kg].range.value;
    const double missing = sums.missing[static_cast<std::size_t>(BlendQuantity::carbon_nitrogen)];
    blend.cn_ratio = ratio_estimate(known, sums[Addend::carbon_kg].range.value, nitrogen,
                                    parts.total_ratio, missing, sums.ratio_grade);
    blend.available_cn_ratio = ratio_estimate(known, sums[Addend::available_carbon_kg].range.value,
                                              nitrogen, parts.available_ratio, missing,
                                              worst(sums.ratio_grade, sums.degradable_grade));
}

inline VolumeSums volume_sums(const BlendSums& sums) {
    return {sums[Addend::wet_kg].range,    sums.loose_bedding_m3.range,
            sums.loose_other_m3.range,     sums[Addend::phases_m3].range,
            sums.settled_bedding_m3.range, sums.settled_other_m3.range};
}

inline void set_volumes(BlendProperties& blend, const BlendSums& of) {
    const VolumeSums sums = volume_sums(of);
    const VolumeNumbers numbers = volume_numbers(sums);
    const bool mixed = sums.bedding.high > 0.0 && sums.other.high > 0.0;
    const Known known = known_part(of, BlendQuantity::volume);
    const Grade grade = worst(worst(of.loose_bedding_m3.grade, of.loose_other_m3.grade),
                              mixed ? Grade::d : Grade::a);
    blend.volume = estimate<Volume>(known, numbers.volume, grade,
                                    [](double number) { return cubic_metres(number); });
    const Known density_known = known_density(known, numbers.volume.value);
    blend.bulk_density =
        estimate<Density>(density_known, numbers.density, grade,
                          [](double number) { return kilograms_per_cubic_metre(number); });
    const Known air_known = known_air(density_known, blend.moisture.is_known(), sums);
    const Grade air_grade = worst(worst(grade, of[Addend::phases_m3].grade),
                                  worst(of.settled_bedding_m3.grade, of.settled_other_m3.grade));
    blend.free_air_space = estimate<double>(air_known, numbers.air, air_grade, plain);
}

/// Water over wet mass with its range.
inline Range moisture_range(const BlendParts& parts) {
    const Range& water = parts.sums[Addend::water_kg].range;
    const Range& wet = parts.sums[Addend::wet_kg].range;
    const double typical = water.value / wet.value;
    if (!parts.moisture.empty()) {
        if (const auto range = ratio_range(parts.moisture, typical)) return *range;
    }
    return {typical, water.low / wet.value, water.high / wet.value};
}

inline void set_masses(BlendProperties& blend, const BlendParts& parts) {
    const BlendSums& sums = parts.sums;
    const auto mass = [&](Addend addend, BlendQuantity quantity) {
        return estimate<Mass>(known_part(sums, quantity), sums[addend].range, sums[addend].grade,
                              [](double number) { return kilograms(number); });
    };
    blend.wet_mass = wet_kilograms(sums[Addend::wet_kg].range.value);
    blend.dry_mass = mass(Addend::dry_kg, BlendQuantity::moisture);
    blend.water = mass(Addend::water_kg, BlendQuantity::moisture);
    blend.moisture = estimate<Moisture>(known_part(sums, BlendQuantity::moisture),
                                        moisture_range(parts), sums[Addend::water_kg].grade,
                                        [](double number) { return Moisture(number); });
    blend.carbon = mass(Addend::carbon_kg, BlendQuantity::carbon_nitrogen);
    blend.nitrogen = mass(Addend::nitrogen_kg, BlendQuantity::carbon_nitrogen);
    blend.acid = mass(Addend::acid_kg, BlendQuantity::acid);
    blend.salt = mass(Addend::salt_kg, BlendQuantity::salt);
    blend.potassium = mass(Addend::potassium_kg, BlendQuantity::potassium);
    blend.fat = mass(Addend::fat_kg, BlendQuantity::fat);
    blend.volatile_solids = mass(Addend::volatile_solids_kg, BlendQuantity::volatile_solids);
    blend.neutralising = mass(Addend::neutralising_kg, BlendQuantity::neutralising);
}

inline void list_unknown(BlendProperties& blend) {
    const std::pair<const char*, bool> answers[] = {
        {"dry_mass_kg", blend.dry_mass.has_value()},
        {"water_kg", blend.water.has_value()},
        {"moisture", blend.moisture.has_value()},
        {"cn_ratio", blend.cn_ratio.has_value()},
        {"available_cn_ratio", blend.available_cn_ratio.has_value()},
        {"carbon_kg", blend.carbon.has_value()},
        {"nitrogen_kg", blend.nitrogen.has_value()},
        {"volume_l", blend.volume.has_value()},
        {"bulk_density_kg_m3", blend.bulk_density.has_value()},
        {"free_air_space", blend.free_air_space.has_value()},
        {"acid_g_citric", blend.acid.has_value()},
        {"salt_g", blend.salt.has_value()},
        {"potassium_g", blend.potassium.has_value()},
        {"fat_kg", blend.fat.has_value()},
        {"volatile_solids_kg", blend.volatile_solids.has_value()},
        {"neutralising_g_caco3", blend.neutralising.has_value()},
    };
    for (const auto& [key, answered] : answers) {
        if (!answered) blend.unknown.emplace_back(key);
    }
}

/// The numbers of a blend of merged portions; without what was assumed and what is unknown.
inline void set_numbers(BlendProperties& properties, std::span<const Portion> parts) {
    if (parts.empty()) return;
    const BlendParts made(parts);
    set_masses(properties, made);
    set_ratios(properties, made);
    set_volumes(properties, made.sums);
    for (const auto& part : parts)
        properties.cautions |= part.feedstock->cautions;
}

}  // namespace detail

/// The properties of portions together, each with typical value, range, grade and how much of it is
/// known. C:N is total carbon over total nitrogen; its range and that of moisture are exact for the
/// ranges of the feedstocks (see interval_sweep.hpp). Portions of one feedstock share its unknown
/// values. A quantity whose property is missing for up to `most_missing_share` of the mass it
/// concerns is a lower bound (`at_least`; its low and high are those of the known part), above that
/// it is unknown and named. Nothing in the blend gives unknown throughout; a blend without nitrogen
/// has no C:N. portions: masses of at least 0, any order. Time portions squared, for the merging.
/// Threads: pure.
inline BlendProperties blend(std::span<const Portion> portions) {
    const std::vector<Portion> parts = merged(portions);
    BlendProperties properties;
    detail::set_numbers(properties, parts);
    properties.take_out = taken_out(parts, Place::worm_bed);
    if (!parts.empty()) properties.assumed = detail::blend_assumptions(parts, properties);
    detail::list_unknown(properties);
    return properties;
}

/// The numbers of `blend`, to the same bits, without the sentences: for many blends in a row.
/// portions: as for `blend`. Threads: pure.
inline BlendProperties blend_numbers(std::span<const Portion> portions) {
    BlendProperties properties;
    detail::set_numbers(properties, merged(portions));
    return properties;
}

}  // namespace feed
