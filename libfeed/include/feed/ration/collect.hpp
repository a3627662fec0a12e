#pragma once
#include <algorithm>

#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/limits.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/ration/caps.hpp"
#include "feed/ration/ration.hpp"
#include "feed/ration/usual_week.hpp"

// How much of bedding and food a season needs, for whoever could collect it.
namespace feed {

/// What a bin wants in a week.
struct WeekNeed {
    double scraps_kg = 0.0;   ///< that go in as a rule
    double most_kg = 0.0;     ///< by the ration of a settled bed; 0: the bed takes none
    Ranged bedding_l{0.0};    ///< loose
    bool from_diary = false;  ///< by the diary of the last weeks, not by the ration
    double worms_kg = 0.0;
};

/// What a bin wants in a week: scraps as its diary says of the last eight weeks, else by its ration
/// once it is settled; loose bedding as the diary says, else a litre a litre of scraps. The range
/// is half to twice the volume of the scraps (common practice, as in `limits`), wider where the
/// diary lies outside. Threads: pure. Time: 10 ms.
inline WeekNeed week_need(const RationInput& in) {
    WeekNeed need;
    const CompletedBed full = completed(in.bed, in.units);
    need.worms_kg = bed_numbers(in.bed, full, {}).worms_kg.value;
    RationInput grown;
    need.most_kg = detail::settled_work(in, grown).week_kg;
    double scraps_l = 0.0;
    double laid_l = 0.0;
    for (const Portion& one : detail::usual_week(in, need.from_diary)) {
        const Feedstock& f = *one.feedstock;
        const double litres = 1000.0 * one.wet_mass.in_kilograms() / detail::loose_kg_per_m3(f);
        if (part_of(f) == Part::bedding) laid_l += litres;
        if (part_of(f) != Part::scraps) continue;
        scraps_l += litres;
        need.scraps_kg += one.wet_mass.in_kilograms();
    }
    const double value = laid_l > 0.0 ? laid_l : scraps_l;
    need.bedding_l =
        Ranged(value, std::min(value, limits::least_bedding_by_volume.value * scraps_l),
               std::max(value, limits::most_bedding_by_volume.value * scraps_l));
    return need;
}

/// The most of a food that is worth collecting for a week, kg: what its worms bear of it, and no
/// more than a ration of nothing else. 0 for what is never fed.
inline double most_in_week_kg(const Feedstock& f, const WeekNeed& need) {
    if (barred_in(f, Place::worm_bed)) return 0.0;
    return std::min(need.most_kg, detail::week_cap_kg(f, need.worms_kg));
}

}  // namespace feed
