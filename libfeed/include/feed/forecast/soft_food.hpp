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

/// Soft food by day where the course of the food was learned: of earlier feedings and of what is
/// planned. Else what the runs of the forecast say.
inline ForecastSeries soft_food_ahead(const Forecast& f, const Bed& said,
                                      std::span<const Feeding> planned,
                                      std::span<const SoftLeft> new_food) {
    const auto known = [](const Feeding& feeding) { return !feeding.soft_ahead.empty(); };
    if (new_food.empty() || !std::all_of(said.earlier.begin(), said.earlier.end(), known))
        return f.soft_food_left_wet_kg;
    ForecastSeries soft;
    const std::size_t count = f.days + 1;
    soft.value.resize(count);
    soft.low.resize(count);
    soft.high.resize(count);
    const auto add_kg = [&](double soft_kg, std::size_t from, std::span<const SoftLeft> course,
                            const RateFactor& pace) {
        // Food at another pace leaves that power of the share: its exponent is so many times it.
        const auto paced = [](double left, double times) {
            return times == 1.0 ? left : std::pow(left, times);
        };
        for (std::size_t day = from; day < count; ++day) {
            const SoftLeft& left = course[std::min(day - from, course.size() - 1)];
            soft.value[day] += soft_kg * paced(left.value, pace.value);
            soft.low[day] += soft_kg * paced(left.low, pace.high);
            soft.high[day] += soft_kg * paced(left.high, pace.low);
        }
    };
    // The course of new food is that of food as it usually comes: each preparation has its pace.
    const auto add_new = [&](std::span<const Portion> portions, std::size_t from) {
        for (const Portion& portion : portions) {
            const Feedstock& food = *portion.feedstock;
            if (part_of(food) != Part::scraps) continue;
            add_kg(portion.wet_mass.in_kilograms() * pool_shares(food)[0], from, new_food,
                   food.decay_rate_factor);
        }
    };
    for (const Feeding& feeding : said.earlier) {
        double soft_kg = 0.0;
        for (const Portion& portion : feeding.portions) {
            if (part_of(*portion.feedstock) == Part::scraps)
                soft_kg += portion.wet_mass.in_kilograms() * pool_shares(*portion.feedstock)[0];
        }
        add_kg(soft_kg, 0, feeding.soft_ahead, RateFactor{});
    }
    for (const Feeding& feeding : planned) {
        const double day = in_days(feeding.day);
        if (day >= 0.0 && day <= static_cast<double>(f.days))
            add_new(feeding.portions, static_cast<std::size_t>(day));
    }
    return soft;
}

/// What the day of the next feeding is read from: the soft food ahead, and its share of the scraps.
inline void note_soft_food(Forecast& f, const Bed& said, std::span<const Feeding> planned,
                           std::span<const SoftLeft> new_food) {
    double soft_kg = 0.0;
    double fed_kg = 0.0;
    for (const ForecastPortion& portion : f.portions) {
        if (!portion.is_scraps) continue;
        soft_kg += portion.wet_kg * portion.pool_shares[0];
        fed_kg += portion.wet_kg;
    }
    f.soft_share = fed_kg > 0.0 ? soft_kg / fed_kg : usual_soft_share;
    f.soft_ahead_wet_kg = soft_food_ahead(f, said, planned, new_food);
}

}  // namespace detail
}  // namespace feed
