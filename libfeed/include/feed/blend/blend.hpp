#pragma once
#include <algorithm>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "feed/blend/blend_assumptions.hpp"
#include "feed/blend/blend_intervals.hpp"
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

inline Known known_part(const BlendTotals& totals, BlendQuantity quantity) {
    const auto at = static_cast<std::size_t>(quantity);
    return known_from(totals.concerned[at].value(), totals.missing[at].value());
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
Estimate<T> estimate(Known known, double value, Range range, Grade grade, Make make) {
    Estimate<T> made;
    made.knowledge = known.knowledge;
    made.covered = known.covered;
    made.grade = grade;
    if (known.knowledge == Knowledge::unknown) return made;
    made.value = make(value);
    made.low = make(std::min(range.low, value));
    made.high = make(std::max(range.high, value));
    return made;
}

inline constexpr auto plain = [](double number) { return number; };

inline Estimate<Mass> mass_estimate(Known known, Mass value, const SumRange& sum,
                                    double factor = 1.0) {
    return estimate<Mass>(known, value.value(), {factor * sum.range.low, factor * sum.range.high},
                          sum.grade, [](double number) { return kilograms(number); });
}

/// A C:N ratio from below: a missing part counts as pure protein. Masses in kg.
inline NumberRange3 bounded_ratio(double typical, Range range, double nitrogen,
                                  double missing_dry) {
    const auto bounded = [&](double ratio) {
        return (ratio * nitrogen + protein_carbon * missing_dry) /
               (nitrogen + protein_nitrogen * missing_dry);
    };
    return {bounded(typical), {bounded(range.low), range.high}};
}

/// Carbon over nitrogen. Where a part is missing, the lower bound counts it as pure protein.
inline Estimate<double> ratio_estimate(Known known, double carbon, double nitrogen,
                                       const std::vector<RatioPart>& parts, double missing_dry,
                                       Grade grade) {
    if (!(nitrogen > 0.0)) known.knowledge = Knowledge::unknown;
    if (known.knowledge == Knowledge::unknown) return estimate<double>(known, 0, {}, grade, plain);
    const double typical = carbon / nitrogen;
    const Range range = ratio_range(parts, typical).value_or(Range{typical, typical});
    if (known.knowledge == Knowledge::known)
        return estimate<double>(known, typical, range, grade, plain);
    const NumberRange3 bounded = bounded_ratio(typical, range, nitrogen, missing_dry);
    return estimate<double>(known, bounded.value, bounded.range, grade, plain);
}

inline void set_ratios(BlendProperties& blend, const BlendTotals& totals, BlendRanges& ranges) {
    const Known known = known_part(totals, BlendQuantity::carbon_nitrogen);
    const double nitrogen = totals.nitrogen.value();
    const double missing =
        totals.missing[static_cast<std::size_t>(BlendQuantity::carbon_nitrogen)].value();
    const Grade grade = worst(ranges.carbon.grade, ranges.nitrogen.grade);
    blend.cn_ratio =
        ratio_estimate(known, totals.carbon.value(), nitrogen, ranges.ratio_parts, missing, grade);
    for (std::size_t i = 0; i < ranges.ratio_parts.size(); ++i)
        ranges.ratio_parts[i].counted_share = ranges.degradable[i];
    blend.available_cn_ratio =
        ratio_estimate(known, totals.available_carbon.value(), nitrogen, ranges.ratio_parts,
                       missing, worst(grade, ranges.degradable_grade));
}

inline VolumeSums volume_sums(const BlendTotals& totals, const BlendRanges& ranges) {
    return {totals.wet_mass.in_kilograms(),  totals.volume.value(),
            ranges.bedding_m3.range,         ranges.other_m3.range,
            ranges.phases_m3.range,          ranges.settled_bedding_m3.range,
            ranges.settled_other_m3.range,   ranges.settled_bedding_typical_m3,
            ranges.settled_other_typical_m3, ranges.phases_typical_m3};
}

inline void set_volumes(BlendProperties& blend, const BlendTotals& totals,
                        const BlendRanges& ranges) {
    const VolumeSums sums = volume_sums(totals, ranges);
    const VolumeNumbers numbers = volume_numbers(sums);
    const bool mixed = sums.bedding.high > 0.0 && sums.other.high > 0.0;
    const Known known = known_part(totals, BlendQuantity::volume);
    const Grade grade =
        worst(worst(ranges.bedding_m3.grade, ranges.other_m3.grade), mixed ? Grade::d : Grade::a);
    blend.volume = estimate<Volume>(known, numbers.volume.value, numbers.volume.range, grade,
                                    [](double number) { return cubic_metres(number); });
    const Known density_known = known_density(known, sums.loose);
    blend.bulk_density =
        estimate<Density>(density_known, numbers.density.value, numbers.density.range, grade,
                          [](double number) { return kilograms_per_cubic_metre(number); });
    const Known air_known = known_air(density_known, blend.moisture.is_known(), sums);
    const Grade air_grade =
        worst(worst(grade, ranges.phases_m3.grade),
              worst(ranges.settled_bedding_m3.grade, ranges.settled_other_m3.grade));
    blend.free_air_space =
        estimate<double>(air_known, numbers.air.value, numbers.air.range, air_grade, plain);
}

inline void set_masses(BlendProperties& blend, const BlendTotals& totals,
                       const BlendRanges& ranges) {
    const Known moisture_known = known_part(totals, BlendQuantity::moisture);
    const Known element_known = known_part(totals, BlendQuantity::carbon_nitrogen);
    blend.dry_mass = mass_estimate(moisture_known, totals.dry_mass, ranges.dry);
    blend.water = mass_estimate(moisture_known, totals.water, ranges.water);
    const double wet = totals.wet_mass.in_kilograms();
    blend.moisture =
        estimate<Moisture>(moisture_known, moisture(totals).value(),
                           {ranges.water.range.low / wet, ranges.water.range.high / wet},
                           ranges.water.grade, [](double number) { return Moisture(number); });
    blend.carbon = mass_estimate(element_known, totals.carbon, ranges.carbon);
    blend.nitrogen = mass_estimate(element_known, totals.nitrogen, ranges.nitrogen);
    blend.acid = mass_estimate(known_part(totals, BlendQuantity::acid), totals.acid, ranges.acid);
    blend.salt = mass_estimate(known_part(totals, BlendQuantity::salt), totals.salt, ranges.sodium,
                               salt_per_sodium);
    blend.potassium = mass_estimate(known_part(totals, BlendQuantity::potassium), totals.potassium,
                                    ranges.potassium);
    blend.fat = mass_estimate(known_part(totals, BlendQuantity::fat), totals.fat, ranges.fat);
    blend.volatile_solids = mass_estimate(known_part(totals, BlendQuantity::volatile_solids),
                                          totals.volatile_solids, ranges.volatile_solids);
    blend.neutralising = mass_estimate(known_part(totals, BlendQuantity::neutralising),
                                       totals.neutralising, ranges.neutralising);
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
    const BlendTotals totals = mix(parts);
    BlendRanges ranges = ranges_of(parts);
    properties.wet_mass = totals.wet_mass;
    set_masses(properties, totals, ranges);
    set_ratios(properties, totals, ranges);
    set_volumes(properties, totals, ranges);
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
