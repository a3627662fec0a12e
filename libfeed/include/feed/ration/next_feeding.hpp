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

/// The least for which a bin is opened: a quarter of a week's ration, and 30 g, or most of the week
/// where worms eat less in it.
inline double useful_kg(double week_kg) noexcept {
    return std::max(limits::useful_share.value * week_kg,
                    std::min(limits::least_ration.value, 0.9 * week_kg));
}

/// Whether the week's ration leaves room for a useful portion some days from now. Of a watched bed
/// too: how much it may have then is less, but the day does not move with what comes and goes.
inline bool has_room_on(const BedNumbers& bed, double fed_now_kg, double week_kg, double day) {
    const double now = fed_now_kg * share_in_window(day, bed.horizon_days, bed.rate_window_days);
    return now + recent_scraps_on(bed, day) <= week_kg - useful_kg(week_kg) + 1e-12;
}

/// A week's ration on each day ahead: that of a new bin grows.
class WeeksAhead {
public:
    explicit WeeksAhead(const BedNumbers& bed) : then_(bed) {
        today_ = 7.0 * feeding_rules(bed).start_wet_kg_per_day;
    }
    double on(int day) {
        if (then_.ramp_factor >= 1.0) return today_;
        const double age = then_.age_days + static_cast<double>(day);
        then_.rate_factor = then_.cold_factor * ramp_share(days(age));
        return 7.0 * feeding_rules(then_).start_wet_kg_per_day;
    }

private:
    BedNumbers then_;
    double today_ = 0.0;
};

/// @param soft_kg  soft food by day, as the wet scraps it stands for.
inline int first_day(const std::vector<double>& soft_kg, WeeksAhead& weeks, const BedNumbers& bed,
                     double fed_now_kg, int from) {
    const int last = std::min(longest_wait_days, static_cast<int>(soft_kg.size()) - 1);
    for (int day = from; day <= last; ++day) {
        const double week_kg = weeks.on(day);
        if (soft_kg[static_cast<std::size_t>(day)] > limits::feed_again_share.value * week_kg)
            continue;
        if (has_room_on(bed, fed_now_kg, week_kg, day)) return day;
    }
    return last + 1;
}

}  // namespace detail

/// The first day on which the soft food of all feedings together (wet scraps, by the share of their
/// soft part that is left) is at most half of a week's ration and a useful portion, a quarter of
/// it, may go in again. One rule for every verb, sheet and picture.
/// @param f        the bed from today on, with what is fed today.
/// @param from     first day that counts: 1 where something is fed today, else 0.
/// Nothing where that day lies beyond six weeks.
inline std::optional<RationDay> next_feeding_day(const Forecast& f, const BedNumbers& bed,
                                                 double fed_now_kg, int from) {
    detail::WeeksAhead weeks(bed);
    if (!(weeks.on(0) > 0.0)) return std::nullopt;
    const auto on = [&](const std::vector<double>& soft) {
        return detail::first_day(soft, weeks, bed, fed_now_kg, from);
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
