#pragma once
#include <algorithm>
#include <optional>
#include <span>
#include <vector>

#include "feed/blend/free_air_space.hpp"
#include "feed/blend/mix.hpp"
#include "feed/blend/parts.hpp"

namespace feed::detail {

/// Lowest and highest sum, and the worst grade among what is in it.
struct SumRange {
    Range range;
    Grade grade = Grade::a;

    void add(double low, double high, Grade with) {
        range.low += low;
        range.high += high;
        if (high != 0.0) grade = worst(grade, with);
    }
};

/// Ranges of the sums of a blend whose portions are merged; every range is reached at a corner of
/// the free quantities, because each sum is monotone in each of them.
struct BlendRanges {
    SumRange dry, water, carbon, nitrogen, acid, sodium, potassium, fat, volatile_solids,
        neutralising, bedding_m3, other_m3, phases_m3, settled_bedding_m3, settled_other_m3;
    double settled_bedding_typical_m3 = 0.0;
    double settled_other_typical_m3 = 0.0;
    double phases_typical_m3 = 0.0;
    std::vector<RatioPart> ratio_parts;  ///< counted share 1
    std::vector<Range> degradable;       ///< of each ratio part
    Grade degradable_grade = Grade::a;
};

/// A density with its range and whether a stated default stood in.
struct DensityRange {
    double value, low, high;
    Grade grade;
};

/// Settled density: the feedstock's own, or the loose one x the settling factor, never denser than
/// the material without air.
inline std::optional<DensityRange> settled_density(const Feedstock& feedstock, double compact) {
    const auto cap = [compact](double density) { return std::min(density, compact); };
    if (const auto& own = feedstock[Property::bulk_density_settled]) {
        const Range range = range_of(*own);
        return DensityRange{cap(own->value), cap(range.low), cap(range.high), own->grade};
    }
    const auto& loose = feedstock[Property::bulk_density_loose];
    if (!loose) return std::nullopt;
    const Range range = range_of(*loose);
    return DensityRange{cap(loose->value * settling_factor.value),
                        cap(range.low * settling_factor.low),
                        cap(range.high * settling_factor.high), Grade::d};
}

inline void add_wet_range(SumRange& sum, const std::optional<Datum>& datum, double wet) {
    if (!datum) return;
    const Range range = range_of(*datum);
    sum.add(wet * range.low, wet * range.high, datum->grade);
}

inline void add_ratio_part(BlendRanges& ranges, const Feedstock& feedstock, double wet,
                           const Datum& moisture) {
    const auto both = carbon_nitrogen_of(feedstock);
    if (!both || both->is_zero()) return;
    const Range wetness = range_of(moisture);
    const Grade grade = worst(both->grade, moisture.grade);
    const double least_dry = wet * (1.0 - wetness.high);
    const double most_dry = wet * (1.0 - wetness.low);
    const Range nitrogen = both->nitrogen_range();
    ranges.carbon.add(least_dry * both->carbon_range.low, most_dry * both->carbon_range.high,
                      grade);
    ranges.nitrogen.add(least_dry * nitrogen.low, most_dry * nitrogen.high, grade);
    RatioPart part{
        wet, wetness, both->carbon_range, both->cn_range, {1.0, 1.0}, both->nitrogen_free};
    Range degradable{};
    if (both->carbon_free) {
        // Nitrogen without carbon: the nitrogen stands where the carbon would and none of it
        // counts.
        part.carbon_dry = nitrogen;
        part.cn_ratio = {1.0, 1.0};
        part.counted_share = {0.0, 0.0};
    } else {
        const ShareRange share = degradable_range_of(feedstock);
        degradable = {share.low, share.high};
        ranges.degradable_grade = worst(ranges.degradable_grade, share.grade);
    }
    ranges.ratio_parts.push_back(part);
    ranges.degradable.push_back(degradable);
}

inline void add_solids(BlendRanges& ranges, const Feedstock& feedstock, double wet,
                       const Datum& moisture) {
    const Range wetness = range_of(moisture);
    const double least_dry = wet * (1.0 - wetness.high);
    const double most_dry = wet * (1.0 - wetness.low);
    ranges.dry.add(least_dry, most_dry, moisture.grade);
    ranges.water.add(wet * wetness.low, wet * wetness.high, moisture.grade);
    const ShareRange ash = ash_share(feedstock);
    const auto phases = [wet](double wet_share, double ash_share) {
        return wet * phase_volume_per_kilogram(Moisture(wet_share), DryFraction(ash_share)).value();
    };
    ranges.phases_m3.add(phases(wetness.low, ash.high), phases(wetness.high, ash.low),
                         moisture.grade);
    ranges.phases_typical_m3 += phases(moisture.value, ash.value);
    if (!ash.assumed)
        ranges.volatile_solids.add(least_dry * (1.0 - ash.high), most_dry * (1.0 - ash.low),
                                   worst(moisture.grade, ash.grade));
    if (const auto& fat = feedstock[Property::fat_dry]) {
        const Range range = range_of(*fat);
        ranges.fat.add(least_dry * range.low, most_dry * range.high,
                       worst(moisture.grade, fat->grade));
    } else {
        add_wet_range(ranges.fat, feedstock[Property::fat_wet], wet);
    }
}

inline void add_volume(BlendRanges& ranges, const Feedstock& feedstock, double wet) {
    const auto& loose = feedstock[Property::bulk_density_loose];
    if (fills_pores(feedstock) || !loose) return;
    const bool bedding = packs_as_bedding(feedstock);
    const Range range = range_of(*loose);
    (bedding ? ranges.bedding_m3 : ranges.other_m3)
        .add(wet / range.high, wet / range.low, loose->grade);
    const auto& moisture = feedstock[Property::moisture_wet];
    if (!moisture) return;
    const double compact =
        compact_density(Moisture(moisture->value), DryFraction(ash_share(feedstock).value)).value();
    const auto settled = settled_density(feedstock, compact);
    (bedding ? ranges.settled_bedding_m3 : ranges.settled_other_m3)
        .add(wet / settled->high, wet / settled->low, settled->grade);
    (bedding ? ranges.settled_bedding_typical_m3 : ranges.settled_other_typical_m3) +=
        wet / settled->value;
}

/// The ranges of a blend of merged portions. Time proportional to the portions.
inline BlendRanges ranges_of(std::span<const Portion> parts) {
    BlendRanges ranges;
    ranges.ratio_parts.reserve(parts.size());
    ranges.degradable.reserve(parts.size());
    for (const auto& portion : parts) {
        const Feedstock& feedstock = *portion.feedstock;
        const double wet = portion.wet_mass.in_kilograms();
        if (const auto& moisture = feedstock[Property::moisture_wet]) {
            add_solids(ranges, feedstock, wet, *moisture);
            add_ratio_part(ranges, feedstock, wet, *moisture);
        }
        add_wet_range(ranges.acid, feedstock[Property::titratable_acidity_wet], wet);
        add_wet_range(ranges.sodium, feedstock[Property::sodium_wet], wet);
        add_wet_range(ranges.potassium, feedstock[Property::potassium_wet], wet);
        add_wet_range(ranges.neutralising, feedstock[Property::neutralising_value_wet], wet);
        add_volume(ranges, feedstock, wet);
    }
    return ranges;
}

}  // namespace feed::detail
