#pragma once
// The answer of a forecast.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/bed/bed.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/forecast/factors.hpp"
#include "feed/forecast/ranges.hpp"

namespace feed {

/// One quantity by day, with the envelope of the runs at the ends of the ranges. The envelope is
/// what may happen if every constant errs the same way: wide, and no confidence interval.
struct ForecastSeries {
    std::vector<double> value;
    std::vector<double> low;
    std::vector<double> high;
};

/// How sour the bed is. The pH is never given as a number: nobody can compute it from a recipe.
enum class AcidClass : std::uint8_t { near_neutral, turning_sour, sour };

constexpr std::string_view text(AcidClass acid_class) noexcept {
    constexpr std::string_view words[] = {"near neutral", "turning sour", "sour"};
    return words[static_cast<std::size_t>(acid_class)];
}

/// One portion of the feedings that the forecast follows.
struct ForecastPortion {
    std::size_t feeding = 0;  ///< index in the feedings given
    std::string feedstock;    ///< its id
    int day = 0;              ///< when it went in
    double wet_kg = 0.0;      ///< as fed
    bool is_scraps = false;
    std::array<double, 3> pool_shares{};  ///< of its volatile solids
    /// Labile share at the ends of the food's own range: low, high. The cellulosic share gives way.
    std::array<double, 2> labile_range{};
    RateFactor pace;  ///< of its preparation: whole, blended, frozen

    /// Pools of the run at an end: -1 slow, 0 typical, 1 fast.
    constexpr std::array<double, 3> pools_at(int end) const noexcept {
        if (end == 0) return pool_shares;
        const double wanted = labile_range[end < 0 ? 0 : 1];
        const double moved = std::clamp(wanted - pool_shares[0], -pool_shares[0], pool_shares[1]);
        return {pool_shares[0] + moved, pool_shares[1] - moved, pool_shares[2]};
    }
    constexpr double pace_at(int end) const noexcept {
        return end < 0 ? pace.low : (end > 0 ? pace.high : pace.value);
    }
};

/// What crossed the borders of the bed in the typical run, for the balances.
struct ForecastBalance {
    double water_start_kg = 0.0;
    double water_fed_kg = 0.0;
    double water_metabolic_kg = 0.0;
    double water_evaporated_kg = 0.0;
    double water_drained_kg = 0.0;
    double water_end_kg = 0.0;
    double ash_start_kg = 0.0;
    double ash_fed_kg = 0.0;
    double ash_end_kg = 0.0;
    double organic_start_kg = 0.0;
    double organic_fed_kg = 0.0;
    double organic_respired_kg = 0.0;
    double organic_end_kg = 0.0;
    double nitrogen_start_kg = 0.0;
    double nitrogen_fed_kg = 0.0;
    double nitrogen_lost_kg = 0.0;
    double nitrogen_end_kg = 0.0;
};

/// What the caller may choose.
struct ForecastOptions {
    std::size_t days = 60;          ///< 1 to 366; anything else is held there
    std::size_t steps_per_day = 1;  ///< 1 to 24
    double humidity = 0.6;          ///< of the air, 0 to 1
    decay::TemperatureResponse response = decay::TemperatureResponse::haug;
    ParameterRanges ranges = published_ranges();
    UnitSystem units = UnitSystem::metric;  ///< of the sentences
    /// Soft share left of new food in this bin by days since it was fed, the first for day 0
    /// (BedToday::new_food); empty: by the rates.
    std::vector<SoftLeft> new_food = {};
};

/// The bed day by day. Every series has days + 1 entries: entry d is day d, after what is fed on
/// it. Masses in kg, basis in the name.
struct Forecast {
    std::size_t days = 0;
    ForecastSeries moisture;               ///< water over wet mass
    ForecastSeries free_water_kg;          ///< above what the bed can hold
    ForecastSeries food_left_wet_kg;       ///< scraps left, as the wet mass fed that they stand for
    ForecastSeries soft_food_left_wet_kg;  ///< the part of it in the labile pool
    ForecastSeries acid_g_citric;
    ForecastSeries acid_g_per_air_litre;
    ForecastSeries free_ammonia_g_n_per_wet_kg;
    ForecastSeries temperature_c;         ///< of the bed; at most 50, see said_temperature_c
    ForecastSeries pocket_temperature_c;  ///< of the food fed from day 0 on; at most 50
    ForecastSeries temperature_rise_c;    ///< above the bed without food
    ForecastSeries volume_l;
    ForecastSeries depth_m;
    ForecastSeries cn_ratio;
    ForecastSeries castings_dry_kg;           ///< formed since day 0
    ForecastSeries castings_in_bed_dry_kg;    ///< all that stand in the bed
    ForecastSeries castings_share;            ///< of the dry matter
    std::vector<double> bedding_left_dry_kg;  ///< typical run
    std::vector<AcidClass> acid_class;
    /// Rate x factors x time of each pool, from day 0, and its envelope.
    std::array<ForecastSeries, 3> exponent;
    std::array<double, 3> rates_per_day{};  ///< of the typical run, at 25 C
    std::vector<ForecastPortion> portions;
    ForecastBalance balance;
    /// Soft food of all feedings ahead, as far as this bin's own course is known, as the wet scraps
    /// it stands for: what the day of the next feeding is read from.
    ForecastSeries soft_ahead_wet_kg;
    std::optional<int> harvest_day;
    std::string harvest_reason;
    std::optional<int> new_bedding_day;
    std::string new_bedding_reason;
    std::vector<Assumption> assumed;
    std::vector<std::string> unknown;  ///< JSON keys of the series without a meaning
    Grade grade = Grade::d;

