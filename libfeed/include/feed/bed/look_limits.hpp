#pragma once
#include "feed/bed/factor.hpp"

// What looks are worth and what is believed before any: the numbers of the diary, in the table with
// those of the bed.
namespace feed::limits {

inline constexpr Factor standing_alarm{
    7.0, 3.0, 14.0, "day", Grade::d, "so long it stands; then the answer is to look (judgement)"};
inline constexpr Factor wandering{
    7.0,   3.0,      14.0,
    "day", Grade::d, "worms wander in the first nights of a new bin (common practice)"};
inline constexpr Factor fresh_temperature{
    3.0, 1.0, 7.0, "day", Grade::d, "an older one counts only as watch (judgement)"};
inline constexpr Factor not_gone{2.0,   1.0,      4.0,
                                 "day", Grade::d, "\"not gone\" is waited for so long (judgement)"};
inline constexpr Factor silence{
    60.0,  45.0,     90.0,
    "day", Grade::d, "so long without a note; then the answer is to look (judgement)"};
inline constexpr Factor barred_stays{
    14.0, 7.0, 30.0, "day", Grade::d, "what is never fed and went in is there so long (judgement)"};
inline constexpr Factor lowest_ph{
    5.0,  4.5,      5.5,
    "pH", Grade::d, "above 5 (Edwards, Earthworm Ecology, table 18.3); range a judgement"};
inline constexpr Factor highest_ph{
    9.0,  8.5,      9.5,
    "pH", Grade::d, "below 9 (Edwards, Earthworm Ecology, table 18.3); range a judgement"};
inline constexpr Factor gone_share{0.15,        0.1,      0.25,
                                   "kg/kg dry", Grade::d, "largest share of a feeding (judgement)"};
inline constexpr Factor rate_log_sd{
    0.75, 0.5, 1.0, "log", Grade::d, "before any look; tried on simulated keepers (judgement)"};
inline constexpr Factor rate_log_mean{
    0.3,
    0.2,
    0.4,
    "log",
    Grade::d,
    "so much higher than the labile rate, so that the median bin has a quarter left on the published day (from the prior itself)"};
inline constexpr Factor lag_scale{
    2.0,
    1.0,
    3.0,
    "day",
    Grade::d,
    "half of the bins: gamma, shape 2, mean 4 days; tried on simulated keepers (judgement)"};
inline constexpr Factor shape_log_sd{0.25,  0.1,      0.4,
                                     "log", Grade::d, "tried on simulated keepers (judgement)"};
inline constexpr Factor keeper_bias_sd{
    0.08,        0.04,     0.12,
    "kg/kg dry", Grade::d, "cannot be learned from looks; tried on simulated keepers (judgement)"};
inline constexpr Factor look_error_median{
    0.1, 0.06, 0.15, "kg/kg dry", Grade::d, "median; tried on simulated keepers (judgement)"};
inline constexpr Factor look_error_log_sd{0.35,  0.2,      0.5,
                                          "log", Grade::d, "between keepers (judgement)"};
inline constexpr Factor weighed_over_eye{0.6, 0.4,      0.8,
                                         "",  Grade::d, "times that by eye (judgement)"};
inline constexpr Factor feeding_log_sd{
    0.3, 0.2, 0.5, "log", Grade::d, "of one bin; tried on simulated keepers (judgement)"};
inline constexpr Factor step_up{1.3, 1.1, 1.5, "", Grade::d, "a feeding (judgement)"};
inline constexpr Factor step_down{
    0.8, 0.6, 0.9, "", Grade::d, "for a feeding that is found half there after a week (judgement)"};
inline constexpr Factor in_a_row{
    2.0, 1.0, 3.0, "", Grade::d, "feedings in a row that were cleared in time (judgement)"};
inline constexpr Factor full_share{0.5,     0.33,     0.67,
                                   "kg/kg", Grade::d, "of a week's ration (judgement)"};
inline constexpr Factor early_days{
    5.0, 3.0, 6.0, "day", Grade::d, "half gone by then is faster than once a week (judgement)"};
inline constexpr Factor half_left_share{0.5,         0.33,     0.67,
                                        "kg/kg dry", Grade::d, "of a feeding (judgement)"};
inline constexpr Factor late_days{7.0,   5.0,      10.0,
                                  "day", Grade::d, "from then on half left is slow (judgement)"};
inline constexpr Factor least_own_share{0.5,     0.33,     0.75,
                                        "kg/kg", Grade::d, "of the published start (judgement)"};

}  // namespace feed::limits
