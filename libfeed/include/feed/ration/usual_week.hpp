#pragma once
#include <algorithm>
#include <cstddef>
#include <memory>
#include <vector>

#include "feed/feedstock/table.hpp"
#include "feed/ration/ration.hpp"
#include "feed/ration/work.hpp"

// What goes into a bin in a week, for what looks months ahead.
namespace feed::detail {

inline constexpr double usual_feeding_days = 56.0;

/// The work of a ration for a bed that has settled. The first weeks of a bin are few; what counts
/// is what it eats when it has grown.
/// @param grown  set to what the work refers to.
inline RationWork settled_work(const RationInput& in, RationInput& grown) {
    grown = in;
    grown.bed.age = days(10.0 * limits::ramp_full_days.value);
    Ration unused;
    return work_of(grown, unused);
}

/// What goes in each week: as the diary says of the last weeks, else soft mixed scraps by the
/// week's ration with their volume of cardboard.
inline std::vector<Portion> usual_week(const RationInput& in, bool& from_diary) {
    double oldest = 0.0;
    std::vector<Portion> sum;
    for (const Feeding& feeding : in.bed.earlier) {
        const double ago = -in_days(feeding.day);
        if (ago > usual_feeding_days || ago <= 0.0) continue;
        oldest = std::max(oldest, ago);
        for (const Portion& portion : feeding.portions) {
            const auto same = std::find_if(sum.begin(), sum.end(), [&](const Portion& one) {
                return same_material(*one.feedstock, *portion.feedstock);
            });
            if (same == sum.end())
                sum.push_back(portion);
            else
                same->wet_mass = same->wet_mass + portion.wet_mass;
        }
    }
    constexpr double least_span = 14.0;
    from_diary = oldest >= least_span;
    if (from_diary) {
        for (Portion& portion : sum)
            portion.wet_mass = wet_kilograms(portion.wet_mass.in_kilograms() * 7.0 / oldest);
        return sum;
    }
    RationInput grown;
    const RationWork work = settled_work(in, grown);
    constexpr std::size_t mixed = *find_id("vegetable-produce-mixed");
    const auto scraps = std::make_shared<const Feedstock>(feedstock_at(mixed));
    const double litres_of_scraps = work.week_kg / loose_kg_per_m3(*scraps);
    return {{scraps, wet_kilograms(work.week_kg)},
            {work.materials.bedding,
             wet_kilograms(litres_of_scraps * loose_kg_per_m3(*work.materials.bedding))}};
}

}  // namespace feed::detail
