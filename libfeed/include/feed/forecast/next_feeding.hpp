#pragma once
// When to feed next: one rule, from the soft food of all feedings together.
#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/feeding_rules.hpp"
#include "feed/bed/limits.hpp"
#include "feed/forecast/forecast_result.hpp"

namespace feed {

/// Soft (labile) share of ordinary scraps, where nothing was fed that could tell (D).
inline constexpr double usual_soft_share = 0.7;

/// A week's ration of this bed as wet scraps, kg: the start of the feeding rules with the first
/// weeks of a bin counted in, or the keeper's own record. A cold spell is an objection of its own.
inline double week_ration_wet_kg(const BedNumbers& bed) noexcept {
    const FeedingRules rules = feeding_rules(bed);
    const double daily = bed.own_rate ? *bed.own_rate * bed.worms_kg.value
                                      : bed.ramp_factor * rules.rules[rules.lowest].wet_kg_per_day;
    return 7.0 * daily;
}

/// First day on which the soft food is at most half of a week's ration and nothing speaks against
/// a useful portion; overdue is `from`.
/// @param soft       soft food left by day, as the wet scraps it stands for, kg.
/// @param limit_kg   half of a week's ration, its soft part, kg.
/// @param from       first day that may be named: the day after the last planned feeding, else 0.
/// @param objection  from a day to why the bed should not be fed on it, or "".
template <class Objection>
NextFeeding next_feeding_of(const ForecastSeries& soft, double limit_kg, std::size_t from,
                            Objection&& objection) {
    NextFeeding next;
    const std::size_t last = soft.value.size() - 1;
    const auto first = [&](const std::vector<double>& numbers) -> std::optional<std::size_t> {
        for (std::size_t day = std::min(from, last); day <= last; ++day) {
            if (numbers[day] <= limit_kg) return day;
        }
        return std::nullopt;
    };
    next.earliest = static_cast<int>(first(soft.low).value_or(last));
    next.latest = static_cast<int>(first(soft.high).value_or(last));
    const auto ready = first(soft.value);
    const auto on_day = [](std::size_t day) {
        if (day == 0) return std::string("today");
        return day == 1 ? std::string("tomorrow") : "day " + std::to_string(day);
    };
    if (!ready) {
        next.reason =
            "On the last day more than half of a week's food is still there: do not feed before.";
        return next;
    }
    std::string_view first_objection;
    for (std::size_t day = *ready; day <= last && !next.day; ++day) {
        const std::string_view against = objection(day);
        if (first_objection.empty()) first_objection = against;
        if (against.empty()) next.day = static_cast<int>(day);
    }
    next.latest = std::max(next.latest, next.day.value_or(static_cast<int>(last)));
    if (!next.day) {
        next.reason = "The food is eaten by " + on_day(*ready) + ", but " +
                      std::string(first_objection) + " until the end of the forecast.";
    } else if (static_cast<std::size_t>(*next.day) > *ready) {
        next.reason = "The food is eaten by " + on_day(*ready) + ", but " +
                      std::string(first_objection) + " until " +
                      on_day(static_cast<std::size_t>(*next.day)) + ".";
    } else if (soft.value[0] > 0.0 || soft.value[*ready] > 0.0) {
        next.reason = "By " + on_day(*ready) +
                      " at most half of a week's food is left; waiting a little longer does no "
                      "harm.";
    } else {
        next.reason = "There is no food in the bed and nothing speaks against feeding.";
    }
    return next;
}

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
    const auto add = [&](std::span<const Portion> portions, std::size_t from,
                         std::span<const SoftLeft> course) {
        double soft_kg = 0.0;
        for (const Portion& portion : portions) {
            if (part_of(*portion.feedstock) == Part::scraps)
                soft_kg += portion.wet_mass.in_kilograms() * pool_shares(*portion.feedstock)[0];
        }
        for (std::size_t day = from; day < count; ++day) {
            const SoftLeft& left = course[std::min(day - from, course.size() - 1)];
            soft.value[day] += soft_kg * left.value;
            soft.low[day] += soft_kg * left.low;
            soft.high[day] += soft_kg * left.high;
        }
    };
    for (const Feeding& feeding : said.earlier)
        add(feeding.portions, 0, feeding.soft_ahead);
    for (const Feeding& feeding : planned) {
        const double day = in_days(feeding.day);
        if (day >= 0.0 && day <= static_cast<double>(f.days))
            add(feeding.portions, static_cast<std::size_t>(day), new_food);
    }
    return soft;
}

}  // namespace detail
}  // namespace feed
