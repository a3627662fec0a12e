#pragma once
// What the forecast keeps of a bed from day to day. Plain numbers with the unit in the name: this
// is the hot part. Nothing here grows with the number of portions.
#include <algorithm>
#include <array>
#include <cstddef>

#include "feed/bed/heat.hpp"
#include "feed/forecast/factors.hpp"

namespace feed::decay {

/// Labile, cellulosic and lignin-like, in this order.
inline constexpr std::size_t pool_count = 3;

/// What stands in one pool. Everything leaves with the same share, so portions fed on different
/// days can be added up.
struct PoolStock {
    double organic_kg = 0.0;  ///< volatile solids
    double ash_kg = 0.0;      ///< set free with them
    double carbon_kg = 0.0;
    double nitrogen_kg = 0.0;
    double capacity_kg = 0.0;     ///< water it can hold
    double volume_l = 0.0;        ///< settled
    double scraps_wet_kg = 0.0;   ///< scraps as fed that it stands for, bedding not counted
    double bedding_dry_kg = 0.0;  ///< the part that is bedding
    /// Organic matter fed from day 0 on: its slow decay warms the bed (see WarmPocket).
    double warming_kg = 0.0;
    /// Organic matter times what its preparation (whole, blended) adds to the pace 1: slow end,
    /// typical and fast end. The pool goes at the mean pace of what stands in it.
    std::array<double, 3> hurried_kg{};

    /// @param end  -1 slow, 0 typical, 1 fast.
    constexpr double pace(int end) const noexcept {
        return organic_kg > 0.0 ? 1.0 + hurried_kg[end < 0   ? 0
                                                   : end > 0 ? 2
                                                             : 1] /
                                            organic_kg
                                : 1.0;
    }
    constexpr void add(const PoolStock& more, double times) noexcept {
        organic_kg += times * more.organic_kg;
        ash_kg += times * more.ash_kg;
        carbon_kg += times * more.carbon_kg;
        nitrogen_kg += times * more.nitrogen_kg;
        capacity_kg += times * more.capacity_kg;
        volume_l += times * more.volume_l;
        scraps_wet_kg += times * more.scraps_wet_kg;
        bedding_dry_kg += times * more.bedding_dry_kg;
        warming_kg += times * more.warming_kg;
        for (std::size_t i = 0; i < hurried_kg.size(); ++i)
            hurried_kg[i] += times * more.hurried_kg[i];
    }
    constexpr void keep(double share) noexcept {
        organic_kg *= share;
        ash_kg *= share;
        carbon_kg *= share;
        nitrogen_kg *= share;
        capacity_kg *= share;
        volume_l *= share;
        scraps_wet_kg *= share;
        bedding_dry_kg *= share;
        warming_kg *= share;
        for (double& hurried : hurried_kg)
            hurried *= share;
    }
};

/// Castings, minerals and whatever does not decay.
struct SettledStock {
    double castings_organic_kg = 0.0;
    double castings_ash_kg = 0.0;
    double carbon_kg = 0.0;    ///< of the castings
    double nitrogen_kg = 0.0;  ///< of the castings, nitrate and taken-up ammonium included
    double inert_kg = 0.0;     ///< organic matter that no pool holds
    double mineral_kg = 0.0;   ///< grit, lime, ash of inert matter
};

/// What warms: food fed from day 0 on lies in a pocket. The temperature said is that of the bed as
/// it stands, with the warmth of what it holds, so earlier food does not warm it a second time.
struct WarmPocket {
    HeatStores stores;
    double fed_labile_kg = 0.0;  ///< of the stores' pocket when food last came in
    double wet_kg = 0.0;
    double volume_m3 = 0.0;

    /// Mean of pocket and bed by mass: what decay, ammonia and drying feel.
    /// @param total_kg  wet mass of both.
    double mean_c(double total_kg) const noexcept {
        if (!(total_kg > 0.0)) return stores.bed_c;
        const double share = std::min(1.0, wet_kg / total_kg);
        return stores.bed_c + share * (stores.pocket_c - stores.bed_c);
    }
};

/// The bed between two steps, and what has passed its borders since the start.
struct BedState {
    std::array<PoolStock, pool_count> pools;
    SettledStock settled;
    double cell_water_kg = 0.0;  ///< still inside the scraps
    double bed_water_kg = 0.0;   ///< held and free
    double acid_kg = 0.0;        ///< as citric acid
    double lime_kg = 0.0;        ///< CaCO3 that can act
    double ammonium_kg = 0.0;    ///< total ammonia nitrogen
    WarmPocket warm;

