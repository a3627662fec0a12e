#pragma once
#include <algorithm>

#include "feed/blend/free_air_space.hpp"
#include "feed/blend/mix.hpp"
#include "feed/quantity/range.hpp"

namespace feed::detail {

/// What the volumes of a blend follow from, m3, and its wet mass, kg.
struct VolumeSums {
    Range wet_kg;
    Range bedding, other, phases, settled_bedding, settled_other;
};

/// Loose volume in m3, density in kg/m3 and share of air when settled; the ranges need not hold the
/// values yet.
struct VolumeNumbers {
    Range volume, density, air;
};

/// The volumes of a blend from its sums. Constant time, pure.
inline VolumeNumbers volume_numbers(const VolumeSums& sums) noexcept {
    const auto packed = [](double bedding, double other, double loss) {
        return packed_volume(cubic_metres(bedding), cubic_metres(other), loss).value();
    };
    const auto over = [](double wet, double cubic) { return cubic > 0.0 ? wet / cubic : 0.0; };
    const auto air = [](double phases, double space) {
        return space > phases ? 1.0 - phases / space : 0.0;
    };
    constexpr Range loss(assumed::packing_loss);
    VolumeNumbers numbers;
    numbers.volume = {
        loose_volume_m3(sums.bedding.value, sums.other.value, sums.phases.value),
        std::max(packed(sums.bedding.low, sums.other.low, loss.high), sums.phases.low),
        std::max(packed(sums.bedding.high, sums.other.high, loss.low), sums.phases.high)};
    const Range& loose = numbers.volume;
    numbers.density = {over(sums.wet_kg.value, loose.value), over(sums.wet_kg.low, loose.high),
                       over(sums.wet_kg.high, loose.low)};
    const Range space{packed(sums.settled_bedding.value, sums.settled_other.value, loss.value),
                      packed(sums.settled_bedding.low, sums.settled_other.low, loss.high),
                      packed(sums.settled_bedding.high, sums.settled_other.high, loss.low)};
    numbers.air = {air(sums.phases.value, space.value), air(sums.phases.high, space.low),
                   air(sums.phases.low, space.high)};
    return numbers;
}

/// Whether a blend of these sums has a settled volume at all.
inline bool settles(const VolumeSums& sums) noexcept {
    return sums.settled_other.high + sums.settled_bedding.high > 0.0;
}

}  // namespace feed::detail
