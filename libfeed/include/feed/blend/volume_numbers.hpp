#pragma once
#include <algorithm>

#include "feed/blend/free_air_space.hpp"
#include "feed/blend/interval_sweep.hpp"

namespace feed::detail {

/// What the volumes of a blend follow from, m3, and its wet mass, kg.
struct VolumeSums {
    double wet_kg = 0.0;
    double loose = 0.0;  ///< typical, packed
    Range bedding, other, phases, settled_bedding, settled_other;
    double settled_bedding_typical = 0.0;
    double settled_other_typical = 0.0;
    double phases_typical = 0.0;
};

/// A number with its range; the range need not hold the number yet.
struct NumberRange3 {
    double value = 0.0;
    Range range;
};

/// Loose volume in m3, density in kg/m3 and share of air when settled.
struct VolumeNumbers {
    NumberRange3 volume, density, air;
};

/// The volumes of a blend from its sums. Constant time, pure.
inline VolumeNumbers volume_numbers(const VolumeSums& sums) {
    const auto packed = [](double bedding, double other, double loss) {
        return packed_volume(cubic_metres(bedding), cubic_metres(other), loss).value();
    };
    const auto over = [&sums](double cubic) { return cubic > 0.0 ? sums.wet_kg / cubic : 0.0; };
    const auto air = [](double phases, double space) {
        return space > phases ? 1.0 - phases / space : 0.0;
    };
    VolumeNumbers numbers;
    const Range loose{
        std::max(packed(sums.bedding.low, sums.other.low, packing_loss.high), sums.phases.low),
        std::max(packed(sums.bedding.high, sums.other.high, packing_loss.low), sums.phases.high)};
    numbers.volume = {sums.loose, loose};
    numbers.density = {over(sums.loose), {over(loose.high), over(loose.low)}};
    const double settled =
        packed(sums.settled_bedding_typical, sums.settled_other_typical, packing_loss.value);
    const Range space{packed(sums.settled_bedding.low, sums.settled_other.low, packing_loss.high),
                      packed(sums.settled_bedding.high, sums.settled_other.high, packing_loss.low)};
    numbers.air = {air(sums.phases_typical, settled),
                   {air(sums.phases.high, space.low), air(sums.phases.low, space.high)}};
    return numbers;
}

/// Whether a blend of these sums has a settled volume at all.
inline bool settles(const VolumeSums& sums) noexcept {
    return sums.settled_other.high + sums.settled_bedding.high > 0.0;
}

}  // namespace feed::detail
