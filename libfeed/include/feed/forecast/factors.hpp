#pragma once
// How moisture, air and nitrogen speed or slow decay, beside temperature. Each factor is 1 at the
// state its rates were measured in and is clamped to where its formula holds.
#include <cmath>

#include "feed/bed/temperature_factor.hpp"

namespace feed::decay {

/// Moisture factor 1/(exp(7.0622 - 17.684 m) + 1): slows a dry bed, never punishes a wet one (air
/// does that). Source: Haug 1993 (recalled).
/// @param moisture  water over wet mass, 0..1.
inline double moisture_factor(double moisture) noexcept {
    return 1.0 / (std::exp(7.0622 - 17.684 * moisture) + 1.0);
}

/// Free-air-space factor 1/(exp(3.4945 - 23.675 f) + 1). Source: Haug 1993 (recalled).
/// @param free_air_space  air-filled share of the volume; below 0 counts as 0.
inline double air_factor(double free_air_space) noexcept {
    const double f = free_air_space > 0.0 ? free_air_space : 0.0;
    return 1.0 / (std::exp(3.4945 - 23.675 * f) + 1.0);
}

/// Nitrogen factor min(1, exp(-0.693 (CN - 25)/25)): halves at 50. Held at its C:N 100 value
/// (0.125) beyond, where nothing was fitted (D).
/// Source: CERES-N / EPIC residue decay (recalled).
/// @param cn_ratio  total carbon over total nitrogen, at least 0.
inline double nitrogen_factor(double cn_ratio) noexcept {
    if (!(cn_ratio > 25.0)) return 1.0;
    const double clamped = cn_ratio > 100.0 ? 100.0 : cn_ratio;
    return std::exp(-0.693 * (clamped - 25.0) / 25.0);
}

/// Share of the nitrogen leaving a pool that becomes ammonium: 1 - (1 - respired) CN_pool / CN_new.
/// Negative where the new matter must take nitrogen up instead.
/// Source: CLM5 technical note, decomposition, eq. 21.12 divided by the nitrogen flux.
/// @param respired   share of the carbon respired, 0..1.
/// @param pool_cn    C:N of what decays.
/// @param product_cn C:N of what it becomes, above 0.
inline double mineralised_share(double respired, double pool_cn, double product_cn) noexcept {
    return 1.0 - (1.0 - respired) * pool_cn / product_cn;
}

/// Air-filled share of a volume: 1 minus water, organic and mineral solids at 1000, 1600 and
/// 2500 kg/m3. Source: Richard, Veeken, de Wilde & Hamelers 2004 (Biotechnol. Prog. 20:1372;
/// constants recalled). Negative when more is in the volume than fits.
inline double free_air_space(double volume_l, double water_kg, double organic_kg,
                             double ash_kg) noexcept {
    return 1.0 - (water_kg + organic_kg / 1.6 + ash_kg / 2.5) / volume_l;
}

}  // namespace feed::decay