    /// Share of the dry matter of a portion that is left on a day, by the exponents of a run.
    /// @param end  of the food's own ranges: -1 slow, 0 typical, 1 fast.
    static double share_left(const ForecastPortion& portion, std::size_t day,
                             const std::array<const std::vector<double>*, 3>& exponents,
                             int end = 0) {
        if (static_cast<int>(day) < portion.day) return 1.0;
        const std::array<double, 3> shares = portion.pools_at(end);
        const double pace = portion.pace_at(end);
        double left = 0.0;
        for (std::size_t p = 0; p < 3; ++p) {
            const std::vector<double>& along = *exponents[p];
            left += shares[p] *
                    std::exp(pace * (along[static_cast<std::size_t>(portion.day)] - along[day]));
        }
        const double stays = 1.0 - shares[0] - shares[1] - shares[2];
        return left + std::max(0.0, stays);
    }
    /// Share of the dry matter of a portion left on a day, typical run. Gone is at most 0.15 (D).
    double share_left(const ForecastPortion& portion, std::size_t day) const {
        return share_left(portion, day,
                          {&exponent[0].value, &exponent[1].value, &exponent[2].value});
    }
    /// Share of the dry matter of a portion that is left and stands in one pool (0 labile, 1
    /// cellulosic, 2 lignin-like), typical run; before it is fed its whole share.
    double left_in_pool(const ForecastPortion& portion, std::size_t pool, std::size_t day) const {
        const std::vector<double>& along = exponent[pool].value;
        const auto fed = static_cast<std::size_t>(portion.day);
        return portion.pool_shares[pool] *
               (day > fed ? std::exp(portion.pace.value * (along[fed] - along[day])) : 1.0);
    }
    /// The same in the slowest run: the most that may be left.
    double most_left(const ForecastPortion& portion, std::size_t day) const {
        return share_left(portion, day, {&exponent[0].low, &exponent[1].low, &exponent[2].low}, -1);
    }
    /// The same in the fastest run: the least that may be left.
    double least_left(const ForecastPortion& portion, std::size_t day) const {
        return share_left(portion, day, {&exponent[0].high, &exponent[1].high, &exponent[2].high},
                          1);
    }
    /// Days at 25 C in a moist, airy, nitrogen-rich bed that would decay as much of each pool as
    /// the days from `from` to `to` of the typical run.
    std::array<double, 3> effective_days(std::size_t from, std::size_t to) const {
        std::array<double, 3> days_at_25{};
        for (std::size_t p = 0; p < 3; ++p)
            days_at_25[p] = (exponent[p].value[to] - exponent[p].value[from]) / rates_per_day[p];
        return days_at_25;
    }
};

}  // namespace feed
