#pragma once
// Every constant the forecast leans on, with its range, grade and source, so that an interval, a
// sensitivity table and a calibrated bin can all move them by name.
#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

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
    heat_mj_per_kg,
    film_w_per_m2_k,
    conductivity_w_per_m_k,
    evaporation_mm_per_day_hpa,
    surface_limit_moisture,
    drainage_rate_per_day,
    castings_holding_kg_per_kg,
    castings_density_dry_kg_per_m3,
    acid_yield_kg_per_kg,
    acid_fading_rate_per_day,
    lime_rate_per_day,
    nitrification_rate_per_day,
    volatilisation_rate_per_day,
    product_cn_ratio,
    worm_intake_wet_kg_per_kg_day,
    share_without_worms,
};
inline constexpr std::size_t forecast_parameter_count = 24;

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

inline constexpr std::array<ParameterKind, forecast_parameter_count> forecast_parameters{{
    {ForecastParameter::labile_rate_per_day, "labile_rate_per_day", 0.22, 0.04, 1.2, Grade::d,
     "geometric mean of CLM-CN 0.7 a day discrete (1.204) and Century 0.066 y (0.0415), CLM5 "
     "technical note"},
    {ForecastParameter::cellulosic_rate_per_day, "cellulosic_rate_per_day", 0.07, 0.01, 0.07,
     Grade::b, "CLM-CN 0.07 a day discrete, Century 0.25 y (0.011), CLM5 technical note"},
    {ForecastParameter::lignin_like_rate_per_day, "lignin_like_rate_per_day", 0.014, 0.0095, 0.0141,
     Grade::b, "CLM-CN 0.014 a day discrete; low end CERES-N (recalled)"},
    {ForecastParameter::castings_rate_per_day, "castings_rate_per_day", 0.0014, 0.0001, 0.012,
     Grade::d, "CLM-CN 0.0014 a day; high end soil labile carbon 0.012 (SSSAJ 68:1616)"},
    {ForecastParameter::labile_respired_share, "labile_respired_share", 0.39, 0.39, 0.55, Grade::a,
     "CLM-CN; high end Century, CLM5 technical note"},
    {ForecastParameter::cellulosic_respired_share, "cellulosic_respired_share", 0.55, 0.50, 0.55,
     Grade::a, "CLM-CN; low end Century, CLM5 technical note"},
    {ForecastParameter::lignin_like_respired_share, "lignin_like_respired_share", 0.29, 0.29, 0.50,
     Grade::a, "CLM-CN; high end Century, CLM5 technical note"},
    {ForecastParameter::metabolic_water_kg_per_kg, "metabolic_water_kg_per_kg", 0.55, 0.50, 0.60,
     Grade::b, "stoichiometry of starch (0.556), sugar (0.600) and a food-waste formula (0.498)"},
    {ForecastParameter::heat_mj_per_kg, "heat_mj_per_kg", 17.0, 16.6, 20.2, Grade::c,
     "14 MJ per kg oxygen (Haug 1993, recalled) x 1.18 to 1.44 kg oxygen per kg"},
    {ForecastParameter::film_w_per_m2_k, "film_w_per_m2_k", 7.7, 4.0, 12.0, Grade::c,
     "internal surface resistance 0.13 m2 K/W, ISO 6946 (recalled)"},
    {ForecastParameter::conductivity_w_per_m_k, "conductivity_w_per_m_k", 0.4, 0.2, 0.6, Grade::d,
     "moist organic matter, between dry compost and water 0.6"},
    {ForecastParameter::evaporation_mm_per_day_hpa, "evaporation_mm_per_day_hpa", 0.26, 0.10, 0.40,
     Grade::c, "Penman 1948 at wind 0 (recalled); range ours"},
    {ForecastParameter::surface_limit_moisture, "surface_limit_moisture", 0.60, 0.50, 0.75,
     Grade::d, "below this moisture the surface no longer keeps up"},
    {ForecastParameter::drainage_rate_per_day, "drainage_rate_per_day", 1.0, 0.3, 3.0, Grade::d,
     "two thirds of the free water gone in a day from an open floor"},
    {ForecastParameter::castings_holding_kg_per_kg, "castings_holding_kg_per_kg", 2.5, 1.5, 4.0,
     Grade::d, "moisture 71 % (60 to 80 %) when drained"},
    {ForecastParameter::castings_density_dry_kg_per_m3, "castings_density_dry_kg_per_m3", 250.0,
     100.0, 400.0, Grade::c, "dry bulk density of composts, Agnew & Leonard 2003 as quoted"},
    {ForecastParameter::acid_yield_kg_per_kg, "acid_yield_kg_per_kg", 0.10, 0.02, 0.30, Grade::d,
     "acid, as citric, that passes through the bed per kg of labile matter decayed"},
    {ForecastParameter::acid_fading_rate_per_day, "acid_fading_rate_per_day", 0.5, 0.2, 1.0,
     Grade::d, "organic acids are eaten within days"},
    {ForecastParameter::lime_rate_per_day, "lime_rate_per_day", 0.2, 0.05, 1.0, Grade::d,
     "ground carbonate against acid; coarse shell far slower"},
    {ForecastParameter::nitrification_rate_per_day, "nitrification_rate_per_day", 0.10, 0.02, 0.50,
     Grade::d, "ammonium taken up or nitrified"},
    {ForecastParameter::volatilisation_rate_per_day, "volatilisation_rate_per_day", 1.0, 0.2, 5.0,
     Grade::d, "loss of free ammonia to the air"},
    {ForecastParameter::product_cn_ratio, "product_cn_ratio", 12.0, 10.0, 12.0, Grade::a,
     "C:N of the receiving pools, CLM-CN, CLM5 technical note"},
    {ForecastParameter::worm_intake_wet_kg_per_kg_day, "worm_intake_wet_kg_per_kg_day", 1.25, 0.5,
     1.25, Grade::a, "Ndegwa, Thompson & Das 2000 (Bioresour. Technol. 71:5); low end half a day"},
    {ForecastParameter::share_without_worms, "share_without_worms", 0.35, 0.2, 0.8, Grade::d,
     "from the fall of respiration in manure with 51 % and without worms 22 %, Atiyeh 2000"},
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
