#pragma once
// The ends that the runs of a forecast take.
#include "feed/bed/completed.hpp"
#include "feed/forecast/parameters.hpp"
#include "feed/forecast/start.hpp"

namespace feed {

/// Typical value and range of every constant; a calibrated bin narrows some of them.
struct ParameterRanges {
    ForecastParameters value;
    ForecastParameters low;
    ForecastParameters high;
};

/// The ranges of the table.
constexpr ParameterRanges published_ranges() noexcept {
    ParameterRanges ranges;
    for (const ParameterKind& kind : forecast_parameters) {
        ranges.value[kind.parameter] = kind.value;
        ranges.low[kind.parameter] = kind.low;
        ranges.high[kind.parameter] = kind.high;
    }
    return ranges;
}

namespace decay {

/// How a constant moves with the two directions of a run: 1 with it, -1 against it, 0 not at all.
struct Direction {
    ForecastParameter parameter;
    int pace;
    int wetness;
};
inline constexpr Direction directions[] = {
    {ForecastParameter::labile_rate_per_day, 1, 0},
    {ForecastParameter::cellulosic_rate_per_day, 1, 0},
    {ForecastParameter::lignin_like_rate_per_day, 1, 0},
    {ForecastParameter::castings_rate_per_day, 1, 0},
    {ForecastParameter::pocket_air_share, 1, 0},
    {ForecastParameter::surface_resistance_m2_k_per_w, 1, 0},
    {ForecastParameter::conductivity_w_per_m_k, -1, 0},
    {ForecastParameter::worm_intake_wet_kg_per_kg_day, 1, 0},
    {ForecastParameter::share_without_worms, 1, 0},
    {ForecastParameter::labile_respired_share, 0, 1},
    {ForecastParameter::cellulosic_respired_share, 0, 1},
    {ForecastParameter::lignin_like_respired_share, 0, 1},
    {ForecastParameter::metabolic_water_kg_per_kg, 0, 1},
    {ForecastParameter::evaporation_kg_per_m2_day, 0, -1},
    {ForecastParameter::surface_limit_moisture, 0, 1},
    {ForecastParameter::drainage_rate_per_day, 0, -1},
    {ForecastParameter::castings_holding_kg_per_kg, 0, 1},
    {ForecastParameter::acid_yield_kg_per_kg, 0, 1},
    {ForecastParameter::acid_fading_rate_per_day, 0, -1},
    {ForecastParameter::lime_rate_per_day, 0, -1},
    {ForecastParameter::nitrification_rate_per_day, 0, -1},
    {ForecastParameter::volatilisation_rate_per_day, 0, -1},
    {ForecastParameter::product_cn_ratio, 0, 1},
};

/// The constants of one run.
constexpr ForecastParameters at_ends(const ParameterRanges& ranges, RunEnds ends) noexcept {
    ForecastParameters with = ranges.value;
    for (const Direction& direction : directions) {
        const int end = direction.pace * ends.pace + direction.wetness * ends.wetness;
        with[direction.parameter] =
            pick(end, ranges.low[direction.parameter], ranges.value[direction.parameter],
                 ranges.high[direction.parameter]);
    }
    return with;
}

/// The ranges for one bed: evaporation by its lid (as a multiple of the table's lid with air
/// holes), intake by the keeper's own record where there is one.
inline ParameterRanges ranges_for(ParameterRanges ranges, const CompletedBed& bed,
                                  const Bed& said) noexcept {
    constexpr auto evaporation = ForecastParameter::evaporation_kg_per_m2_day;
    const Factor& lid = evaporation_of(bed.lid, bed.ventilation);
    const ParameterKind& usual = kind(evaporation);
    ranges.value[evaporation] *= lid.value / usual.value;
    ranges.low[evaporation] *= lid.low / usual.low;
    ranges.high[evaporation] *= lid.high / usual.high;
    if (said.own_feeding_rate) {
        constexpr auto intake = ForecastParameter::worm_intake_wet_kg_per_kg_day;
        const double own = in_per_day(*said.own_feeding_rate);
        ranges.value[intake] = own;
        ranges.low[intake] = own / limits::own_rate_margin.value;
        ranges.high[intake] = own * limits::own_rate_margin.value;
    }
    return ranges;
}

}  // namespace decay
}  // namespace feed
