#pragma once
// Free ammonia in water: the part of ammonium that smells and harms.
#include <cmath>

#include "feed/quantity/units.hpp"

namespace feed::decay {

/// pKa of ammonium, 0.09018 + 2729.92 / T. Source: Emerson, Russo, Lund & Thurston 1975 (J. Fish.
/// Res. Board Can. 32:2379); a widespread misprint has 2727.92. Fitted from 0 to 50 C; outside, the
/// temperature is clamped.
inline double ammonium_pka(Temperature temperature) noexcept {
    const double celsius_now = in_celsius(temperature);
    const double clamped = celsius_now < 0.0 ? 0.0 : (celsius_now > 50.0 ? 50.0 : celsius_now);
    return 0.09018 + 2729.92 / (clamped + kelvin_at_zero_celsius);
}

/// Share of total ammonia that is free: 1/(1 + 10^(pKa - pH)). Source: Emerson et al. 1975.
/// @param ph  0..14.
inline double free_ammonia_share(double ph, Temperature temperature) noexcept {
    constexpr double log_ten = 2.302585092994046;  // an exp costs less than half of a pow
    return 1.0 / (1.0 + std::exp(log_ten * (ammonium_pka(temperature) - ph)));
}

}  // namespace feed::decay
