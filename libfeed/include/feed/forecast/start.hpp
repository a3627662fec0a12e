#pragma once
// The bed on day 0, from what the keeper described.
#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "feed/bed/bed.hpp"
#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/completed.hpp"
#include "feed/forecast/bed_step.hpp"
#include "feed/forecast/intake.hpp"

namespace feed::decay {

/// Which end of the ranges a run takes.
struct RunEnds {
    int pace = 0;     ///< -1 slow and cold, 0 typical, 1 fast and warm
    int wetness = 0;  ///< -1 dry and little acid, 0 typical, 1 wet and much acid
};

/// One of three numbers.
constexpr double pick(int end, double low, double value, double high) noexcept {
    return end < 0 ? low : (end > 0 ? high : value);
}

/// Share of a bed that was not weighed which is castings when it has settled; the rest is old
/// bedding (D).
inline constexpr double settled_castings_share = 0.8;
/// C:N of old castings: near 10 when finished, 12 to 15 in a working bed (D).
inline constexpr double old_castings_cn = 14.0;
/// C:N of old bedding in a working bed (D).
inline constexpr double old_bedding_cn = 80.0;
/// Pools of old bedding in a bed that was not weighed: what is soft has gone, and most of the
/// cellulose (D).
inline constexpr std::array<double, pool_count> old_bedding_pools{0.0, 0.2, 0.8};
/// Carbon in the organic matter of castings (VS / 1.8 is a fifth higher than measured foods) and
/// bedding (D).
inline constexpr double old_matter_carbon = 0.50;

/// Contents of a bed that was not weighed: castings and old bedding by age.
inline Intake unweighed_contents(double dry_kg, double age_days, double capacity_per_dry,
                                 double volume_l) noexcept {
    const double settled =
        settled_castings_share * std::clamp(age_days / usual::settling_days.value, 0.0, 1.0);
    Intake contents;
    const double castings_kg = settled * dry_kg;
    contents.settled.castings_ash_kg = limits::bed_ash.value * castings_kg;
    contents.settled.castings_organic_kg = castings_kg - contents.settled.castings_ash_kg;
    contents.settled.carbon_kg = old_matter_carbon * contents.settled.castings_organic_kg;
    contents.settled.nitrogen_kg = contents.settled.carbon_kg / old_castings_cn;
    const double bedding_kg = dry_kg - castings_kg;
    PoolStock bedding;
    bedding.ash_kg = 0.06 * bedding_kg;
    bedding.organic_kg = bedding_kg - bedding.ash_kg;
    bedding.carbon_kg = old_matter_carbon * bedding.organic_kg;
    bedding.nitrogen_kg = bedding.carbon_kg / old_bedding_cn;
    bedding.capacity_kg = capacity_per_dry * bedding_kg;
    bedding.volume_l = (1.0 - settled) * volume_l;
    bedding.bedding_dry_kg = bedding_kg;
    for (std::size_t p = 0; p < pool_count; ++p)
        contents.pools[p].add(bedding, old_bedding_pools[p]);
    return contents;
}

/// What of added bedding has turned into castings by day 0, and its grit. (What was fed is part of
/// the castings that a bed is estimated to hold.)
inline void settle_added(BedState& state, const Intake& fed, const Intake& left,
                         const ForecastParameters& with) noexcept {
    constexpr std::array<ForecastParameter, pool_count> respired{
        ForecastParameter::labile_respired_share, ForecastParameter::cellulosic_respired_share,
        ForecastParameter::lignin_like_respired_share};
    SettledStock& settled = state.settled;
    for (std::size_t p = 0; p < pool_count; ++p) {
        const double gone_kg = fed.pools[p].organic_kg - left.pools[p].organic_kg;
        const double formed_kg = (1.0 - with[respired[p]]) * gone_kg;
        settled.castings_organic_kg += formed_kg;
        settled.castings_ash_kg += fed.pools[p].ash_kg - left.pools[p].ash_kg;
        settled.carbon_kg += old_matter_carbon * formed_kg;
        settled.nitrogen_kg += fed.pools[p].nitrogen_kg - left.pools[p].nitrogen_kg;
    }
    settled.inert_kg += fed.settled.inert_kg;
    settled.mineral_kg += fed.settled.mineral_kg;
}

/// What is left on day 0 of a feeding before it, at the steady state of the bed on day 0.
/// @param soft_left  share of its labile part, where it is known better than by the rates.
inline Intake aged(Intake fed, double age_days, const StepRates& rates,
                   const ForecastParameters& with, std::optional<double> soft_left,
                   int pace_end) noexcept {
    constexpr double nothing_left = 1e-9;
    const double reckoned_x = rates.pool[0] * fed.pools[0].pace(pace_end) * age_days;
    const double labile_x =
        soft_left ? -std::log(std::clamp(*soft_left, nothing_left, 1.0)) : reckoned_x;
    // The slow pools went on as the labile one did.
    const double pace = soft_left && reckoned_x > 0.0 ? labile_x / reckoned_x : 1.0;
    const double fading =
        with[ForecastParameter::acid_fading_rate_per_day] * rates.temperature_factor * age_days;
    const Kept labile(labile_x);
    fed.acid_kg = second_after(fed.acid_kg, fed.pools[0].organic_kg,
                               with[ForecastParameter::acid_yield_kg_per_kg], labile, Kept(fading));
    fed.cell_water_kg *= labile.share;
    fed.pools[0].keep(labile.share);
    for (std::size_t p = 1; p < pool_count; ++p)
        fed.pools[p].keep(std::exp(-std::min(pace, 10.0) * rates.pool[p] *
                                   fed.pools[p].pace(pace_end) * age_days));
    return fed;
}

/// The surroundings of a completed bed.
inline Surroundings surroundings_of(const CompletedBed& bed, bool worms_known, double humidity,
                                    TemperatureResponse response, RunEnds ends) noexcept {
    Surroundings around;
    const double length = in_metres(bed.inside.length);
    const double width = in_metres(bed.inside.width);
    around.depth_m = in_metres(bed.depth_of_contents);
    around.surface_m2 = in_square_metres(bed.surface);
    around.outer_m2 = outer_faces_m2(length, width, around.depth_m);
    around.spread_m2 = limits::usual_spread_share.value * around.surface_m2;
    around.humidity = humidity;
    around.drainage_share = bed.drainage == Drainage::none  ? 0.0
                            : bed.drainage == Drainage::tap ? 0.5
                                                            : 1.0;
    around.worms_wet_kg = worms_known
                              ? pick(ends.pace, bed.worms.low.in_kilograms(),
                                     bed.worms.value.in_kilograms(), bed.worms.high.in_kilograms())
                              : 0.0;
    around.response = response;
    around.pace_end = ends.pace;
    return around;
}

/// What stands in a bed beside its contents as described, each with its age in days: first bedding
/// that was added, then what was fed.
struct EarlierIntakes {
    std::vector<Intake> intake;
    std::vector<double> ages_days;
    std::vector<std::optional<SoftLeft>> soft_left;
    std::size_t added = 0;        ///< so many of them are added bedding
    double added_dry_kg = 0.0;    ///< of these, as they went in
    double added_volume_l = 0.0;  ///< settled
    double share_kept = 1.0;      ///< of the contents as described
};

/// Takes a share of everything that came in.
inline void keep(Intake& intake, double share) noexcept {
    for (PoolStock& pool : intake.pools)
        pool.keep(share);
    SettledStock& settled = intake.settled;
    settled.castings_organic_kg *= share;
    settled.castings_ash_kg *= share;
    settled.carbon_kg *= share;
    settled.nitrogen_kg *= share;
    settled.inert_kg *= share;
    settled.mineral_kg *= share;
    intake.cell_water_kg *= share;
    intake.bed_water_kg *= share;
    intake.acid_kg *= share;
    intake.lime_kg *= share;
    intake.scraps_wet_kg *= share;
    intake.scraps_volume_m3 *= share;
    intake.labile_kg *= share;
}

/// A bed at the start of a run, with what is around it.
struct Start {
    BedState state;
    Surroundings around;
    double dry_kg = 0.0;
};

/// Puts what is left of earlier feedings into the bed on day 0. Returns the acid of those that a
/// measured pH does not hold yet, kg.
/// @param ph_age_days  since the pH was measured; nothing: all of them count.
/// @param ends         of the ranges.
/// @param castings_kg  dry, of which the leftovers are a part; 0 where the bedding was weighed.
inline double add_earlier(Start& start, const EarlierIntakes& earlier,
                          const ForecastParameters& with, RunEnds ends,
                          std::optional<double> ph_age_days, double castings_kg) noexcept {
    BedState& state = start.state;
    const BedTotals totals = totals_of(state, with[ForecastParameter::castings_holding_kg_per_kg],
                                       start.around.castings_density);
    const StepRates rates = rates_at(state, totals, with, start.around);
    double left_dry_kg = 0.0;
    double left_cell_kg = 0.0;
    double acid_kg = 0.0;
    for (std::size_t i = 0; i < earlier.intake.size(); ++i) {
        std::optional<double> soft;
        if (const auto& known = earlier.soft_left[i])
            soft = pick(-ends.pace, known->low, known->value, known->high);
        const double age = earlier.ages_days[i];
        Intake left = aged(earlier.intake[i], age, rates, with, soft, ends.pace);
        for (std::size_t p = 0; p < pool_count; ++p) {
            left.pools[p].warming_kg = 0.0;
            state.pools[p].add(left.pools[p], 1.0);
            if (i >= earlier.added) left_dry_kg += left.pools[p].organic_kg + left.pools[p].ash_kg;
        }
        if (i < earlier.added) settle_added(state, earlier.intake[i], left, with);
        // A measured pH holds the acid of what went in before it.
        if (!ph_age_days || age <= *ph_age_days) acid_kg += left.acid_kg;
        state.lime_kg += left.lime_kg;
        left_cell_kg += left.cell_water_kg;
    }
    // A weighed bedding does not hold the food; an estimate by volume does.
    if (castings_kg > 0.0) {
        const double keep = std::max(0.1, 1.0 - left_dry_kg / castings_kg);
        state.settled.castings_organic_kg *= keep;
        state.settled.castings_ash_kg *= keep;
        state.settled.carbon_kg *= keep;
        state.settled.nitrogen_kg *= keep;
    }
    state.cell_water_kg = std::min(left_cell_kg, 0.9 * state.bed_water_kg);
    state.bed_water_kg -= state.cell_water_kg;
    return acid_kg;
}

/// The state on day 0. Leftovers of earlier feedings are part of the contents: their dry mass and
/// water are taken out of what the bed weighs.
/// @param earlier  what was added and the feedings before day 0.
inline Start start_of(const Bed& said, const CompletedBed& bed, const EarlierIntakes& earlier,
                      const Intake* weighed, const ForecastParameters& with, double humidity,
                      TemperatureResponse response, RunEnds ends) noexcept {
    Start start;
    const bool worms_known = said.worms.wet_mass.has_value() || said.worms.count.has_value();
    start.around = surroundings_of(bed, worms_known, humidity, response, ends);
    BedState& state = start.state;
    const double all_dry_kg = bed.dry_mass.value.in_kilograms();
    const double dry_kg = std::max(0.0, all_dry_kg - earlier.added_dry_kg);
    const double volume_l = std::max(0.0, in_litres(bed.contents) - earlier.added_volume_l);
    const double capacity_kg = in_kilograms(bed.water_capacity.value);
    // Where the squeeze test gave the water it moves with its class, not with the capacity: more
    // water than the pores of the bed is no bed.
    const double water_kg = bed.water_from_saturation
                                ? capacity_kg * pick(ends.wetness, bed.saturation.low,
                                                     bed.saturation.value, bed.saturation.high)
                                : pick(ends.wetness, in_kilograms(bed.water.low),
                                       in_kilograms(bed.water.value), in_kilograms(bed.water.high));
    const double bed_c = pick(ends.pace, in_celsius(bed.temperature_low),
                              in_celsius(bed.temperature), in_celsius(bed.temperature_high));
    Intake contents =
        weighed != nullptr
            ? *weighed
            : unweighed_contents(dry_kg, in_days(bed.age),
                                 all_dry_kg > 0.0 ? capacity_kg / all_dry_kg : 0.0, volume_l);
    if (weighed != nullptr && earlier.share_kept != 1.0) keep(contents, earlier.share_kept);
    take_in(state, contents);
    // A bed put together today has not warmed up yet; any other one has.
    const bool fresh = weighed != nullptr && said.age && in_days(*said.age) < 1.0;
    for (PoolStock& pool : state.pools) {
        if (!fresh) pool.warming_kg = 0.0;
    }
    state.warm = {};
    state.warm.stores = {bed_c, bed_c, 0.0, fresh ? contents.labile_kg : 0.0};
    state.cell_water_kg = 0.0;
    state.bed_water_kg = water_kg;
    state.lime_kg += in_kilograms(bed.lime);

    const double holding = with[ForecastParameter::castings_holding_kg_per_kg];
    const SettledStock& settled = state.settled;
    double castings_kg = settled.castings_organic_kg + settled.castings_ash_kg;
    double loose_l = 0.0;
    for (const PoolStock& pool : state.pools)
        loose_l += pool.volume_l;
    if (castings_kg > 0.0 && volume_l > loose_l)
        start.around.castings_density =
            std::clamp(1000.0 * castings_kg / (volume_l - loose_l), 50.0, 400.0);
    else
        start.around.castings_density = usual::dry_density_settled.value;

    const double acid_since_kg =
        earlier.intake.empty()
            ? 0.0
            : add_earlier(start, earlier, with, ends,
                          bed.ph ? std::optional(in_days(said.ph_age)) : std::nullopt,
                          weighed == nullptr ? castings_kg : 0.0);
    const BedTotals totals = totals_of(state, holding, start.around.castings_density);
    start.dry_kg = totals.dry_kg();
    if (bed.ph) {
        state.acid_kg = 0.001 * acid_of_ph_g(*bed.ph, all_dry_kg);
        start.around.ph_without_acid = *bed.ph + acid_per_air_litre(state, totals);
    }
    state.acid_kg += acid_since_kg;
    state.castings_formed_kg = 0.0;
    state.water_in_kg = 0.0;
    return start;
}

}  // namespace feed::decay
