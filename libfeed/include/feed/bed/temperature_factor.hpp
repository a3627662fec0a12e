#pragma once
// How temperature speeds or slows decay: one factor for what a check judges and a forecast follows.
#include <cmath>

namespace feed::decay {

/// Which published temperature response is used.
enum class TemperatureResponse : unsigned char {
    haug,     ///< Haug 1993: rises to about 71 C, zero at 80 C
    clm_q10,  ///< CLM5 technical note: Q10 = 1.5 with reference 25 C
};

/// The bracket of Haug's rate: 1.066^(T-20) - 1.21^(T-60), clamped to 0 above 80.18 C where it
/// would turn negative. Source: Haug 1993, The Practical Handbook of Compost Engineering (formula
/// and constants recalled).
inline double haug_bracket(double temperature_c) noexcept {
    constexpr double log_rise = 0.06391332574365285;  // ln 1.066
    constexpr double log_fall = 0.1906203596086497;   // ln 1.21
    const double bracket =
        std::exp(log_rise * (temperature_c - 20.0)) - std::exp(log_fall * (temperature_c - 60.0));
    return bracket > 0.0 ? bracket : 0.0;
}

/// 1.066^5 - 1.21^-35: rates are said at 25 C.
inline constexpr double haug_bracket_at_25 = 1.3752648576;

/// Above this the factor stays where it is (D): no worm bed is hotter, and a bed that is has become
/// a heap, whose self-heating these formulas would overstate without its cooling by steam.
inline constexpr double warmest_for_rates_c = 35.0;

/// Temperature factor, 1 at 25 C, of a worm bed. Below 0 C, where nothing was fitted and the water
/// freezes, it is 0; above 35 C it is held.
/// @param temperature_c  of the bed.
inline double temperature_factor(double temperature_c, TemperatureResponse response) noexcept {
    if (temperature_c < 0.0) return 0.0;
    const double held = temperature_c > warmest_for_rates_c ? warmest_for_rates_c : temperature_c;
    if (response == TemperatureResponse::haug) return haug_bracket(held) / haug_bracket_at_25;
    return std::pow(1.5, (held - 25.0) / 10.0);
}

}  // namespace feed::decay
