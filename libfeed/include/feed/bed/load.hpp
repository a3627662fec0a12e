#pragma once
#include <array>
#include <cmath>
#include <span>

#include "feed/bed/limits.hpp"
#include "feed/bed/pool_rates.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/blend/contribution.hpp"
#include "feed/blend/portion.hpp"

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

/// Share of each pool that decays until the next feeding, the same for every portion of one bed.
using DecayedShares = std::array<double, 3>;

/// @param speed  of the bed against 25 C: its temperature factor (BedNumbers::decay_speed).
inline DecayedShares decayed_shares(double horizon_days, double speed) noexcept {
    DecayedShares shares{};
    for (std::size_t p = 0; p < shares.size(); ++p)
        shares[p] = 1.0 - std::exp(-pool_rates[p].rate_per_day.value * speed * horizon_days);
    return shares;
}

namespace detail {

/// Ammonia nitrogen that the decay of one kilogram dry frees less what its microbes take up, kg:
/// for each pool the decayed carbon times (N/C - (1 - respired)/C:N of the product). CLM5 technical
/// note, eq. 21.12.
inline Ranged surplus_nitrogen(const Feedstock& f, const DecayedShares& decayed) noexcept {
    const auto both = carbon_nitrogen_of(f);
    const double carbon = both ? both->carbon.value : taken(f, Property::carbon_dry)->range.value;
    const std::array<double, 3> pools = pool_shares(f);
    double decaying = 0.0;
    double taken_up = 0.0;
    for (std::size_t p = 0; p < pools.size(); ++p) {
        decaying += pools[p] * decayed[p];
        taken_up += pools[p] * decayed[p] * carbon * (1.0 - pool_rates[p].respired_share) /
                    pool_rates[p].castings_cn;
    }
    return decaying * (both ? both->nitrogen : Ranged()) - Ranged(taken_up);
}

/// Whether what is labile in a feedstock heats and sours a bed: paper, straw and leaves are too
/// short of nitrogen for it.
constexpr bool heats(const Feedstock& f, Part part) noexcept {
    return part != Part::bedding || f.has(Caution::heating);
}

/// Lime that acts: coarse shell hardly does.
inline Ranged acting_lime(const Feedstock& f, const Ranged& neutralising) noexcept {
    const bool coarse = f.has(Caution::sharp) && !f.has(Caution::dust);
    return neutralising * Ranged(coarse ? limits::coarse_lime_acting : limits::ground_lime_acting);
}

/// What of a portion's figures is missing or guessed, for hazards that must not rest on a guess.
inline void count_gaps(Load& load, const Contribution& one, double wet_kg) noexcept {
    const bool scraps = one.part == Part::scraps;
    if (!one.is_known(Addend::water_kg)) load.grade = Grade::d;
    if (scraps && !one.is_known(Addend::nitrogen_kg)) load.nitrogen_missing_kg = wet_kg;
    if (scraps && !one.is_known(Addend::salt_kg)) load.salt_missing_kg = wet_kg;
    if (scraps && !one.is_known(Addend::fat_kg)) load.fat_missing_kg = wet_kg;
    if (!one.is_known(Addend::acid_kg) && one[Addend::acid_kg].high > 0.0)
        load.acid_guessed_kg = wet_kg;
    if (!one.is_known(Addend::capacity_kg)) load.capacity_guessed_kg = wet_kg;
    if (load.acid_guessed_kg > 0.0 || load.capacity_guessed_kg > 0.0) load.grade = Grade::d;
}

}  // namespace detail

/// Load of a wet mass of one feedstock. Constant time, no allocation.
/// @param wet_kg   wet mass, at least 0.
/// @param decayed  from decayed_shares.
inline Load load_of(const Feedstock& f, double wet_kg, const DecayedShares& decayed) noexcept {
    const Contribution one = contribution_of(f);
    const auto sum = [&](Addend addend) { return wet_kg * one[addend]; };
    Load load;
    load.wet_kg = wet_kg;
    load.grade = one.grades[static_cast<std::size_t>(Addend::water_kg)];
    load.water_kg = sum(Addend::water_kg);
    load.dry_kg = sum(Addend::dry_kg);
    load.free_water_kg = sum(Addend::set_free_kg);
    load.capacity_kg = sum(Addend::capacity_kg);
    load.acid_g = 1000.0 * sum(Addend::acid_kg);
    if (detail::heats(f, one.part)) load.labile_kg = sum(Addend::labile_kg);
    load.surplus_nitrogen_g = (1000.0 * load.dry_kg.value) * detail::surplus_nitrogen(f, decayed);
    load.lime_g = 1000.0 * detail::acting_lime(f, sum(Addend::neutralising_kg));
    // A guess of the salt or fat of scraps could do harm: it is counted as missing.
    if (one.part != Part::scraps || one.is_known(Addend::salt_kg))
        load.salt_kg = sum(Addend::salt_kg);
    if (one.part != Part::scraps || one.is_known(Addend::fat_kg)) load.fat_kg = sum(Addend::fat_kg);
    load.solids_m3 = sum(Addend::solids_m3).value;
    load.settled_m3 = sum(Addend::settled_m3).value;
    if (one.part == Part::poured_water) load.poured_kg = load.water_kg.value;
    if (one.part == Part::bedding) load.bedding_water_kg = load.water_kg;
    if (one.part == Part::scraps) {
        load.scraps_wet_kg = wet_kg;
        load.scraps_settled_m3 = load.settled_m3;
        load.settled_m3 *= limits::collapsed_scraps_volume.value;
    }
    detail::count_gaps(load, one, wet_kg);
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
