#pragma once
// Water that leaves the surface of a bed.
#include <cmath>

namespace feed::decay {

/// Saturation vapour pressure over water in hPa: 6.112 exp(17.62 T / (243.12 + T)).
/// Source: WMO Guide No. 8, annex 4.B (Magnus form, recalled); -45 to 60 C, clamped outside.
inline double saturation_pressure_hpa(double temperature_c) noexcept {
    const double t = temperature_c < -45.0 ? -45.0 : (temperature_c > 60.0 ? 60.0 : temperature_c);
    return 6.112 * std::exp(17.62 * t / (243.12 + t));
}

/// Air around a bed, and what it takes once for many steps.
struct AirAround {
    double celsius = 20.0;
    double saturation_hpa = 0.0;

    explicit AirAround(double temperature_c) noexcept
        : celsius(temperature_c), saturation_hpa(saturation_pressure_hpa(temperature_c)) {}
};

/// Evaporation from a wet open surface in still air: coefficient x (e_s(bed) - RH e_s(air)), never
/// negative (no dew). Source: Penman 1948 (Proc. R. Soc. A 193:120), the aerodynamic term at wind
/// 0: 0.26 mm a day per hPa (recalled, converted from 0.35 mm a day per mmHg).
/// @param coefficient  mm (kg/m2) a day per hPa.
/// @param humidity     relative humidity of the air, 0..1.
/// @return kg per m2 and day.
inline double open_evaporation_kg_per_m2_day(double coefficient, double bed_c, const AirAround& air,
                                             double humidity) noexcept {
    const double deficit = saturation_pressure_hpa(bed_c) - humidity * air.saturation_hpa;
    return deficit > 0.0 ? coefficient * deficit : 0.0;
}

}  // namespace feed::decay
