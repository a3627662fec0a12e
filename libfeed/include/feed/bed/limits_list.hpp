#pragma once
#include <array>
#include <string_view>

#include "feed/bed/heat.hpp"
#include "feed/bed/limits.hpp"
#include "feed/bed/look_limits.hpp"
#include "feed/bed/pool_rates.hpp"
#include "feed/bed/usual_bed.hpp"

namespace feed::limits {

/// A factor with the words docs/bed.md uses for it.
struct NamedFactor {
    std::string_view name;
    const Factor* factor;
};
/// A limit with the words docs/bed.md uses for it.
struct NamedLimit {
    std::string_view name;
    const Limit* limit;
};

/// Every factor of the check that is not an assumed value of a feedstock (assumed::all), for tables
/// and tests; a new factor belongs in here.
inline constexpr std::array<NamedFactor, 99> all_factors{{
    {"evaporation, open top", &evaporation_open_top},
    {"evaporation, lid with holes", &evaporation_holes},
    {"evaporation, closed", &evaporation_closed},
    {"most that dries in a week", &most_dried_share},
    {"acid formed by labile matter", &acid_from_labile},
    {"buffer of a bed", &bed_buffer},
    {"acid bound by lime", &grams_citric_per_gram_lime},
    {"ground lime that acts", &ground_lime_acting},
    {"crushed shell that acts", &coarse_lime_acting},
    {"most lime advised", &most_lime},
    {"pH that lime leads to", &ph_after_lime},
    {"share of the surface a feeding covers", &usual_spread_share},
    {"salt of a bed of unknown past", &bed_salt},
    {"weekly rule", &rate_weekly},
    {"daily half", &rate_half_daily},
    {"best castings", &rate_best_castings},
    {"most worms", &rate_most_worms},
    {"surface rule", &rate_by_surface},
    {"surface load tested", &rate_by_surface_tested},
    {"margin over the own record", &own_rate_margin},
    {"interval of feedings", &usual_interval},
    {"start of the ramp", &ramp_start_share},
    {"length of the start", &ramp_start_days},
    {"end of the ramp", &ramp_full_days},
    {"memory of underfed", &underfed_days},
    {"volume left of collapsed scraps", &collapsed_scraps_volume},
    {"ash of a bed", &bed_ash},
    {"depth of bed mixed with a feeding", &mixed_bed_depth},
    {"capacity of a settled bed", &usual::bed_capacity},
    {"dry density of new bedding", &usual::dry_density_new},
    {"dry density of a settled bed", &usual::dry_density_settled},
    {"days to settle", &usual::settling_days},
    {"share of the container filled", &usual::filled_share},
    {"worms unsaid, by volume", &usual::worms_by_volume},
    {"living share of worms as bought", &usual::bought_share},
    {"a worm of Eisenia fetida", &usual::worm_grams[0]},
    {"error of a weighing", &usual::scale_error},
    {"labile rate", &pool_rates[0].rate_per_day},
    {"cellulosic rate", &pool_rates[1].rate_per_day},
    {"lignin-like rate", &pool_rates[2].rate_per_day},
    {"air in the food pocket", &heat::pocket_air_share},
    {"conductivity of the bed", &heat::conductivity},
    {"resistance of walls and cover", &heat::cover_resistance},
    {"water at one or two drops", &squeeze_saturation[2]},
    {"aim of wetness", &wetness_aim},
    {"bed around the food", &pocket_margin},
    {"pH that was not measured", &unmeasured_ph},
    {"first feeding of a new bin", &first_feeding_day},
    {"soft food when the next feeding is due", &feed_again_share},
    {"useful portion", &useful_share},
    {"most soft food in the bed", &most_soft_share},
    {"ration while the bed is watched", &watched_ration_share},
    {"bedding of one day's step", &step_bedding_share},
    {"water of one day's step", &step_water_share},
    {"least bedding with the food", &least_bedding_by_volume},
    {"most bedding with the food", &most_bedding_by_volume},
    {"water at the squeeze, crumbly", &squeeze_saturation[0]},
    {"water at the squeeze, damp", &squeeze_saturation[1]},
    {"water at the squeeze, more than a couple of drops", &squeeze_saturation[3]},
    {"water at the squeeze, water that runs", &squeeze_saturation[4]},
    {"water at the squeeze, water that stands", &squeeze_saturation[5]},
    {"oxygen that burning takes", &heat::burning_oxygen},
    {"heat of a kilogram of oxygen", &heat::burning_heat},
    {"air in the cover", &heat::cover_air},
    {"cover over the food", &heat::cover_depth},
    {"heat that food takes up", &heat::pocket_heat},
    {"heat that a bed takes up", &heat::bed_heat},
    {"cold", &cold_watch},
    {"food too hot beside the bed", &pocket_act},
    {"food too hot where it fills the bed", &large_pocket_act},
    {"food that fills the bed", &large_pocket_share},
    {"least portion of a thing", &least_portion},
    {"least ration", &least_ration},
    {"an alarm without a later look", &standing_alarm},
    {"wandering in a new bin", &wandering},
    {"a temperature is fresh", &fresh_temperature},
    {"food that is not gone is waited for", &not_gone},
    {"a bin of which nothing is noted", &silence},
    {"what is never fed is taken to be there", &barred_stays},
    {"lowest pH borne", &lowest_ph},
    {"highest pH borne", &highest_ph},
    {"left when food is called gone", &gone_share},
    {"spread of bins, rate", &rate_log_sd},
    {"rate of a bin with a lag", &rate_log_mean},
    {"scale of the lag", &lag_scale},
    {"spread of bins, shape in time", &shape_log_sd},
    {"bias of a keeper", &keeper_bias_sd},
    {"error of a look by eye", &look_error_median},
    {"spread of that error", &look_error_log_sd},
    {"error of a weighed look", &weighed_over_eye},
    {"spread between feedings", &feeding_log_sd},
    {"most the own rate rises", &step_up},
    {"the own rate falls to", &step_down},
    {"early finishes before it rises", &in_a_row},
    {"feeding that proves something", &full_share},
    {"an early finish", &early_days},
    {"left that makes it fall", &half_left_share},
    {"a late one", &late_days},
    {"least own rate", &least_own_share},
}};

/// Every limit of the check that is not a species'.
inline constexpr std::array<NamedLimit, 10> all_limits{{
    {"wet", &wet_share},
    {"dry", &dry_share},
    {"acid", &acid_per_air_litre},
    {"ammonia nitrogen", &ammonia_nitrogen},
    {"free ammonia nitrogen", &free_ammonia_nitrogen},
    {"salt", &salt},
    {"hunger", &underfed_rate},
    {"free air space", &free_air_space},
    {"depth of scraps", &layer_depth},
    {"fat", &fat},
}};

}  // namespace feed::limits
