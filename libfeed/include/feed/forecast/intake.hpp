#pragma once
#include <algorithm>
#include <array>
#include <span>

#include "feed/bed/load.hpp"
#include "feed/bed/usual_bed.hpp"
#include "feed/blend/portion.hpp"
#include "feed/forecast/bed_state.hpp"

namespace feed::decay {

/// What of a feeding could not be known, by dry mass.
struct IntakeGaps {
    double dry_kg = 0.0;
    double nitrogen_missing_dry_kg = 0.0;
    double carbon_guessed_dry_kg = 0.0;
};

/// Adds one portion to an intake. Constant time, no allocation.
/// Carbon that is not known is taken, and counts as a gap.
inline void add_portion(Intake& intake, IntakeGaps& gaps, const Feedstock& feedstock,
                        double wet_kg) noexcept {
    const Contribution one = contribution_of(feedstock);
    const auto sum = [&](Addend addend) { return wet_kg * one[addend].value; };
    const double dry_kg = sum(Addend::dry_kg);
    const double organic_kg = sum(Addend::volatile_solids_kg);
    const double ash_kg = dry_kg - organic_kg;
    const double carbon_kg = sum(Addend::carbon_kg);
    const double nitrogen_kg = sum(Addend::nitrogen_kg);
    const auto both = carbon_nitrogen_of(feedstock);
    if (!both && carbon_kg > 0.0) gaps.nitrogen_missing_dry_kg += dry_kg;
    if (!both && !feedstock[Property::carbon_dry]) gaps.carbon_guessed_dry_kg += organic_kg;
    gaps.dry_kg += dry_kg;
    // Scraps collapse, as in the load of a check.
    const double settled_m3 =
        sum(Addend::settled_m3) *
        (one.part == Part::scraps ? limits::collapsed_scraps_volume.value : 1.0);

    const std::array<double, pool_count> shares = pool_shares(feedstock);
    double decaying = 0.0;
    for (std::size_t p = 0; p < pool_count; ++p) {
        PoolStock stock;
        stock.organic_kg = organic_kg;
        stock.ash_kg = ash_kg;
        stock.warming_kg = organic_kg;
        stock.hurried_kg = {organic_kg * (feedstock.decay_rate_factor.low - 1.0),
                            organic_kg * (feedstock.decay_rate_factor.value - 1.0),
                            organic_kg * (feedstock.decay_rate_factor.high - 1.0)};
        stock.carbon_kg = carbon_kg;
        stock.nitrogen_kg = nitrogen_kg;
        stock.capacity_kg = sum(Addend::capacity_kg);
        stock.volume_l = 1000.0 * settled_m3;
        stock.scraps_wet_kg = one.part == Part::scraps ? wet_kg : 0.0;
        stock.bedding_dry_kg = one.part == Part::bedding ? dry_kg : 0.0;
        intake.pools[p].add(stock, shares[p]);
        decaying += shares[p];
    }
    const double stays = std::max(0.0, 1.0 - decaying);
    intake.settled.inert_kg += stays * organic_kg;
    intake.settled.mineral_kg += stays * ash_kg;
    // The matter that stays keeps its carbon and nitrogen out of reach: neither is counted.
    (one.part == Part::scraps ? intake.cell_water_kg : intake.bed_water_kg) +=
        sum(Addend::water_kg);
    intake.acid_kg += sum(Addend::acid_kg);
    intake.lime_kg +=
        feed::detail::acting_lime(feedstock, wet_kg * one[Addend::neutralising_kg]).value;
    if (one.part == Part::scraps) {
        intake.scraps_wet_kg += wet_kg;
        intake.scraps_volume_m3 += sum(Addend::settled_m3);
    }
    if (feed::detail::heats(feedstock, one.part)) intake.labile_kg += sum(Addend::labile_kg);
}

/// What portions bring in, in their order.
inline Intake intake_of(std::span<const Portion> portions, IntakeGaps& gaps) noexcept {
    Intake intake;
    for (const Portion& portion : portions)
        add_portion(intake, gaps, *portion.feedstock, portion.wet_mass.in_kilograms());
    return intake;
}

}  // namespace feed::decay
