#pragma once
#include <array>
#include <cmath>
#include <span>

#include "feed/bed/limits.hpp"
#include "feed/bed/pool_rates.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/blend/portion.hpp"
#include "feed/feedstock/part.hpp"

namespace feed {

/// What a feeding brings into a bed: sums over its portions, so that a part of a feeding, two
/// feedings, or a feeding and an addition are a product and a sum of loads.
struct Load {
    double wet_kg = 0.0;
    double poured_kg = 0.0;  ///< water poured in
    double scraps_wet_kg = 0.0;
    Ranged dry_kg;
    Ranged water_kg;
    Ranged free_water_kg;     ///< poured in, or leaving the scraps as they collapse
    Ranged bedding_water_kg;  ///< already in the bedding
    Ranged capacity_kg;       ///< water that the bedding can hold
    Ranged acid_g;            ///< titratable, as citric acid
    Ranged labile_kg;  ///< labile volatile solids of the scraps; of bedding only where it heats
    Ranged lime_g;     ///< CaCO3 that acts
    Ranged surplus_nitrogen_g;  ///< freed less taken up in the horizon; negative: short of nitrogen
    Ranged salt_kg;             ///< NaCl
    Ranged fat_kg;
    double settled_m3 = 0.0;         ///< volume after settling and collapse
    double scraps_settled_m3 = 0.0;  ///< of the scraps before they collapse
    double solids_m3 = 0.0;
    // Wet mass of scraps (and guarded materials) without a figure, by property.
    double nitrogen_missing_kg = 0.0;
    double salt_missing_kg = 0.0;
    double fat_missing_kg = 0.0;
    double acid_guessed_kg = 0.0;
    double capacity_guessed_kg = 0.0;
    Grade grade = Grade::a;

