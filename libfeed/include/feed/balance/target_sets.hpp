#pragma once
#include <algorithm>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "feed/balance/target.hpp"
#include "feed/feedstock/place.hpp"

namespace feed {

/// Targets of a feeding to a worm bed together with its bedding, as a recipe without a bed. Musts:
/// moisture at least 60 %, C:N at least 15, salt at most 0.5 % of the wet mass (harm above it:
/// Edwards 1998, table 18.3; Kaplan et al. 1980), 0.5 to 2 L of loose bedding a litre of scraps
/// (common practice: half to twice the volume), water only for what takes it up. Wishes: moisture
/// 70 to 85 % (range of published optima for Eisenia, Kaplan et al. 1980 and Edwards 1988, kept to
/// the part where a bin does not drown), C:N 20 to 50 (common practice; paper carbon is slow, so
/// more is no harm), salt 0.2 % (growth suffers above it: Wu et al. 2019). Threads: pure.
inline std::vector<Target> worm_bed_targets() {
    return {
        {TargetProperty::cn_ratio, 15.0, std::nullopt, 30.0, "common practice (total C:N)",
         "C:N ratio", 20.0, 50.0},
        {TargetProperty::moisture, 0.60, std::nullopt, 0.78,
         "Kaplan et al. 1980; Edwards 1988; common practice", "moisture", 0.70, 0.85},
        {TargetProperty::salt_wet_fraction, std::nullopt, 0.005, std::nullopt,
         "Kaplan et al. 1980; Edwards 1998, table 18.3; Wu et al. 2019", "salt", std::nullopt,
         0.002},
        {TargetProperty::bedding_l_per_scraps_l, 0.5, 2.0, std::nullopt,
         "common practice (judgement)", "bedding for scraps", std::nullopt, std::nullopt},
        {TargetProperty::water_over_room, std::nullopt, 1.0, std::nullopt,
         "common practice (judgement)", "water poured", std::nullopt, std::nullopt},
    };
}

/// Targets of a small heap that shall heat: never mixed with those of a worm bed.
/// Moisture: Richard and Trautmann 1996, 50-60 %. C:N 25-40 and 30: Rynk 1992 (recalled). Free air
/// space: at least 30 % (Haug 1993, recalled). Threads: pure.
inline std::vector<Target> hot_heap_targets() {
    return {
        {TargetProperty::cn_ratio, 25.0, 40.0, 30.0, "Rynk 1992 (recalled)", "C:N ratio",
         std::nullopt, std::nullopt},
        {TargetProperty::moisture, 0.50, 0.60, 0.55, "Richard and Trautmann 1996 (recalled)",
         "moisture", std::nullopt, std::nullopt},
        {TargetProperty::free_air_space, 0.30, std::nullopt, std::nullopt, "Haug 1993 (recalled)",
         "free air space", std::nullopt, std::nullopt},
    };
}

/// The least room in which a heap gets hot, m3: 3 ft each way (Oregon county extension page).
inline constexpr double least_hot_heap_m3 = 0.76;

/// A ready set by its name in files: "worm-bed" or "hot-heap"; nothing for any other name.
/// Threads: pure.
inline std::optional<std::vector<Target>> target_set(std::string_view name) {
    if (name == "worm-bed") return worm_bed_targets();
    if (name == "hot-heap") return hot_heap_targets();
    return std::nullopt;
}

/// The place that a ready set is for.
constexpr Place place_of_set(std::string_view name) noexcept {
    return name == "hot-heap" ? Place::heap : Place::worm_bed;
}

/// A ready set with the keeper's own targets: one on the same property replaces the whole window,
/// the others follow in their order. Threads: pure.
inline std::vector<Target> with_own_targets(std::vector<Target> ready,
                                            std::span<const Target> own) {
    for (const auto& target : own) {
        const auto same = std::find_if(ready.begin(), ready.end(), [&](const Target& other) {
            return other.property == target.property;
        });
        if (same == ready.end()) {
            ready.push_back(target);
        } else {
            *same = target;
        }
    }
    return ready;
}

}  // namespace feed
