#pragma once
#include <array>
#include <cstddef>
#include <span>

#include "feed/blend/contribution.hpp"
#include "feed/blend/free_air_space.hpp"
#include "feed/blend/portion.hpp"

namespace feed {

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

/// A sum with its range, and the worst grade among what is in it.
struct GradedSum {
    Range range;
    Grade grade = Grade::a;

    constexpr void add(const Range& wet_kg, const Range& per_kg, Grade with) noexcept {
        range.value += wet_kg.value * per_kg.value;
        range.low += wet_kg.low * per_kg.low;
        range.high += wet_kg.high * per_kg.high;
        if (per_kg.high != 0.0) grade = worst(grade, with);
    }
};

/// Sums of the contributions of portions. Every range is reached at a corner of the free
/// quantities, because each sum is monotone in each of them. What is not known is left out of the
/// sums and counted beside them.
struct BlendSums {
    std::array<GradedSum, addend_count> of;
    GradedSum loose_bedding_m3, loose_other_m3, settled_bedding_m3, settled_other_m3;
    std::array<double, blend_quantity_count> concerned{};
    std::array<double, blend_quantity_count> missing{};
    Grade ratio_grade = Grade::a;
    Grade degradable_grade = Grade::a;

    const GradedSum& operator[](Addend addend) const noexcept {
        return of[static_cast<std::size_t>(addend)];
    }

    /// @param by_volume  the loose volume was measured, not the mass.
    void add(const Range& wet_kg, const Contribution& one, bool by_volume) noexcept {
        for (std::size_t a = 0; a < addend_count; ++a) {
            if (one.is_known(static_cast<Addend>(a)))
                of[a].add(wet_kg, one.per_kg[a], one.grades[a]);
        }
        const bool bedding = one.part == Part::bedding;
        const auto volume = [&](Addend addend, GradedSum& sum) {
            if (one.is_known(addend))
                sum.add(wet_kg, one[addend], one.grades[static_cast<std::size_t>(addend)]);
        };
        GradedSum& loose = bedding ? loose_bedding_m3 : loose_other_m3;
        if (by_volume && one.is_known(Addend::loose_m3))
            loose.add(Range(wet_kg.value), Range(one[Addend::loose_m3].value),
                      one.grades[static_cast<std::size_t>(Addend::loose_m3)]);
        else
            volume(Addend::loose_m3, loose);
        volume(Addend::settled_m3, bedding ? settled_bedding_m3 : settled_other_m3);
        for (std::size_t q = 0; q < blend_quantity_count; ++q) {
            concerned[q] += wet_kg.value * one.concerned[q];
            missing[q] += wet_kg.value * one.missing[q];
        }
        ratio_grade = worst(ratio_grade, one.ratio_grade);
        degradable_grade = worst(degradable_grade, one.degradable_grade);
    }
};

/// Loose volume of a blend, m3: what its parts take in one another, and at least what water,
/// organic matter and ash take without air.
constexpr double loose_volume_m3(double bedding_m3, double other_m3, double phases_m3) noexcept {
    const double packed =
        packed_volume(cubic_metres(bedding_m3), cubic_metres(other_m3), assumed::packing_loss.value)
            .value();
    return packed > phases_m3 ? packed : phases_m3;
}

inline BlendTotals totals_of(const BlendSums& sums) noexcept {
    const auto mass = [&](Addend addend) { return kilograms(sums[addend].range.value); };
    BlendTotals totals;
    totals.wet_mass = wet_kilograms(sums[Addend::wet_kg].range.value);
    totals.dry_mass = mass(Addend::dry_kg);
    totals.water = mass(Addend::water_kg);
    totals.carbon = mass(Addend::carbon_kg);
    totals.nitrogen = mass(Addend::nitrogen_kg);
    totals.available_carbon = mass(Addend::available_carbon_kg);
    totals.acid = mass(Addend::acid_kg);
    totals.salt = mass(Addend::salt_kg);
    totals.potassium = mass(Addend::potassium_kg);
    totals.fat = mass(Addend::fat_kg);
    totals.volatile_solids = mass(Addend::volatile_solids_kg);
    totals.neutralising = mass(Addend::neutralising_kg);
    totals.volume = cubic_metres(loose_volume_m3(sums.loose_bedding_m3.range.value,
                                                 sums.loose_other_m3.range.value,
                                                 sums[Addend::phases_m3].range.value));
    for (std::size_t q = 0; q < blend_quantity_count; ++q) {
        totals.concerned[q] = kilograms(sums.concerned[q]);
        totals.missing[q] = kilograms(sums.missing[q]);
    }
    return totals;
}

/// The wet mass of a portion with its range, kg.
inline Range wet_range(const Portion& portion) noexcept {
    const double typical = portion.wet_mass.in_kilograms();
    return Range(typical, portion.low_share * typical, portion.high_share * typical).around_value();
}

inline bool is_weighed(const Portion& portion) noexcept {
    return portion.low_share == 1.0 && portion.high_share == 1.0;
}

/// Whether a portion was measured by its loose volume: then its mass may lie where its density may.
inline bool is_by_volume(const Portion& portion) noexcept {
    const auto& density = (*portion.feedstock)[Property::bulk_density_loose];
    if (is_weighed(portion) || !density) return false;
    constexpr double trifle = 1e-9;
    const auto near = [](double a, double b) { return a - b < trifle && b - a < trifle; };
    return near(portion.low_share, density->low / density->value) &&
           near(portion.high_share, density->high / density->value);
}

}  // namespace detail

/// Totals of a blend at typical values, without intervals. Sums run in the order of the portions.
/// The volume is loose: scraps and bedding pack into one another, free water fills their pores, and
/// it is never less than water and solids take without air. portions: masses of at least 0; empty
/// gives zeros. Time proportional to the portions; allocates nothing. Threads: pure.
inline BlendTotals mix(std::span<const Portion> portions) noexcept {
    detail::BlendSums sums;
    for (const auto& portion : portions) {
        if (portion.wet_mass.in_kilograms() > 0.0)
            sums.add(detail::wet_range(portion), contribution_of(*portion.feedstock),
                     detail::is_by_volume(portion));
    }
    return detail::totals_of(sums);
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