    constexpr Load& add(const Load& b, double times) noexcept {
        wet_kg += times * b.wet_kg;
        poured_kg += times * b.poured_kg;
        scraps_wet_kg += times * b.scraps_wet_kg;
        dry_kg += times * b.dry_kg;
        water_kg += times * b.water_kg;
        free_water_kg += times * b.free_water_kg;
        bedding_water_kg += times * b.bedding_water_kg;
        capacity_kg += times * b.capacity_kg;
        acid_g += times * b.acid_g;
        labile_kg += times * b.labile_kg;
        lime_g += times * b.lime_g;
        surplus_nitrogen_g += times * b.surplus_nitrogen_g;
        salt_kg += times * b.salt_kg;
        fat_kg += times * b.fat_kg;
        settled_m3 += times * b.settled_m3;
        scraps_settled_m3 += times * b.scraps_settled_m3;
        solids_m3 += times * b.solids_m3;
        nitrogen_missing_kg += times * b.nitrogen_missing_kg;
        salt_missing_kg += times * b.salt_missing_kg;
        fat_missing_kg += times * b.fat_missing_kg;
        acid_guessed_kg += times * b.acid_guessed_kg;
        capacity_guessed_kg += times * b.capacity_guessed_kg;
        if (times > 0.0) grade = worst(grade, b.grade);
        return *this;
    }
};

/// Share of each pool that decays until the next feeding, the same for every portion.
using DecayedShares = std::array<double, 3>;

inline DecayedShares decayed_shares(double horizon_days) noexcept {
    DecayedShares shares{};
    for (std::size_t p = 0; p < shares.size(); ++p)
        shares[p] = 1.0 - std::exp(-pool_rates[p].rate_per_day.value * horizon_days);
    return shares;
}

namespace detail {

/// Labile, cellulosic and lignin-like shares where the table has none (judgement).
constexpr std::array<double, 3> usual_pools(DecayClass decay_class) noexcept {
    switch (decay_class) {
        case DecayClass::inert:
            return {0.0, 0.0, 0.0};
        case DecayClass::fast:
            return {0.78, 0.20, 0.02};
        case DecayClass::medium:
            return {0.50, 0.44, 0.06};
        case DecayClass::slow:
            return {0.16, 0.66, 0.18};
        case DecayClass::very_slow:
            return {0.04, 0.56, 0.40};
    }
    return {0.0, 0.0, 0.0};
}

inline Ranged datum_or(const Feedstock& f, Property property, const Ranged& usual) noexcept {
    const auto& datum = f[property];
    return datum ? Ranged(*datum) : usual;
}

/// Ammonia nitrogen that the decay of a portion frees less what its microbes take up: for each pool
/// the decayed carbon times (N/C - (1 - respired)/C:N of the product). CLM5 technical note, eq.
/// 21.12.
inline Ranged surplus_nitrogen_kg(const Feedstock& f, double dry_kg,
                                  const std::array<double, 3>& pools,
                                  const DecayedShares& decayed) noexcept {
    const Ranged nitrogen = datum_or(f, Property::nitrogen_dry, Ranged(0.0));
    const auto& carbon_datum = f[Property::carbon_dry];
    const double carbon = carbon_datum ? carbon_datum->value : 0.0;
    double decaying = 0.0;
    double taken_up = 0.0;
    for (std::size_t p = 0; p < pools.size(); ++p) {
        decaying += pools[p] * decayed[p];
        taken_up += pools[p] * decayed[p] * carbon * (1.0 - pool_rates[p].respired_share) /
                    pool_rates[p].castings_cn;
    }
    return (dry_kg * decaying) * nitrogen - Ranged(dry_kg * taken_up);
}

inline void add_guessed_acid(Load& load, const Feedstock& f, double wet_kg) noexcept {
    load.acid_guessed_kg += wet_kg;
    load.grade = Grade::d;
    load.acid_g += wet_kg * Ranged(f.has(Caution::acidity) ? limits::unknown_acid_sour
                                                           : limits::unknown_acid_mild);
}

}  // namespace detail

/// Load of a wet mass of one feedstock. Constant time, no allocation.
/// @param wet_kg   wet mass, at least 0.
/// @param decayed  from decayed_shares.
inline Load load_of(const Feedstock& f, double wet_kg, const DecayedShares& decayed) noexcept {
    Load load;
    const Part part = part_of(f);
    load.wet_kg = wet_kg;
    const auto& moisture_datum = f[Property::moisture_wet];
    if (moisture_datum)
        load.grade = worst(load.grade, moisture_datum->grade);
    else
        load.grade = Grade::d;
    const Ranged moisture = moisture_datum               ? Ranged(*moisture_datum)
                            : part == Part::poured_water ? Ranged(1.0)
                                                         : Ranged(0.5, 0.05, 0.95);
    load.water_kg = wet_kg * moisture;
    load.dry_kg = wet_kg * moisture.rest();
    const double dry = load.dry_kg.value;

    std::array<double, 3> pools = detail::usual_pools(f.decay_class);
    constexpr Property shares[] = {Property::labile_share, Property::cellulosic_share,
                                   Property::lignin_like_share};
    for (std::size_t p = 0; p < pools.size(); ++p) {
        if (const auto& share = f[shares[p]]) pools[p] = share->value;
    }
    const double ash =
        detail::datum_or(f, Property::ash_dry, part == Part::amendment ? Ranged(1.0) : Ranged(0.06))
            .value;
    const double organic = 1.0 - ash;
    const Ranged labile =
        detail::datum_or(f, Property::labile_share, {pools[0], 0.7 * pools[0], 1.3 * pools[0]});
    // Paper, straw and leaves are too short of nitrogen to heat or sour a bed.
    if (part != Part::bedding || f.has(Caution::heating))
        load.labile_kg = organic * (load.dry_kg * labile);
    load.surplus_nitrogen_g = 1000.0 * detail::surplus_nitrogen_kg(f, dry, pools, decayed);

    if (const auto& lime = f[Property::neutralising_value_wet]) {
        const bool coarse = f.has(Caution::sharp) && !f.has(Caution::dust);
        load.lime_g =
            (1000.0 * wet_kg) * (Ranged(*lime) * Ranged(coarse ? limits::coarse_lime_acting
                                                               : limits::ground_lime_acting));
    }
    if (const auto& sodium = f[Property::sodium_wet])
        load.salt_kg = (wet_kg * limits::salt_of_sodium.value) * Ranged(*sodium);
    if (const auto& fat = f[Property::fat_dry])
        load.fat_kg = load.dry_kg * Ranged(*fat);
    else if (const auto& fresh = f[Property::fat_wet])
        load.fat_kg = wet_kg * Ranged(*fresh);

    load.solids_m3 =
        dry * (organic / limits::organic_density.value + ash / limits::ash_density.value);
    const auto& settled = f[Property::bulk_density_settled];
    const auto& loose = f[Property::bulk_density_loose];
    const double usual_density = part == Part::bedding ? 150.0 : 700.0;
    const double density = settled ? settled->value
                           : loose ? loose->value * limits::settled_over_loose.value
                                   : usual_density;
    const double volume = wet_kg / density;

    switch (part) {
        case Part::poured_water:
            load.free_water_kg = load.water_kg;
            load.poured_kg = load.water_kg.value;
            break;
        case Part::amendment:
            load.settled_m3 = volume;
            break;
        case Part::bedding: {
            load.bedding_water_kg = load.water_kg;
            load.settled_m3 = volume;
            const auto& holding = f[Property::water_holding_capacity_dry];
            load.capacity_kg = load.dry_kg * (holding ? Ranged(*holding)
                                                      : Ranged(limits::unknown_bedding_capacity));
            if (!holding) {
                load.capacity_guessed_kg = wet_kg;
                load.grade = Grade::d;
            }
            if (const auto& acid = f[Property::titratable_acidity_wet])
                load.acid_g = (1000.0 * wet_kg) * Ranged(*acid);
            else if (f.has(Caution::acidity))
                detail::add_guessed_acid(load, f, wet_kg);
            break;
        }
        case Part::scraps:
            load.scraps_wet_kg = wet_kg;
            load.free_water_kg = load.water_kg * Ranged(limits::released_water_share);
            load.scraps_settled_m3 = volume;
            load.settled_m3 = limits::collapsed_scraps_volume.value * volume;
            if (const auto& acid = f[Property::titratable_acidity_wet])
                load.acid_g = (1000.0 * wet_kg) * Ranged(*acid);
            else
                detail::add_guessed_acid(load, f, wet_kg);
            if (!f[Property::nitrogen_dry] || !f[Property::carbon_dry])
                load.nitrogen_missing_kg = wet_kg;
            if (!f[Property::sodium_wet]) load.salt_missing_kg = wet_kg;
            if (!f[Property::fat_dry] && !f[Property::fat_wet]) load.fat_missing_kg = wet_kg;
            break;
    }
    return load;
}

/// Load of portions, in their order. Linear, no allocation.
inline Load load_of(std::span<const Portion> portions, const DecayedShares& decayed) noexcept {
    Load sum;
    for (const Portion& portion : portions)
        sum.add(load_of(*portion.feedstock, portion.wet_mass.in_kilograms(), decayed), 1.0);
    return sum;
}

}  // namespace feed
