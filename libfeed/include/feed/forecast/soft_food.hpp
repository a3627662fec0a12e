#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "feed/bed/bed.hpp"
#include "feed/forecast/forecast_result.hpp"

namespace feed {

/// Soft (labile) share of ordinary scraps, where nothing was fed that could tell (D).
inline constexpr double usual_soft_share = 0.7;

namespace detail {

/// What the runs of a forecast leave of soft food, as the wet scraps it stands for.
inline ForecastSeries soft_food_of_runs(const Forecast& f) {
    double soft_kg = 0.0;
    double fed_kg = 0.0;
    for (const ForecastPortion& portion : f.portions) {
        if (!portion.is_scraps) continue;
        soft_kg += portion.wet_kg * portion.pool_shares[0];
        fed_kg += portion.wet_kg;
    }
    const double share = soft_kg > 0.0 ? soft_kg / fed_kg : usual_soft_share;
    ForecastSeries soft = f.soft_food_left_wet_kg;
    for (std::vector<double>* series : {&soft.value, &soft.low, &soft.high}) {
        for (double& kg : *series)
            kg /= share;
    }
    return soft;
}

/// Food at another pace leaves that power of the share: its exponent is so many times it.
inline SoftLeft paced(const SoftLeft& left, const RateFactor& pace) {
    const auto power = [](double share, double times) {
        return times == 1.0 ? share : std::pow(share, times);
    };
    return {power(left.value, pace.value), power(left.low, pace.high), power(left.high, pace.low)};
}

/// Soft food by day as the wet scraps it stands for, where the course of the food was learned: of
/// earlier feedings and of what is planned. Each counts by the share of its soft part that is left,
/// as the bed of that day counts it. Else what the runs of the forecast say.
inline ForecastSeries soft_food_ahead(const Forecast& f, const Bed& said,
                                      std::span<const Feeding> planned,
                                      std::span<const SoftLeft> new_food) {
    const auto known = [](const Feeding& feeding) { return !feeding.soft_ahead.empty(); };
    if (new_food.empty() || !std::all_of(said.earlier.begin(), said.earlier.end(), known))
        return soft_food_of_runs(f);
    ForecastSeries soft;
    const std::size_t count = f.days + 1;
    soft.value.resize(count);
    soft.low.resize(count);
    soft.high.resize(count);
    const auto add_kg = [&](double wet_kg, std::size_t from, std::span<const SoftLeft> course,
                            const RateFactor& pace) {
        for (std::size_t day = from; day < count; ++day) {
            const SoftLeft left = paced(course[std::min(day - from, course.size() - 1)], pace);
            soft.value[day] += wet_kg * left.value;
            soft.low[day] += wet_kg * left.low;
            soft.high[day] += wet_kg * left.high;
        }
    };
    // The course of new food is that of food as it usually comes: each preparation has its pace.
    const auto add_new = [&](std::span<const Portion> portions, std::size_t from) {
        for (const Portion& portion : portions) {
            const Feedstock& food = *portion.feedstock;
            if (part_of(food) != Part::scraps) continue;
            add_kg(portion.wet_mass.in_kilograms(), from, new_food, food.decay_rate_factor);
        }
    };
    for (const Feeding& feeding : said.earlier) {
        double wet_kg = 0.0;
        for (const Portion& portion : feeding.portions) {
            if (part_of(*portion.feedstock) == Part::scraps)
                wet_kg += portion.wet_mass.in_kilograms();
        }
        add_kg(wet_kg, 0, feeding.soft_ahead, RateFactor{});
    }
    for (const Feeding& feeding : planned) {
        const double day = in_days(feeding.day);
        if (day >= 0.0 && day <= static_cast<double>(f.days))
            add_new(feeding.portions, static_cast<std::size_t>(day));
    }
    return soft;
}

}  // namespace detail
}  // namespace feed
