#pragma once
// Every constant the forecast leans on, with its range, grade and source, so that an interval, a
// sensitivity table and a calibrated bin can all move them by name.
#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "feed/bed/factor.hpp"
#include "feed/bed/heat.hpp"
#include "feed/bed/limits.hpp"
#include "feed/bed/pool_rates.hpp"
#include "feed/bed/usual_bed.hpp"
#include "feed/quantity/grade.hpp"

namespace feed {

/// A constant of the forecast. Rates are continuous, per day, at 25 C.
enum class ForecastParameter : std::uint8_t {
    labile_rate_per_day,
    cellulosic_rate_per_day,
    lignin_like_rate_per_day,
    castings_rate_per_day,
    labile_respired_share,
    cellulosic_respired_share,
    lignin_like_respired_share,
    metabolic_water_kg_per_kg,
    pocket_air_share,
    surface_resistance_m2_k_per_w,
    conductivity_w_per_m_k,
    evaporation_kg_per_m2_day,
    surface_limit_moisture,
    drainage_rate_per_day,
    castings_holding_kg_per_kg,
    acid_yield_kg_per_kg,
    acid_fading_rate_per_day,
    lime_rate_per_day,
    nitrification_rate_per_day,
    volatilisation_rate_per_day,
    product_cn_ratio,
    worm_intake_wet_kg_per_kg_day,
    share_without_worms,
};
inline constexpr std::size_t forecast_parameter_count = 23;

/// One constant with its range and where it comes from.
struct ParameterKind {
    ForecastParameter parameter;
    std::string_view key;
    double value;
    double low;
    double high;
    Grade grade;
    std::string_view source;
};

namespace detail {

/// A constant that the bed layer already has.
constexpr ParameterKind shared(ForecastParameter parameter, std::string_view key,
                               const Factor& factor) {
    return {parameter, key, factor.value, factor.low, factor.high, factor.grade, factor.source};
}

}  // namespace detail

inline constexpr std::array<ParameterKind, forecast_parameter_count> forecast_parameters{{
    detail::shared(ForecastParameter::labile_rate_per_day, "labile_rate_per_day",
                   pool_rates[0].rate_per_day),
    detail::shared(ForecastParameter::cellulosic_rate_per_day, "cellulosic_rate_per_day",
                   pool_rates[1].rate_per_day),
    detail::shared(ForecastParameter::lignin_like_rate_per_day, "lignin_like_rate_per_day",
                   pool_rates[2].rate_per_day),
    {ForecastParameter::castings_rate_per_day, "castings_rate_per_day", 0.0014, 0.0005, 0.004,
     Grade::d,
     "slow soil pool 0.0014 a day, CLM5 technical note; range a factor of three (judgement), below "
     "the labile soil carbon 0.012 of Soil Sci. Soc. Am. J. 68:1616"},
    {ForecastParameter::labile_respired_share, "labile_respired_share",
     pool_rates[0].respired_share, 0.30, 0.60, Grade::d,
     "0.39 Biome-BGC and 0.55 Century pools, CLM5 technical note; wider (judgement), because half "
     "(0.1) of the solids of a feed left as carbon dioxide in vermicomposting (authorea 292853)"},
    {ForecastParameter::cellulosic_respired_share, "cellulosic_respired_share",
     pool_rates[1].respired_share, 0.50, 0.60, Grade::d,
     "Biome-BGC pools; low end Century pools, CLM5 technical note; high end as far off (judgement)"},
    {ForecastParameter::lignin_like_respired_share, "lignin_like_respired_share",
     pool_rates[2].respired_share, 0.25, 0.50, Grade::d,
     "Biome-BGC pools; high end Century pools, CLM5 technical note; low end a judgement"},
    {ForecastParameter::metabolic_water_kg_per_kg, "metabolic_water_kg_per_kg", 0.55, 0.50, 0.60,
     Grade::b, "stoichiometry of starch (0.556), sugar (0.600) and a food-waste formula (0.498)"},
    detail::shared(ForecastParameter::pocket_air_share, "pocket_air_share", heat::pocket_air_share),
    detail::shared(ForecastParameter::surface_resistance_m2_k_per_w,
                   "surface_resistance_m2_k_per_w", heat::cover_resistance),
    detail::shared(ForecastParameter::conductivity_w_per_m_k, "conductivity_w_per_m_k",
                   heat::conductivity),
    detail::shared(ForecastParameter::evaporation_kg_per_m2_day, "evaporation_kg_per_m2_day",
                   limits::evaporation_holes),
    {ForecastParameter::surface_limit_moisture, "surface_limit_moisture", 0.60, 0.50, 0.75,
     Grade::d, "below this moisture the surface no longer keeps up (judgement)"},
    {ForecastParameter::drainage_rate_per_day, "drainage_rate_per_day", 1.0, 0.3, 3.0, Grade::d,
     "two thirds of the free water gone in a day from an open floor (judgement)"},
    detail::shared(ForecastParameter::castings_holding_kg_per_kg, "castings_holding_kg_per_kg",
                   usual::bed_capacity),
    detail::shared(ForecastParameter::acid_yield_kg_per_kg, "acid_yield_kg_per_kg",
                   limits::acid_from_labile),
    {ForecastParameter::acid_fading_rate_per_day, "acid_fading_rate_per_day", 0.30, 0.10, 1.0,
     Grade::d, "food acids fade at the pace of the labile pool (judgement)"},
    {ForecastParameter::lime_rate_per_day, "lime_rate_per_day", 0.2, 0.05, 1.0, Grade::d,
     "ground carbonate against acid (judgement)"},
    {ForecastParameter::nitrification_rate_per_day, "nitrification_rate_per_day", 0.10, 0.02, 0.50,
     Grade::d, "ammonium nitrified or taken up (judgement)"},
    {ForecastParameter::volatilisation_rate_per_day, "volatilisation_rate_per_day", 1.0, 0.2, 5.0,
     Grade::d, "loss of free ammonia to the air (judgement)"},
    {ForecastParameter::product_cn_ratio, "product_cn_ratio", pool_rates[0].castings_cn, 10.0, 14.0,
     Grade::d,
     "10 and 12, C:N of the receiving pools, CLM5 technical note; castings of a working bed 12 to 15 "
     "(judgement)"},
    {ForecastParameter::worm_intake_wet_kg_per_kg_day, "worm_intake_wet_kg_per_kg_day",
     limits::rate_best_castings.value, limits::rate_half_daily.value, limits::rate_most_worms.value,
     Grade::a,
     "best castings at 0.75 and most worm growth at 1.25 (Ndegwa, Thompson and Das 2000); low end half "
     "the worms' weight a day"},
    {ForecastParameter::share_without_worms, "share_without_worms", 0.45, 0.2, 0.8, Grade::d,
     "geometric mean of 0.35, manure's respiration fell 51 % with and 22 % without worms in 17 weeks "
     "(Atiyeh et al. 2000: ln 0.78 / ln 0.49), and 0.60, cellulose lost 0.43 % a day with and 0.26 % "
     "without them (Aira, Monroy and Dominguez 2006, recalled)"},
}};

/// The numbers of one run of the forecast, by name.
struct ForecastParameters {
    std::array<double, forecast_parameter_count> number{};

    constexpr double operator[](ForecastParameter parameter) const noexcept {
        return number[static_cast<std::size_t>(parameter)];
    }
    constexpr double& operator[](ForecastParameter parameter) noexcept {
        return number[static_cast<std::size_t>(parameter)];
    }
};

/// The typical value of every constant.
constexpr ForecastParameters typical_parameters() noexcept {
    ForecastParameters typical;
    for (const ParameterKind& kind : forecast_parameters)
        typical[kind.parameter] = kind.value;
    return typical;
}

/// Range of one constant. Constant time.
constexpr const ParameterKind& kind(ForecastParameter parameter) noexcept {
    return forecast_parameters[static_cast<std::size_t>(parameter)];
}

}  // namespace feed
