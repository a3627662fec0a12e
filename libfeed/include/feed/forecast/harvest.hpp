#pragma once
// When to harvest and to renew the bedding.
#include <algorithm>
#include <cstddef>
#include <string>

#include "feed/forecast/forecast_result.hpp"

namespace feed {

/// Harvest when castings are this share of the dry matter (D): new bins, fed as their worms eat,
/// come there after 83 to 172 days; pages say 3 to 6 months (Oregon city) and 2 to 4 (keepers).
inline constexpr double harvest_castings_share = 0.70;
/// Renew the bedding when half of what there was is left, or a third of the volume is gone (D).
inline constexpr double renew_bedding_share = 0.5;
inline constexpr double renew_volume_share = 2.0 / 3.0;

namespace detail {

/// "day 0" is today for the person who reads it.
inline std::string on_day(int day) {
    if (day == 0) return "today";
    return day == 1 ? "tomorrow" : "day " + std::to_string(day);
}

inline void note_harvest(Forecast& f) {
    for (std::size_t day = 0; day <= f.days; ++day) {
        if (f.castings_share.value[day] < harvest_castings_share) continue;
        f.harvest_day = static_cast<int>(day);
        f.harvest_reason = "From " + on_day(*f.harvest_day) +
                           " at least 70 % of the dry matter is castings: harvest when it suits.";
        break;
    }
    if (!f.harvest_day)
        f.harvest_reason = "Castings do not reach 70 % of the dry matter within the forecast.";
    double most_bedding = f.bedding_left_dry_kg[0];
    double most_volume = f.volume_l.value[0];
    for (std::size_t day = 0; day <= f.days && !f.new_bedding_day; ++day) {
        most_bedding = std::max(most_bedding, f.bedding_left_dry_kg[day]);
        most_volume = std::max(most_volume, f.volume_l.value[day]);
        const bool eaten = f.bedding_left_dry_kg[day] < renew_bedding_share * most_bedding;
        const bool sunk = f.volume_l.value[day] < renew_volume_share * most_volume;
        if (!eaten && !sunk) continue;
        f.new_bedding_day = static_cast<int>(day);
        f.new_bedding_reason = "By " + on_day(*f.new_bedding_day) +
                               (eaten ? " half of the bedding is eaten: add fresh bedding."
                                      : " the bed has sunk by a third: add fresh bedding.");
    }
    if (!f.new_bedding_day) f.new_bedding_reason = "The bedding lasts to the end of the forecast.";
}

}  // namespace detail
}  // namespace feed
