#pragma once
// Work on a bed by hand, and the bed after it: changed by the one rule of notes, judged by the one
// check, fed by the one ration.
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "feed/bed/rounded_amount.hpp"
#include "feed/diary/bed_change.hpp"
#include "feed/ration/decide.hpp"

namespace feed {

/// A bed before and after some work on it.
struct BedAfter {
    BedChange change;
    std::array<Level, hazard_count> before{};  ///< without food
    std::array<Level, hazard_count> after{};   ///< without food
    double salt_before = 0.0;                  ///< share of the wet mass
    double salt_after = 0.0;
    double wetness_before = 0.0;  ///< water as a share of what the bed can hold
    double wetness_after = 0.0;
    Ration ration;              ///< of the bed after, with what is at hand
    double two_weeks_kg = 0.0;  ///< the most scraps of the two weeks after, by the same ration

    /// Hazards that are worse after than before.
    std::vector<Hazard> worse() const {
        std::vector<Hazard> found;
        for (std::size_t h = 0; h < hazard_count; ++h) {
            const auto hazard = static_cast<Hazard>(h);
            if (hazard != Hazard::underfed && is_raised(after[h]) && after[h] > before[h])
                found.push_back(hazard);
        }
        return found;
    }
};

/// What a ration is decided from after some work on the bed: as if it were noted today.
inline RationInput with_change(RationInput in, const BedChange& change) {
    apply_change(in.bed, change);
    return in;
}

namespace detail {

/// The bed of an input without food: its numbers and what is raised.
struct BedJudged {
    std::array<Level, hazard_count> levels{};
    double salt = 0.0;
    double wetness = 0.0;
    double two_weeks_kg = 0.0;
    StepMaterials materials;
};

inline BedJudged judged(const RationInput& in) {
    Ration unused;
    const RationWork work = work_of(in, unused);
    BedJudged bed;
    for (std::size_t h = 0; h < hazard_count; ++h)
        bed.levels[h] = work.idle.of[h].level;
    bed.salt = work.numbers.salt_kg.value / std::max(work.numbers.wet_kg, 1e-9);
    bed.wetness = work.idle[Hazard::wet].value.value;
    bed.two_weeks_kg =
        rounded_mass(std::max(0.0, 2.0 * work.allowed * work.week_kg), false, in.units);
    bed.materials = work.materials;
    return bed;
}

/// Shares of a bed that a keeper can tell, largest first.
inline constexpr std::array<double, 6> shares_told{2.0 / 3.0, 0.5, 1.0 / 3.0, 0.25, 0.2, 0.1};

}  // namespace detail

/// Judges a bed before and after some work on it. Threads: pure. Time: a ration.
inline BedAfter bed_after(const RationInput& in, BedChange change) {
    const detail::BedJudged before = detail::judged(in);
    const RationInput changed = with_change(in, change);
    const detail::BedJudged after = detail::judged(changed);
    BedAfter answer;
    answer.change = std::move(change);
    answer.before = before.levels;
    answer.after = after.levels;
    answer.salt_before = before.salt;
    answer.salt_after = after.salt;
    answer.wetness_before = before.wetness;
    answer.wetness_after = after.wetness;
    answer.two_weeks_kg = after.two_weeks_kg;
    answer.ration = ration(changed);
    return answer;
}

/// Fills a changed bed up: loose bedding, and as much water as brings the bed to the aim of its
/// wetness and raises nothing. Amounts are as printed, so that the note of them gives the same bed.
/// @param loose_m3  of bedding as it is torn, at least 0.
inline void fill_up(const RationInput& in, double loose_m3, BedChange& change) {
    const detail::BedJudged before = detail::judged(in);
    const StepMaterials& materials = before.materials;
    const double bedding_kg = detail::rounded_mass(
        loose_m3 * detail::loose_kg_per_m3(*materials.bedding), false, in.units);
    if (bedding_kg > 0.0) change.bedding.push_back({materials.bedding, wet_kilograms(bedding_kg)});
    const CompletedBed filled = completed(with_change(in, change).bed);
    const double wanted_kg = limits::wetness_aim.value * in_kilograms(filled.water_capacity.value) -
                             in_kilograms(filled.water.value);
    if (!(wanted_kg > 0.05)) return;
    for (const double share : {1.0, 0.8, 0.6, 0.4, 0.2}) {
        change.water_kg = detail::rounded_volume(share * wanted_kg, false, in.units);
        const auto after = detail::judged(with_change(in, change)).levels;
        constexpr auto wet = static_cast<std::size_t>(Hazard::wet);
        constexpr auto airless = static_cast<std::size_t>(Hazard::airless);
        if (after[wet] <= before.levels[wet] && after[airless] <= before.levels[airless]) return;
    }
    change.water_kg = 0.0;
}

}  // namespace feed
