#pragma once
#include <array>
#include <cstddef>
#include <optional>
#include <span>

#include "feed/blend/available_carbon.hpp"
#include "feed/blend/free_air_space.hpp"
#include "feed/blend/portion.hpp"

namespace feed {

/// Salt, as NaCl, in a mass of sodium: 58.44 / 22.99 by molar mass.
inline constexpr double salt_per_sodium = 2.54;

/// What a blend total is about, for the share of it that is known.
enum class BlendQuantity : std::uint8_t {
    moisture,
    carbon_nitrogen,
    acid,
    salt,
    potassium,
    fat,
    volatile_solids,
    neutralising,
    volume,
};
inline constexpr std::size_t blend_quantity_count = 9;

/// Sums over the portions at typical values; what is missing is counted beside them.
struct BlendTotals {
    WetMass wet_mass;
    Mass dry_mass = kilograms(0.0);
    Mass water = kilograms(0.0);
    Mass carbon = kilograms(0.0);            ///< of portions whose C and N are known
    Mass nitrogen = kilograms(0.0);          ///< of portions whose C and N are known
    Mass available_carbon = kilograms(0.0);  ///< degradable share of `carbon`
    Mass acid = kilograms(0.0);              ///< titratable, as citric acid
    Mass salt = kilograms(0.0);              ///< as NaCl
    Mass potassium = kilograms(0.0);
    Mass fat = kilograms(0.0);
    Mass volatile_solids = kilograms(0.0);
    Mass neutralising = kilograms(0.0);  ///< as CaCO3
    Volume volume = cubic_metres(0.0);   ///< loose, packed
    /// Mass (wet, or dry for dry-basis properties) of portions that have something of the quantity:
    /// a definitional zero, such as the acid of paper, does not concern it.
    std::array<Mass, blend_quantity_count> concerned{};
    /// Part of `concerned` whose property is not known.
    std::array<Mass, blend_quantity_count> missing{};
};

namespace detail {

/// Plain sums inside mix: one place for the additions, no units in the loop.
struct MixSums {
    double wet = 0, dry = 0, water = 0, carbon = 0, nitrogen = 0, available = 0, acid = 0,
           sodium = 0, potassium = 0, fat = 0, volatile_solids = 0, neutralising = 0,
           bedding_m3 = 0, other_m3 = 0, ash = 0;
    std::array<double, blend_quantity_count> concerned{};
    std::array<double, blend_quantity_count> missing{};

    /// Adds `mass` x the property to `sum`, or counts the mass as missing.
    void add(BlendQuantity quantity, const std::optional<Datum>& datum, double mass, double& sum) {
        const auto at = static_cast<std::size_t>(quantity);
        if (!datum) {
            concerned[at] += mass;
            missing[at] += mass;
        } else {
            sum += mass * datum->value;
            if (datum->high != 0.0) concerned[at] += mass;
        }
    }
    void miss(BlendQuantity quantity, double mass) {
        concerned[static_cast<std::size_t>(quantity)] += mass;
        missing[static_cast<std::size_t>(quantity)] += mass;
    }
    void concern(BlendQuantity quantity, double mass) {
        concerned[static_cast<std::size_t>(quantity)] += mass;
    }
};

/// Typical carbon and nitrogen of a feedstock's dry mass, kg/kg.
struct TypicalCarbonNitrogen {
    double carbon_dry = 0.0;
    double nitrogen_dry = 0.0;