    /// Rate x factors x time gone through since the start, for each pool.
    std::array<double, pool_count> exponent{};
    double castings_formed_kg = 0.0;  ///< dry, ash included
    double respired_kg = 0.0;
    double water_in_kg = 0.0;  ///< fed after the start
    double metabolic_water_kg = 0.0;
    double evaporated_kg = 0.0;
    double drained_kg = 0.0;
    double nitrogen_lost_kg = 0.0;
    double carbon_respired_kg = 0.0;
};

/// What a feeding brings in.
struct Intake {
    std::array<PoolStock, pool_count> pools;
    SettledStock settled;
    double cell_water_kg = 0.0;
    double bed_water_kg = 0.0;
    double acid_kg = 0.0;
    double lime_kg = 0.0;
    double scraps_wet_kg = 0.0;
    double scraps_volume_m3 = 0.0;  ///< settled, before they collapse
    double labile_kg = 0.0;         ///< of what heats: scraps, and bedding that is known to
};

/// Sums over a state, taken once a step.
struct BedTotals {
    double organic_kg = 0.0;
    double ash_kg = 0.0;
    double carbon_kg = 0.0;
    double nitrogen_kg = 0.0;
    double capacity_kg = 0.0;
    double volume_l = 0.0;
    double scraps_wet_kg = 0.0;
    double bedding_dry_kg = 0.0;
    double water_kg = 0.0;

    constexpr double dry_kg() const noexcept { return organic_kg + ash_kg; }
    constexpr double wet_kg() const noexcept { return organic_kg + ash_kg + water_kg; }
    constexpr double moisture() const noexcept {
        return wet_kg() > 0.0 ? water_kg / wet_kg() : 0.0;
    }
    constexpr double free_air_space() const noexcept {
        return volume_l > 0.0 ? decay::free_air_space(volume_l, water_kg, organic_kg, ash_kg) : 0.0;
    }
};

/// @param castings_capacity  water held by castings, kg per kg dry.
/// @param castings_density   kg dry per m3.
constexpr BedTotals totals_of(const BedState& state, double castings_capacity,
                              double castings_density) noexcept {
    BedTotals sum;
    for (const PoolStock& pool : state.pools) {
        sum.organic_kg += pool.organic_kg;
        sum.ash_kg += pool.ash_kg;
        sum.carbon_kg += pool.carbon_kg;
        sum.nitrogen_kg += pool.nitrogen_kg;
        sum.capacity_kg += pool.capacity_kg;
        sum.volume_l += pool.volume_l;
        sum.scraps_wet_kg += pool.scraps_wet_kg;
        sum.bedding_dry_kg += pool.bedding_dry_kg;
    }
    const SettledStock& settled = state.settled;
    const double castings_kg = settled.castings_organic_kg + settled.castings_ash_kg;
    sum.organic_kg += settled.castings_organic_kg + settled.inert_kg;
    sum.ash_kg += settled.castings_ash_kg + settled.mineral_kg;
    sum.carbon_kg += settled.carbon_kg;
    sum.nitrogen_kg += settled.nitrogen_kg + state.ammonium_kg;
    sum.capacity_kg += castings_kg * castings_capacity;
    // Inert and mineral matter at the densities of free_air_space, pores not counted.
    sum.volume_l +=
        1000.0 * castings_kg / castings_density + settled.inert_kg / 1.6 + settled.mineral_kg / 2.5;
    sum.water_kg = state.cell_water_kg + state.bed_water_kg;
    return sum;
}

/// Puts food into the pocket: it comes in at the temperature of the bed. What is left of older food
/// keeps the room that goes with it.
constexpr void lay(WarmPocket& warm, const Intake& fed) noexcept {
    if (!(fed.labile_kg > 0.0)) return;
    HeatStores& stores = warm.stores;
    const double kept =
        warm.fed_labile_kg > 0.0 ? stores.pocket_labile_kg / warm.fed_labile_kg : 0.0;
    const double old_kg = kept * warm.wet_kg;
    warm.wet_kg = old_kg + fed.scraps_wet_kg;
    warm.volume_m3 = kept * warm.volume_m3 + fed.scraps_volume_m3;
    if (warm.wet_kg > 0.0)
        stores.pocket_c =
            (old_kg * stores.pocket_c + fed.scraps_wet_kg * stores.bed_c) / warm.wet_kg;
    stores.pocket_labile_kg += fed.labile_kg;
    warm.fed_labile_kg = stores.pocket_labile_kg;
}

/// Puts a feeding into the bed; its water counts as water in.
constexpr void take_in(BedState& state, const Intake& fed) noexcept {
    for (std::size_t p = 0; p < pool_count; ++p)
        state.pools[p].add(fed.pools[p], 1.0);
    state.settled.castings_organic_kg += fed.settled.castings_organic_kg;
    state.settled.castings_ash_kg += fed.settled.castings_ash_kg;
    state.settled.carbon_kg += fed.settled.carbon_kg;
    state.settled.nitrogen_kg += fed.settled.nitrogen_kg;
    state.settled.inert_kg += fed.settled.inert_kg;
    state.settled.mineral_kg += fed.settled.mineral_kg;
    state.cell_water_kg += fed.cell_water_kg;
    state.bed_water_kg += fed.bed_water_kg;
    state.acid_kg += fed.acid_kg;
    state.lime_kg += fed.lime_kg;
    lay(state.warm, fed);
    state.water_in_kg += fed.cell_water_kg + fed.bed_water_kg;
}

}  // namespace feed::decay
