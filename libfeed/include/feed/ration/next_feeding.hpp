#pragma once
#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/feeding_rules.hpp"
#include "feed/forecast/forecast.hpp"
#include "feed/ration/ration.hpp"

namespace feed {

/// Days for which the next feeding is looked for.
inline constexpr int longest_wait_days = 42;

namespace detail {

/// Whether the week's ration leaves room for a useful portion some days from now.
/// @param allowed_kg  of the week's ration: all of it, or half while the bed is watched.
inline bool has_room_on(const BedNumbers& bed, double fed_now_kg, double week_kg, double allowed_kg,
                        double day) {
    const double now = fed_now_kg * share_in_window(day, bed.horizon_days, bed.rate_window_days);
    const double earlier = bed.recent_scraps_kg * std::max(0.0, 1.0 - day / bed.rate_window_days);
    return now + earlier <= allowed_kg - limits::useful_share.value * week_kg + 1e-12;
}

/// @param soft_kg  soft food by day, as the wet scraps it stands for.
inline int first_day(const std::vector<double>& soft_kg, double soft_share, const BedNumbers& bed,
                     double fed_now_kg, double week_kg, double allowed_kg, int from) {
    const int last = std::min(longest_wait_days, static_cast<int>(soft_kg.size()) - 1);
    const double most = limits::feed_again_share.value * soft_share * week_kg;
    for (int day = from; day <= last; ++day) {
        if (soft_kg[static_cast<std::size_t>(day)] > most) continue;
        if (has_room_on(bed, fed_now_kg, week_kg, allowed_kg, day)) return day;
    }
    return last + 1;
}

}  // namespace detail

/// The first day on which the soft food of all feedings together (wet scraps, by the share of their
/// soft part that is left) is at most half of a week's ration and a useful portion, a quarter of
/// it, may go in again. One rule for every verb, sheet and picture.
/// @param f        the bed from today on, with what is fed today.
/// @param allowed  share of a week's ration that the bed may have: 1, or less while it is watched.
/// @param from     first day that counts: 1 where something is fed today, else 0.
/// Nothing where that day lies beyond six weeks.
inline std::optional<RationDay> next_feeding_day(const Forecast& f, const BedNumbers& bed,
                                                 double fed_now_kg, double allowed, int from) {
    const double week = 7.0 * feeding_rules(bed).start_wet_kg_per_day;
    if (!(week > 0.0)) return std::nullopt;
    const auto on = [&](const std::vector<double>& soft) {
        return detail::first_day(soft, f.soft_share, bed, fed_now_kg, week, allowed * week, from);
    };
    const ForecastSeries& soft = f.soft_ahead_wet_kg;
    RationDay next;
    next.day = on(soft.value);
    if (next.day > longest_wait_days) return std::nullopt;
    next.earliest = std::min(next.day, on(soft.low));
    next.latest = std::max(next.day, on(soft.high));
    return next;
}

}  // namespace feed