    bool is_zero() const noexcept { return carbon_dry == 0.0 && nitrogen_dry == 0.0; }
};

/// From two of carbon, nitrogen and C:N; nothing when fewer are known.
inline std::optional<TypicalCarbonNitrogen> typical_carbon_nitrogen(const Feedstock& feedstock) {
    const auto& carbon = feedstock[Property::carbon_dry];
    const auto& nitrogen = feedstock[Property::nitrogen_dry];
    const auto& ratio = feedstock[Property::cn_ratio];
    if (carbon && nitrogen) return TypicalCarbonNitrogen{carbon->value, nitrogen->value};
    if (ratio && carbon && ratio->value > 0.0)
        return TypicalCarbonNitrogen{carbon->value, carbon->value / ratio->value};
    if (ratio && nitrogen)
        return TypicalCarbonNitrogen{nitrogen->value * ratio->value, nitrogen->value};
    return std::nullopt;
}

inline void add_carbon_nitrogen(MixSums& sums, const Feedstock& feedstock, double dry) {
    const auto both = typical_carbon_nitrogen(feedstock);
    if (!both) {
        sums.miss(BlendQuantity::carbon_nitrogen, dry);
        return;
    }
    if (both->is_zero()) return;
    sums.concern(BlendQuantity::carbon_nitrogen, dry);
    sums.carbon += dry * both->carbon_dry;
    sums.nitrogen += dry * both->nitrogen_dry;
    sums.available += dry * both->carbon_dry * degradable_share_of(feedstock);
}

inline void add_dry_basis(MixSums& sums, const Feedstock& feedstock, double wet, double moisture) {
    const double dry = wet * (1.0 - moisture);
    sums.concern(BlendQuantity::moisture, wet);
    sums.water += wet * moisture;
    sums.dry += dry;
    if (dry <= 0.0) return;
    add_carbon_nitrogen(sums, feedstock, dry);
    const auto& ash = feedstock[Property::ash_dry];
    if (ash) {
        sums.volatile_solids += dry * (1.0 - ash->value);
        sums.ash += dry * ash->value;
        sums.concern(BlendQuantity::volatile_solids, dry);
    } else {
        sums.ash += dry * default_ash.value;
        sums.miss(BlendQuantity::volatile_solids, dry);
    }
    if (const auto& fat = feedstock[Property::fat_dry]; fat || !feedstock[Property::fat_wet])
        sums.add(BlendQuantity::fat, fat, dry, sums.fat);
    else
        sums.add(BlendQuantity::fat, feedstock[Property::fat_wet], wet, sums.fat);
}

/// Only minerals are asked for a neutralising value; what lives has none to speak of.
inline bool concerns_neutralising(const Feedstock& feedstock) {
    return feedstock[Property::neutralising_value_wet] ||
           (feedstock.decay_class == DecayClass::inert && part_of(feedstock) == Part::amendment);
}

/// Loose volume of a blend, m3: what its parts take in one another, and at least what water,
/// organic matter and ash take without air. Masses in kg.
constexpr double loose_volume_m3(double bedding_m3, double other_m3, double water, double dry,
                                 double ash) {
    const double phases =
        water / water_kg_per_m3 + (dry - ash) / organic_kg_per_m3 + ash / ash_kg_per_m3;
    const double packed =
        packed_volume(cubic_metres(bedding_m3), cubic_metres(other_m3), packing_loss.value).value();
    return packed > phases ? packed : phases;
}

inline void add_portion(MixSums& sums, const Feedstock& feedstock, double wet) {
    sums.wet += wet;
    if (const auto& moisture = feedstock[Property::moisture_wet]) {
        add_dry_basis(sums, feedstock, wet, moisture->value);
    } else {
        for (const auto quantity : {BlendQuantity::moisture, BlendQuantity::carbon_nitrogen,
                                    BlendQuantity::volatile_solids, BlendQuantity::fat})
            sums.miss(quantity, wet);
    }
    sums.add(BlendQuantity::acid, feedstock[Property::titratable_acidity_wet], wet, sums.acid);
    sums.add(BlendQuantity::salt, feedstock[Property::sodium_wet], wet, sums.sodium);
    sums.add(BlendQuantity::potassium, feedstock[Property::potassium_wet], wet, sums.potassium);
    if (concerns_neutralising(feedstock))
        sums.add(BlendQuantity::neutralising, feedstock[Property::neutralising_value_wet], wet,
                 sums.neutralising);
    if (fills_pores(feedstock)) return;
    if (const auto& density = feedstock[Property::bulk_density_loose]) {
        sums.concern(BlendQuantity::volume, wet);
        (packs_as_bedding(feedstock) ? sums.bedding_m3 : sums.other_m3) += wet / density->value;
    } else {
        sums.miss(BlendQuantity::volume, wet);
    }
}

}  // namespace detail

/// Totals of a blend at typical values, without intervals. Sums run in the order of the portions.
/// The volume is loose: scraps and bedding pack into one another, free water fills their pores, and
/// it is never less than water and solids take without air. portions: masses of at least 0; empty
/// gives zeros. Time proportional to the portions; allocates nothing. Threads: pure.
inline BlendTotals mix(std::span<const Portion> portions) noexcept {
    detail::MixSums sums;
    for (const auto& portion : portions) {
        if (portion.wet_mass.in_kilograms() > 0.0)
            detail::add_portion(sums, *portion.feedstock, portion.wet_mass.in_kilograms());
    }
    BlendTotals totals;
    totals.wet_mass = wet_kilograms(sums.wet);
    totals.dry_mass = kilograms(sums.dry);
    totals.water = kilograms(sums.water);
    totals.carbon = kilograms(sums.carbon);
    totals.nitrogen = kilograms(sums.nitrogen);
    totals.available_carbon = kilograms(sums.available);
    totals.acid = kilograms(sums.acid);
    totals.salt = kilograms(sums.sodium * salt_per_sodium);
    totals.potassium = kilograms(sums.potassium);
    totals.fat = kilograms(sums.fat);
    totals.volatile_solids = kilograms(sums.volatile_solids);
    totals.neutralising = kilograms(sums.neutralising);
    totals.volume = cubic_metres(
        detail::loose_volume_m3(sums.bedding_m3, sums.other_m3, sums.water, sums.dry, sums.ash));
    for (std::size_t i = 0; i < blend_quantity_count; ++i) {
        totals.concerned[i] = kilograms(sums.concerned[i]);
        totals.missing[i] = kilograms(sums.missing[i]);
    }
    return totals;
}

/// Total carbon over total nitrogen, or 0 where there is no nitrogen. Never a mean of ratios.
constexpr double cn_ratio(const BlendTotals& totals) {
    return totals.nitrogen.value() > 0.0 ? totals.carbon.value() / totals.nitrogen.value() : 0.0;
}

/// Water over wet mass of a blend.
constexpr Moisture moisture(const BlendTotals& totals) {
    const double wet = totals.wet_mass.in_kilograms();
    return Moisture(wet > 0.0 ? totals.water.value() / wet : 0.0);
}

}  // namespace feed
