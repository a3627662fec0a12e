#pragma once
// When to feed next, to harvest and to renew the bedding.
#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/bed/completed.hpp"
#include "feed/bed/limits.hpp"
#include "feed/bed/species.hpp"
#include "feed/forecast/forecast_result.hpp"
#include "feed/forecast/next_feeding.hpp"

namespace feed {

/// Harvest when castings are this share of the dry matter (D).
inline constexpr double harvest_castings_share = 0.85;
/// Renew the bedding when half of what there was is left, or a third of the volume is gone (D).
inline constexpr double renew_bedding_share = 0.5;
inline constexpr double renew_volume_share = 2.0 / 3.0;
/// Free water that is seen standing in a bed, kg a litre of bed (D).
inline constexpr double standing_water_kg_per_l = 0.01;

namespace detail {

/// "day 0" is today for the person who reads it.
inline std::string on_day(int day) {
    if (day == 0) return "today";
    return day == 1 ? "tomorrow" : "day " + std::to_string(day);
}

/// A share in the words of somebody who looks into a bin.
constexpr std::string_view share_words(double share) noexcept {
    if (share < 0.05) return "next to nothing";
    if (share < 0.15) return "about a tenth";
    if (share < 0.22) return "about a fifth";
    if (share < 0.29) return "about a quarter";
    if (share < 0.42) return "about a third";
    if (share < 0.58) return "about half";
    if (share < 0.71) return "about two thirds";
    if (share < 0.85) return "about three quarters";
    return "nearly all";
}

/// Why the bed should not be fed on a day, or "" where nothing speaks against it.
inline std::string_view objection(const Forecast& f, const SpeciesLimits& limits,
                                  std::size_t day) noexcept {
    if (f.free_water_kg.value[day] > standing_water_kg_per_l * f.volume_l.value[day])
        return "the bed is too wet";
    if (f.moisture.value[day] > limits.wettest.value()) return "the bed is too wet";
    if (f.acid_class[day] == AcidClass::sour) return "the bed is sour";
    if (f.temperature_c.value[day] > in_celsius(limits.warmest)) return "the bed is too warm";
    if (f.temperature_c.value[day] < in_celsius(limits.coldest))
        return "the bed is too cold to eat";
    if (f.free_ammonia_g_n_per_wet_kg.value[day] > limits::free_ammonia_nitrogen.act)
        return "ammonia is too high";
    return {};
}

inline void note_next_feeding(Forecast& f, const CompletedBed& bed, const BedNumbers& numbers,
                              const ForecastSeries& soft) {
    int last_day = -1;
    double soft_kg = 0.0;
    double fed_kg = 0.0;
    for (const ForecastPortion& portion : f.portions) {
        if (!portion.is_scraps) continue;
        last_day = std::max(last_day, portion.day);
        soft_kg += portion.wet_kg * portion.pool_shares[0];
        fed_kg += portion.wet_kg;
    }
    const double soft_share = fed_kg > 0.0 ? soft_kg / fed_kg : usual_soft_share;
    f.soft_ahead_wet_kg = soft;
    f.soft_share = soft_share;
    const SpeciesLimits& limits = limits_of(bed.species);
    f.next_feeding = next_feeding_of(
        soft, limits::feed_again_share.value * soft_share * week_ration_wet_kg(numbers),
        static_cast<std::size_t>(last_day < 0 ? 0 : last_day + 1),
        [&](std::size_t day) { return objection(f, limits, day); });
}

inline void note_look_back(Forecast& f) {
    LookBack& look = f.look_back;
    int last_day = -1;
    for (const ForecastPortion& portion : f.portions) {
        if (portion.is_scraps) last_day = std::max(last_day, portion.day);
    }
    if (last_day < 0) {
        look.text = "Nothing is fed in this plan, so there is nothing to look back at.";
        return;
    }
    const int day = f.next_feeding.day.value_or(static_cast<int>(f.days));
    double fed = 0.0;
    double left = 0.0;
    double least = 0.0;
    double most = 0.0;
    const auto at = static_cast<std::size_t>(day);
    for (const ForecastPortion& portion : f.portions) {
        if (!portion.is_scraps || portion.day != last_day) continue;
        fed += portion.wet_kg;
        left += portion.wet_kg * f.share_left(portion, at);
        least += portion.wet_kg * f.least_left(portion, at);
        most += portion.wet_kg * f.most_left(portion, at);
    }
    look.day = day;
    look.share_left = left / fed;
    look.share_left_low = least / fed;
    look.share_left_high = most / fed;
    // What would surprise: half as much again as expected, and at least a fifth more.
    const double too_much = std::min(0.95, std::max(1.5 * look.share_left, look.share_left + 0.2));
    look.text = "On " + on_day(day) + " " + std::string(share_words(look.share_left)) +
                " of the last feeding should be left and the worms spread through the bed. If " +
                std::string(share_words(too_much)) + " or more is left, skip a week.";
}

inline void note_harvest(Forecast& f) {
    for (std::size_t day = 0; day <= f.days; ++day) {
        if (f.castings_share[day] < harvest_castings_share) continue;
        f.harvest_day = static_cast<int>(day);
        f.harvest_reason = "From " + on_day(*f.harvest_day) +
                           " at least 85 % of the dry matter is castings: harvest when it suits.";
        break;
    }
    if (!f.harvest_day)
        f.harvest_reason = "Castings do not reach 85 % of the dry matter within the forecast.";
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

inline void note_timing(Forecast& f, const CompletedBed& bed, const BedNumbers& numbers,
                        const ForecastSeries& soft) {
    note_next_feeding(f, bed, numbers, soft);
    note_look_back(f);
    note_harvest(f);
}

}  // namespace detail
}  // namespace feed
