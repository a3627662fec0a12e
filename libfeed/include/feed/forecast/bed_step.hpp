#pragma once
// One step of the forecast: exact for the coefficients that hold at its start.
#include <algorithm>
#include <array>
#include <cmath>

#include "feed/bed/free_ammonia.hpp"
#include "feed/bed/heat.hpp"
#include "feed/forecast/bed_state.hpp"
#include "feed/forecast/chain.hpp"
#include "feed/forecast/evaporation.hpp"
#include "feed/forecast/factors.hpp"
#include "feed/forecast/parameters.hpp"

namespace feed::decay {

/// What does not change during a forecast.
struct Surroundings {
    double surface_m2 = 0.2;
    double outer_m2 = 0.7;    ///< all faces through which heat leaves
    double spread_m2 = 0.07;  ///< over which the food lies
    double depth_m = 0.2;
    double humidity = 0.6;
    double drainage_share = 1.0;      ///< 1 open floor, 0 none
    double worms_wet_kg = 0.0;        ///< 0: no cap from worms
    int pace_end = 0;                 ///< which end of the pace of preparations: -1, 0, 1
    double castings_density = 150.0;  ///< kg dry per m3
    double ph_without_acid = 7.0;
    TemperatureResponse response = TemperatureResponse::haug;
};

/// Air at 20 C and 60 % humidity around a bed at 20 C: the state that the evaporation parameter is
/// said for.
inline constexpr double reference_deficit_hpa = 0.4 * 23.327;

/// CaCO3 that one gram of citric acid takes: equivalent masses 50.04 and 64.04.
inline constexpr double lime_per_acid = 50.04 / 64.04;
/// Ammonium that hungry microbes can take up, at most, per day.
inline constexpr double most_uptake_per_day = 5.0;

/// Acid, as citric, in grams for each litre of air: what the sour hazard is judged by.
constexpr double acid_per_air_litre(const BedState& state, const BedTotals& totals) noexcept {
    const double air_l = totals.volume_l * std::max(totals.free_air_space(), 0.02);
    return air_l > 0.0 ? 1000.0 * state.acid_kg / air_l : 0.0;
}

/// pH that the ammonia share is taken at: one step down for each gram of acid a litre of air, the
/// judgement of the sour limit; held between 4 and 9. Never reported: only its class is.
constexpr double working_ph(double ph_without_acid, double acid_g_per_air_l) noexcept {
    return std::clamp(ph_without_acid - acid_g_per_air_l, 4.0, 9.0);
}

/// What holds at the start of a step, and what a day is recorded by: the costly sums, taken once.
struct StepStart {
    BedTotals totals;
    double mean_c = 0.0;
    double acid_g_per_air_l = 0.0;
    double free_ammonia_share = 0.0;  ///< of total ammonia
};

inline StepStart start_of_step(const BedState& state, const ForecastParameters& with,
                               const Surroundings& around) noexcept {
    StepStart start;
    start.totals = totals_of(state, with[ForecastParameter::castings_holding_kg_per_kg],
                             around.castings_density);
    start.mean_c = state.warm.mean_c(start.totals.wet_kg());
    start.acid_g_per_air_l = acid_per_air_litre(state, start.totals);
    start.free_ammonia_share = free_ammonia_share(
        working_ph(around.ph_without_acid, start.acid_g_per_air_l), celsius(start.mean_c));
    return start;
}

/// Pocket and bed as they exchange heat; the same until the next feeding comes into the pocket.
inline HeatPlace heat_place(const WarmPocket& warm, const ForecastParameters& with,
                            const Surroundings& around) noexcept {
    using enum ForecastParameter;
    return {warm.wet_kg,
            warm.volume_m3,
            around.spread_m2,
            around.surface_m2,
            around.outer_m2,
            0.0,
            heat::usual_cover_m,
            {with[labile_rate_per_day], with[pocket_air_share], with[conductivity_w_per_m_k],
             with[surface_resistance_m2_k_per_w]}};
}

/// Speeds that hold through one step.
struct StepRates {
    std::array<double, pool_count> pool{};               ///< per day, preparations not counted
    std::array<double, pool_count> pace{1.0, 1.0, 1.0};  ///< of the preparations in each pool
    double castings = 0.0;
    double temperature_factor = 1.0;
    double pool_factor = 1.0;  ///< moisture, air and worms together
    /// Of each pool in a whole day; below 0 where it was not needed.
    std::array<double, pool_count> lost_in_a_day{-1.0, -1.0, -1.0};
};

/// Rates of the pools at the state of the bed, each factor at most once.
inline StepRates rates_at(const BedState& state, const BedTotals& totals,
                          const ForecastParameters& with, const Surroundings& around) noexcept {
    using enum ForecastParameter;
    StepRates rates;
    rates.temperature_factor =
        temperature_factor(state.warm.mean_c(totals.wet_kg()), around.response);
    rates.pool_factor = moisture_factor(totals.moisture()) * air_factor(totals.free_air_space());
    const double nitrogen =
        totals.nitrogen_kg > 0.0 ? nitrogen_factor(totals.carbon_kg / totals.nitrogen_kg) : 1.0;
    const double common = rates.temperature_factor * rates.pool_factor;
    // The labile pool brings its own nitrogen (break-even C:N 20); the slow ones wait for it.
    rates.pool = {with[labile_rate_per_day] * common,
                  with[cellulosic_rate_per_day] * common * nitrogen,
                  with[lignin_like_rate_per_day] * common * nitrogen};
    for (std::size_t p = 0; p < pool_count; ++p)
        rates.pace[p] = state.pools[p].pace(around.pace_end);
    rates.castings = with[castings_rate_per_day] * common;
    if (around.worms_wet_kg > 0.0) {
        double wanted_kg_per_day = 0.0;
        for (std::size_t p = 0; p < pool_count; ++p) {
            rates.lost_in_a_day[p] = lost_share(rates.pool[p] * rates.pace[p]);
            wanted_kg_per_day += state.pools[p].scraps_wet_kg * rates.lost_in_a_day[p];
        }
        const double most_kg_per_day = with[worm_intake_wet_kg_per_kg_day] * around.worms_wet_kg *
                                       std::min(1.0, rates.temperature_factor);
        if (wanted_kg_per_day > most_kg_per_day) {
            const double alone = with[share_without_worms];
            const double slowed = alone + (1.0 - alone) * most_kg_per_day / wanted_kg_per_day;
            rates.pool_factor *= slowed;
            for (double& rate : rates.pool)
                rate *= slowed;
            rates.lost_in_a_day.fill(-1.0);
        }
    }
    return rates;
}

namespace detail {

/// What the pools hand on in one step.
struct PoolFlows {
    std::array<double, pool_count> share{};        ///< of the pool that left
    std::array<Kept, pool_count> kept{};           ///< what the pool keeps
    std::array<double, pool_count> organic_kg{};   ///< at the start
    std::array<double, pool_count> nitrogen_kg{};  ///< at the start
    std::array<double, pool_count> cn{};
    double respired_kg = 0.0;
    double warming_kg = 0.0;  ///< of the slow pools, what warms the bed
};

inline PoolFlows decay_pools(BedState& state, const StepRates& rates,
                             const ForecastParameters& with, double days) noexcept {
    using enum ForecastParameter;
    const std::array<double, pool_count> respired{with[labile_respired_share],
                                                  with[cellulosic_respired_share],
                                                  with[lignin_like_respired_share]};
    PoolFlows flows;
    SettledStock& settled = state.settled;
    const Kept castings(rates.castings * days);
    double organic_in = 0.0;
    double organic_arrived = 0.0;
    double carbon_in = 0.0;
    double carbon_arrived = 0.0;
    for (std::size_t p = 0; p < pool_count; ++p) {
        PoolStock& pool = state.pools[p];
        const double x = rates.pool[p] * rates.pace[p] * days;
        const bool known = days == 1.0 && rates.lost_in_a_day[p] >= 0.0;
        const double gone = known ? rates.lost_in_a_day[p] : lost_share(x);
        flows.share[p] = gone;
        flows.kept[p] = Kept(x, gone);
        flows.organic_kg[p] = pool.organic_kg;
        flows.nitrogen_kg[p] = pool.nitrogen_kg;
        flows.cn[p] = pool.nitrogen_kg > 0.0 ? pool.carbon_kg / pool.nitrogen_kg : 0.0;
        const double becomes = 1.0 - respired[p];
        const double arriving = becomes * x * chain_share(flows.kept[p], castings);
        organic_in += becomes * gone * pool.organic_kg;
        carbon_in += becomes * gone * pool.carbon_kg;
        organic_arrived += arriving * pool.organic_kg;
        carbon_arrived += arriving * pool.carbon_kg;
        flows.respired_kg += respired[p] * gone * pool.organic_kg;
        if (p > 0) flows.warming_kg += respired[p] * gone * pool.warming_kg;
        state.carbon_respired_kg += respired[p] * gone * pool.carbon_kg;
        settled.castings_ash_kg += gone * pool.ash_kg;
        state.castings_formed_kg += becomes * gone * pool.organic_kg + gone * pool.ash_kg;
        state.exponent[p] += rates.pool[p] * days;
        pool.keep(1.0 - gone);
    }
    const double organic_now = settled.castings_organic_kg * castings.share + organic_arrived;
    const double carbon_now = settled.carbon_kg * castings.share + carbon_arrived;
    flows.respired_kg += settled.castings_organic_kg + organic_in - organic_now;
    state.carbon_respired_kg += settled.carbon_kg + carbon_in - carbon_now;
    settled.castings_organic_kg = organic_now;
    settled.carbon_kg = carbon_now;
    state.respired_kg += flows.respired_kg;
    return flows;
}

/// Acid forms with labile decay, fades, and is neutralised while lime lasts.
inline void step_acid(BedState& state, const PoolFlows& flows, const StepRates& rates,
                      const ForecastParameters& with, double days) noexcept {
    using enum ForecastParameter;
    const double formed_kg = with[acid_yield_kg_per_kg] * flows.organic_kg[0] * flows.share[0];
    const double fading = with[acid_fading_rate_per_day] * rates.temperature_factor;
    // Never more than the lime that lies there can take, whatever the step.
    const double most_kg_days = (state.acid_kg + formed_kg) * days;
    double liming = 0.0;
    if (state.lime_kg > 0.0 && most_kg_days > 0.0)
        liming = std::min(with[lime_rate_per_day], state.lime_kg / (lime_per_acid * most_kg_days));
    const double after =
        second_after(state.acid_kg, flows.organic_kg[0], with[acid_yield_kg_per_kg], flows.kept[0],
                     (fading + liming) * days);
    if (liming > 0.0) {
        const double removed_kg = std::max(0.0, state.acid_kg + formed_kg - after);
        const double used_kg = lime_per_acid * removed_kg * liming / (fading + liming);
        state.lime_kg = std::max(0.0, state.lime_kg - used_kg);
    }
    state.acid_kg = after;
}

/// Nitrogen of the decayed pools becomes ammonium or castings; ammonium is taken up or escapes.
inline void step_nitrogen(BedState& state, const PoolFlows& flows, const StepRates& rates,
                          const ForecastParameters& with, double free_share, double days) noexcept {
    using enum ForecastParameter;
    const std::array<double, pool_count> respired{with[labile_respired_share],
                                                  with[cellulosic_respired_share],
                                                  with[lignin_like_respired_share]};
    std::array<double, pool_count> freed{};
    double wanted_kg_per_day = 0.0;
    for (std::size_t p = 0; p < pool_count; ++p) {
        const double share = mineralised_share(respired[p], flows.cn[p], with[product_cn_ratio]);
        freed[p] = std::max(0.0, share);
        wanted_kg_per_day +=
            std::max(0.0, -share) * rates.pool[p] * rates.pace[p] * flows.nitrogen_kg[p];
    }
    const double uptake =
        wanted_kg_per_day > 0.0
            ? wanted_kg_per_day / (state.ammonium_kg + wanted_kg_per_day / most_uptake_per_day)
            : 0.0;
    const double to_bed = with[nitrification_rate_per_day] * rates.temperature_factor + uptake;
    const double to_air = with[volatilisation_rate_per_day] * free_share;
    const double sink = to_bed + to_air;
    const Kept ammonium(sink * days);
    double arrived_kg = state.ammonium_kg * ammonium.share;
    double entered_kg = 0.0;
    double total_kg = 0.0;
    for (std::size_t p = 0; p < pool_count; ++p) {
        entered_kg += freed[p] * flows.nitrogen_kg[p] * flows.share[p];
        total_kg += flows.nitrogen_kg[p] * flows.share[p];
        if (freed[p] > 0.0)
            arrived_kg += freed[p] * flows.nitrogen_kg[p] * flows.kept[p].x *
                          chain_share(flows.kept[p], ammonium);
    }
    const double left_kg = state.ammonium_kg + entered_kg - arrived_kg;
    const double lost_kg = sink > 0.0 ? left_kg * to_air / sink : 0.0;
    state.settled.nitrogen_kg += total_kg - entered_kg + left_kg - lost_kg;
    state.nitrogen_lost_kg += lost_kg;
    state.ammonium_kg = arrived_kg;
}

/// Cells give up their water at the pace of the labile pool; free water drains; the surface dries.
inline void step_water(BedState& state, const PoolFlows& flows, const StepStart& start,
                       const ForecastParameters& with, const Surroundings& around,
                       const AirAround& air, double days) noexcept {
    using enum ForecastParameter;
    const BedTotals& before = start.totals;
    const double wet_surface =
        with[evaporation_kg_per_m2_day] / reference_deficit_hpa * around.surface_m2;
    const double potential_kg_per_day =
        open_evaporation_kg_per_m2_day(wet_surface, start.mean_c, air, around.humidity);
    const double limit = with[surface_limit_moisture];
    const double least_kg = std::max(limit / (1.0 - limit) * before.dry_kg(), 1e-9);
    const double drying = potential_kg_per_day / std::max(state.bed_water_kg, least_kg);
    const double draining = with[drainage_rate_per_day] * around.drainage_share;

    const double free_kg = std::max(0.0, state.bed_water_kg - before.capacity_kg);
    const double held_kg = state.bed_water_kg - free_kg;
    const double free_after = free_kg > 0.0 ? free_kg * std::exp(-(draining + drying) * days) : 0.0;
    const double free_gone = free_kg - free_after;
    const double drained =
        draining + drying > 0.0 ? free_gone * draining / (draining + drying) : 0.0;

    const double metabolic = with[metabolic_water_kg_per_kg] * flows.respired_kg;
    const double released = state.cell_water_kg * flows.share[0];
    const double dry_x = drying * days;
    const double dried = lost_share(dry_x);
    const double held_after =
        second_after(held_kg, state.cell_water_kg, 1.0, flows.kept[0], Kept(dry_x, dried)) +
        metabolic * mean_share(dry_x, dried);
    state.evaporated_kg +=
        free_gone - drained + std::max(0.0, held_kg + released + metabolic - held_after);
    state.drained_kg += drained;
    state.metabolic_water_kg += metabolic;
    state.cell_water_kg -= released;
    state.bed_water_kg = free_after + held_after;
}

/// Pocket and bed, as in the check (bed/heat.hpp), in steps of at most a quarter of a day.
inline void step_temperature(BedState& state, const PoolFlows& flows, const BedTotals& before,
                             HeatPlace place, double air_c, double days) noexcept {
    WarmPocket& warm = state.warm;
    const bool cold = warm.stores.pocket_labile_kg + warm.stores.bed_labile_kg < 1e-6;
    const double bed_kg = std::max(before.wet_kg() - warm.wet_kg, 0.1 * before.wet_kg());
    if (!(bed_kg > 0.0)) return;
    place.set_bed(bed_kg);
    const double slow_w = heat::joules_per_kg_oxygen * heat::oxygen_per_burnt * flows.warming_kg /
                          (days * heat::seconds_a_day);
    // Copies, so that what is the same in each of the steps is reckoned once.
    HeatStores now = warm.stores;
    const int steps = cold ? 1 : std::max(1, static_cast<int>(std::ceil(4.0 * days)));
    for (int i = 0; i < steps; ++i)
        place.step(now, air_c, days / steps, slow_w);
    warm.stores = now;
}

}  // namespace detail

/// Moves the bed on by one step. Within the step the coefficients are those of its start and the
/// linear equations are solved exactly; heat and metabolic water of the step enter evenly.
/// Constant time, no allocation. Equations: docs/forecast.md.
/// @param air    at the temperature of the bed without what is fed.
/// @param days   length of the step, above 0.
/// @param start  of this state.
/// @param place  of its pocket, in a bed of any mass.
inline void step(BedState& state, const StepStart& start, const HeatPlace& place,
                 const ForecastParameters& with, const Surroundings& around, const AirAround& air,
                 double days) noexcept {
    const StepRates rates = rates_at(state, start.totals, with, around);
    const detail::PoolFlows flows = detail::decay_pools(state, rates, with, days);
    detail::step_acid(state, flows, rates, with, days);
    detail::step_nitrogen(state, flows, rates, with, start.free_ammonia_share, days);
    detail::step_water(state, flows, start, with, around, air, days);
    detail::step_temperature(state, flows, start.totals, place, air.celsius, days);
}

/// The same from the state alone.
inline void step(BedState& state, const ForecastParameters& with, const Surroundings& around,
                 double air_c, double days) noexcept {
    step(state, start_of_step(state, with, around), heat_place(state.warm, with, around), with,
         around, AirAround(air_c), days);
}

}  // namespace feed::decay
