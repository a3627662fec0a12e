#pragma once
#include <algorithm>
#include <array>
#include <span>

#include "feed/bed/load.hpp"
#include "feed/bed/usual_bed.hpp"
#include "feed/blend/portion.hpp"
#include "feed/forecast/bed_state.hpp"

namespace feed::decay {

/// Shares of the three pools in the volatile solids of a feedstock, summing to at most 1; what is
/// left does not decay. Where the table has none the decay class stands in (D).
inline std::array<double, pool_count> pool_shares(const Feedstock& feedstock) noexcept {
    std::array<double, pool_count> shares = feed::detail::usual_pools(feedstock.decay_class);
    constexpr Property properties[] = {Property::labile_share, Property::cellulosic_share,
                                       Property::lignin_like_share};
    double sum = 0.0;
    for (std::size_t p = 0; p < pool_count; ++p) {
        if (const auto& share = feedstock[properties[p]]) shares[p] = share->value;
        sum += shares[p];
    }
    if (sum > 1.0) {
        for (double& share : shares)
            share /= sum;
    }
    return shares;
}

/// What of a feeding could not be known, by dry mass.
struct IntakeGaps {
    double dry_kg = 0.0;
    double nitrogen_missing_dry_kg = 0.0;
    double carbon_guessed_dry_kg = 0.0;
};

/// Adds one portion to an intake. Constant time, no allocation.
/// Carbon is the table's, else volatile solids / 1.8 (Adams et al. 1951), else it counts as a gap.
inline void add_portion(Intake& intake, IntakeGaps& gaps, const Feedstock& feedstock,
                        double wet_kg) noexcept {
    const Load load = load_of(feedstock, wet_kg, {});
    const Part part = part_of(feedstock);
    const double dry_kg = load.dry_kg.value;
    const auto& ash_datum = feedstock[Property::ash_dry];
    const double usual_ash = part == Part::amendment ? 1.0 : 0.06;
    const double ash_share = ash_datum ? ash_datum->value : usual_ash;
    const double organic_kg = dry_kg * (1.0 - ash_share);
    const double ash_kg = dry_kg - organic_kg;
    const auto& carbon_datum = feedstock[Property::carbon_dry];
    const double carbon_kg = carbon_datum ? dry_kg * carbon_datum->value : organic_kg / 1.8;
    const auto& nitrogen_datum = feedstock[Property::nitrogen_dry];
    const auto& cn_datum = feedstock[Property::cn_ratio];
    double nitrogen_kg = 0.0;
    if (nitrogen_datum)
        nitrogen_kg = dry_kg * nitrogen_datum->value;
    else if (cn_datum && cn_datum->value > 0.0)
        nitrogen_kg = carbon_kg / cn_datum->value;
    else if (carbon_kg > 0.0)
        gaps.nitrogen_missing_dry_kg += dry_kg;
    if (!carbon_datum) gaps.carbon_guessed_dry_kg += organic_kg;
    gaps.dry_kg += dry_kg;

    const std::array<double, pool_count> shares = pool_shares(feedstock);
    double decaying = 0.0;
    for (std::size_t p = 0; p < pool_count; ++p) {
        PoolStock stock;
        stock.organic_kg = organic_kg;
        stock.ash_kg = ash_kg;
        stock.warming_kg = organic_kg;
        stock.carbon_kg = carbon_kg;
        stock.nitrogen_kg = nitrogen_kg;
        stock.capacity_kg = load.capacity_kg.value;
        stock.volume_l = 1000.0 * load.settled_m3;
        stock.scraps_wet_kg = part == Part::scraps ? wet_kg : 0.0;
        stock.bedding_dry_kg = part == Part::bedding ? dry_kg : 0.0;
        intake.pools[p].add(stock, shares[p]);
        decaying += shares[p];
    }
    const double stays = std::max(0.0, 1.0 - decaying);
    intake.settled.inert_kg += stays * organic_kg;
    intake.settled.mineral_kg += stays * ash_kg;
    // The matter that stays keeps its carbon and nitrogen out of reach: neither is counted.
    (part == Part::scraps ? intake.cell_water_kg : intake.bed_water_kg) += load.water_kg.value;
    intake.acid_kg += 0.001 * load.acid_g.value;
    intake.lime_kg += 0.001 * load.lime_g.value;
    intake.scraps_wet_kg += load.scraps_wet_kg;
    intake.scraps_volume_m3 += load.scraps_settled_m3;
    intake.labile_kg += load.labile_kg.value;
}

/// What portions bring in, in their order.
inline Intake intake_of(std::span<const Portion> portions, IntakeGaps& gaps) noexcept {
    Intake intake;
    for (const Portion& portion : portions)
        add_portion(intake, gaps, *portion.feedstock, portion.wet_mass.in_kilograms());
    return intake;
}

}  // namespace feed::decay
