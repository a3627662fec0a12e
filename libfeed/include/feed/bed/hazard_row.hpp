#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <string_view>

#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/feeding_rules.hpp"
#include "feed/bed/free_ammonia.hpp"
#include "feed/bed/hazard.hpp"
#include "feed/bed/heat.hpp"
#include "feed/bed/load.hpp"

// Each hazard once: what it is measured in, where it begins, and the two sums it is the quotient
// of. The number that a check judges and the row that a ration gives to the solver come from the
// same sums.
namespace feed {

/// A bed that is about to be fed on a part of its surface: what the hazards are sums over.
struct FeedingPlace {
    const BedNumbers* bed = nullptr;
    double spread_m2 = 0.0;     ///< surface over which the food is laid, above 0
    FeedingRules rules;         ///< of this bed
    double pocket_share = 0.0;  ///< of the bed: it shares air, acid and salt with the food
};

/// The place for a feeding. Constant time, no allocation.
/// @param spread_m2  above 0 and at most the surface of the bed.
inline FeedingPlace feeding_place(const BedNumbers& bed, double spread_m2) noexcept {
    const double margin = limits::pocket_margin.value;
    const double side = std::sqrt(spread_m2) + 2.0 * margin;
    const double area = std::min(bed.surface_m2, side * side);
    const double depth = std::min(bed.contents_m3 / bed.surface_m2, bed.zone_depth_m + margin);
    return {&bed, spread_m2, feeding_rules(bed),
            std::clamp(area * depth / bed.contents_m3, 1e-6, 1.0)};
}

/// Where a hazard begins (`watch`) and where it is certain (`act`).
struct HazardLimits {
    double watch = 0.0;
    double act = 0.0;
};

/// One hazard as a quotient of two sums, each a constant of the bed plus what a load brings.
struct HazardRow {
    Hazard hazard;
    std::string_view unit;
    bool higher_is_worse;
    bool can_act;
    bool by_mass;  ///< water and lime add to the lower sum and still take nothing away
    Ranged (*upper_sum)(const FeedingPlace&, const Load&);
    double (*lower_sum)(const FeedingPlace&, const Load&);
    HazardLimits (*limits)(const FeedingPlace&);
    std::string_view (*source)(const BedNumbers&);
};

/// Value and limits of one hazard, before any words.
struct HazardNumber {
    Ranged value;
    double watch = 0.0;
    double act = 0.0;
    bool higher_is_worse = true;
    bool can_act = true;
    Knowledge knowledge = Knowledge::known;
    double covered = 1.0;
    Level level = Level::none;
    std::string_view unit;    ///< of value and limits
    std::string_view source;  ///< of the limits
};

namespace detail {

/// Air in a share of the bed and in what is laid on it, m3; poured water runs through the whole
/// bed.
inline double air_after(const BedNumbers& bed, const Load& load, double share_of_bed,
                        double of_bed_air = 1.0) noexcept {
    const double ash = limits::bed_ash.value;
    const double solids = bed.dry_kg * ((1.0 - ash) / assumed::organic_density.value +
                                        ash / assumed::ash_density.value);
    const double bed_air = bed.contents_m3 - solids - bed.water_kg / 1000.0;
    const double water = load.water_kg.value - (1.0 - share_of_bed) * load.poured_kg;
    return share_of_bed * of_bed_air * bed_air + load.settled_m3 - load.solids_m3 - water / 1000.0;
}

/// All the water that bed and bedding come to hold.
inline Ranged water_held(const FeedingPlace& p, const Load& load) noexcept {
    const BedNumbers& bed = *p.bed;
    return Ranged(bed.water_kg + bed.free_water_kg.value + load.free_water_kg.value +
                  load.bedding_water_kg.value);
}
/// The same less what evaporates until the next feeding: a bed is wet before it dries.
inline Ranged water_kept(const FeedingPlace& p, const Load& load) noexcept {
    return water_held(p, load) - Ranged(p.bed->evaporation_kg.value);
}
inline double water_room(const FeedingPlace& p, const Load& load) noexcept {
    return std::max(1e-9, p.bed->capacity_kg.value + load.capacity_kg.value);
}
inline Ranged acid_left(const FeedingPlace& p, const Load& load) noexcept {
    const BedNumbers& bed = *p.bed;
    const Ranged formed = 1000.0 * ((p.pocket_share * bed.labile_kg + load.labile_kg) *
                                    Ranged(limits::acid_from_labile));
    const Ranged lime = (p.pocket_share * bed.lime_g) * Ranged(limits::ground_lime_acting) +
                        p.pocket_share * bed.fed_lime_g + load.lime_g;
    return p.pocket_share * bed.acid_g + load.acid_g + formed -
           limits::grams_citric_per_gram_lime.value * lime;
}
inline double acid_air_litres(const FeedingPlace& p, const Load& load) noexcept {
    // A drowned pocket keeps a twentieth of its volume as air, so that divisions hold.
    const double least = 50.0 * (p.pocket_share * p.bed->contents_m3 + load.settled_m3);
    return std::max(least, 1000.0 * air_after(*p.bed, load, p.pocket_share, p.bed->settled_share));
}
inline double pocket_wet_kg(const FeedingPlace& p, const Load& load) noexcept {
    return p.pocket_share * p.bed->wet_kg + load.wet_kg;
}
/// A week's ration of a settled, warm bed: what fat is judged against.
inline double full_week_kg(const FeedingPlace& p, const Load&) noexcept {
    return std::max(0.05, 7.0 * p.rules.rules[p.rules.lowest].wet_kg_per_day);
}
inline double one(const FeedingPlace&, const Load&) noexcept {
    return 1.0;
}
inline HazardLimits limits_of_row(const Limit& limit) noexcept {
    return {limit.watch, limit.act};
}
/// Total ammonia, or less of it where the bed is so warm or alkaline that more of it is free.
inline HazardLimits ammonia_limits(const FeedingPlace& p) noexcept {
    const double free = decay::free_ammonia_share(p.bed->ph.value_or(limits::unmeasured_ph.value),
                                                  celsius(p.bed->temperature_high_c));
    return {std::min(limits::ammonia_nitrogen.watch, limits::free_ammonia_nitrogen.watch / free),
            std::min(limits::ammonia_nitrogen.act, limits::free_ammonia_nitrogen.act / free)};
}

template <const Limit& limit>
constexpr std::string_view source_of_limit(const BedNumbers&) noexcept {
    return limit.source;
}

inline constexpr std::size_t hazard_row_count = 12;
/// In the order in which they are judged; a hazard with two rows is as bad as the worse of them.
inline constexpr std::array<HazardRow, hazard_row_count> hazard_rows{{
    {Hazard::sour, "g citric/L air", true, true, false, acid_left, acid_air_litres,
     [](const FeedingPlace&) { return limits_of_row(limits::acid_per_air_litre); },
     source_of_limit<limits::acid_per_air_litre>},
    {Hazard::wet, "kg water/kg held", true, true, false, water_held, water_room,
     [](const FeedingPlace&) { return limits_of_row(limits::wet_share); },
     source_of_limit<limits::wet_share>},
    {Hazard::dry, "kg water/kg held", false, true, false, water_kept, water_room,
     [](const FeedingPlace&) { return limits_of_row(limits::dry_share); },
     source_of_limit<limits::dry_share>},
    {Hazard::ammonia, "g N/kg", true, true, true,
     [](const FeedingPlace&, const Load& load) { return load.surplus_nitrogen_g; }, pocket_wet_kg,
     ammonia_limits, source_of_limit<limits::ammonia_nitrogen>},
    {Hazard::salty, "kg/kg", true, true, true,
     [](const FeedingPlace& p, const Load& load) {
         return p.pocket_share * p.bed->salt_kg + load.salt_kg;
     },
     pocket_wet_kg, [](const FeedingPlace&) { return limits_of_row(limits::salt); },
     source_of_limit<limits::salt>},
    {Hazard::overfed, "kg/kg/day", true, true, false,
     [](const FeedingPlace& p, const Load& load) {
         return Ranged(p.bed->recent_scraps_kg + load.scraps_wet_kg);
     },
     [](const FeedingPlace& p, const Load&) {
         return p.bed->worms_kg.value * p.bed->rate_window_days;
     },
     [](const FeedingPlace& p) {
         return HazardLimits{p.rules.start_wet_kg_per_day / p.bed->worms_kg.value,
                             p.rules.most_wet_kg_per_day / p.bed->worms_kg.value};
     },
     [](const BedNumbers& bed) { return feeding_rules(bed).source(); }},
    {Hazard::overfed, "kg", true, false, false,
     [](const FeedingPlace& p, const Load& load) {
         return p.bed->soft_food_kg + Ranged(load.scraps_wet_kg);
     },
     one,
     [](const FeedingPlace& p) {
         const double most = std::min(limits::most_soft_share.value * p.rules.start_wet_kg_per_day,
                                      p.rules.rules[2].wet_kg_per_day);
         return HazardLimits{7.0 * most, 14.0 * most};
     },
     [](const BedNumbers&) { return limits::most_soft_share.source; }},
    {Hazard::underfed, "kg/kg/day", false, false, false,
     [](const FeedingPlace& p, const Load& load) {
         return Ranged(p.bed->scraps_kg + load.scraps_wet_kg);
     },
     [](const FeedingPlace& p, const Load&) {
         return p.bed->worms_kg.value * limits::underfed_days.value;
     },
     // A judgement on the bed, never on one feeding: only a diary that goes back so far can tell
     // it. Nobody is hungry at half of what the bed should start with, so a bed that is fed by its
     // rules is never called underfed.
     [](const FeedingPlace& p) {
         if (!p.bed->hunger_known) return HazardLimits{};
         return HazardLimits{std::min(p.bed->rate_factor * limits::underfed_rate.watch,
                                      0.5 * p.rules.start_wet_kg_per_day / p.bed->worms_kg.value),
                             limits::underfed_rate.act};
     },
     source_of_limit<limits::underfed_rate>},
    {Hazard::airless, "L/L", false, true, false,
     [](const FeedingPlace& p, const Load& load) {
         return Ranged(air_after(*p.bed, load, p.pocket_share));
     },
     [](const FeedingPlace& p, const Load& load) {
         return p.pocket_share * p.bed->contents_m3 + load.settled_m3;
     },
     [](const FeedingPlace&) { return limits_of_row(limits::free_air_space); },
     source_of_limit<limits::free_air_space>},
    {Hazard::airless, "m", true, true, false,
     [](const FeedingPlace& p, const Load& load) {
         return Ranged(load.scraps_settled_m3 / p.spread_m2);
     },
     one, [](const FeedingPlace&) { return limits_of_row(limits::layer_depth); },
     source_of_limit<limits::layer_depth>},
    {Hazard::greasy, "kg/kg", true, true, true,
     [](const FeedingPlace&, const Load& load) { return load.fat_kg; }, full_week_kg,
     [](const FeedingPlace&) { return limits_of_row(limits::fat); }, source_of_limit<limits::fat>},
    {Hazard::cold, "deg C", false, true, false,
     [](const FeedingPlace& p, const Load&) {
         return Ranged(p.bed->temperature_c, p.bed->temperature_low_c, p.bed->temperature_high_c);
     },
     one,
     [](const FeedingPlace& p) {
         return HazardLimits{limits::cold_watch.value, in_celsius(p.bed->species->coldest)};
     },
     [](const BedNumbers& bed) { return bed.species->temperature_source; }},
}};

/// The first row of a hazard. @param hazard  one that has a row: all but hot.
constexpr const HazardRow& row_of(Hazard hazard) noexcept {
    std::size_t i = 0;
    while (i + 1 < hazard_row_count && hazard_rows[i].hazard != hazard)
        ++i;
    return hazard_rows[i];
}

/// The largest number of the rows of a hazard. @param numbers  one for each row.
inline double most_of_rows(const std::array<double, hazard_row_count>& numbers,
                           Hazard hazard) noexcept {
    double most = 0.0;
    for (std::size_t i = 0; i < hazard_row_count; ++i) {
        if (hazard_rows[i].hazard == hazard) most = std::max(most, numbers[i]);
    }
    return most;
}

/// act: past the act limit, and not even the kindest reading of the numbers is safe.
/// watch: past the watch limit. Each test only ever rises with the value.
inline void judge(HazardNumber& n) noexcept {
    if (n.knowledge == Knowledge::unknown) {
        n.level = Level::unknown;
        return;
    }
    const double sign = n.higher_is_worse ? 1.0 : -1.0;
    const double kindest = n.higher_is_worse ? n.value.low : n.value.high;
    if (n.can_act && sign * (n.value.value - n.act) > 0.0 && sign * (kindest - n.watch) > 0.0)
        n.level = Level::act;
    else if (sign * (n.value.value - n.watch) > 0.0)
        n.level = Level::watch;
    else
        n.level = Level::none;
}

/// A missing property may concern at most this share of the scraps.
inline constexpr double missing_share_allowed = 0.1;

inline void set_missing(HazardNumber& n, double missing_kg, double concerned_kg) noexcept {
    if (missing_kg <= 0.0 || concerned_kg <= 0.0) return;
    n.covered = std::max(0.0, 1.0 - missing_kg / concerned_kg);
    n.knowledge = missing_kg <= missing_share_allowed * concerned_kg ? Knowledge::at_least
                                                                     : Knowledge::unknown;
}

/// How far the share of water is known. Errors of independent numbers are added in quadrature: the
/// worst of all at once would never let the check decide anything. How much water the food sets
/// free is left out on the kind side: food only ever brings water, so more of it is never less
/// serious.
/// @param food_water  the water of the food whose error counts.
inline double wetness_error(const FeedingPlace& p, const Load& load, double limit,
                            const Ranged& food_water) noexcept {
    const BedNumbers& bed = *p.bed;
    const auto half = [](const Ranged& r) { return 0.5 * (r.high - r.low); };
    const double bed_error =
        bed.water_follows_capacity
            ? std::hypot(half(bed.capacity_kg) * std::abs(limit - bed.saturation.value),
                         bed.capacity_kg.value * half(bed.saturation))
            : std::hypot(limit * half(bed.capacity_kg), bed.water_error_kg);
    const double error = std::sqrt(
        bed_error * bed_error + std::pow(half(bed.free_water_kg + food_water), 2) +
        std::pow(half(bed.evaporation_kg), 2) + std::pow(limit * half(load.capacity_kg), 2));
    return error / water_room(p, load);
}

inline HazardNumber number_of_row(const HazardRow& row, const FeedingPlace& p,
                                  const Load& load) noexcept {
    HazardNumber n;
    const HazardLimits limit = row.limits(p);
    n.watch = limit.watch;
    n.act = limit.act;
    n.higher_is_worse = row.higher_is_worse;
    n.can_act = row.can_act;
    n.unit = row.unit;
    n.source = row.source(*p.bed);
    n.value = (1.0 / row.lower_sum(p, load)) * row.upper_sum(p, load);
    switch (row.hazard) {
        case Hazard::wet:
        case Hazard::dry: {
            const double kind = wetness_error(p, load, n.watch, Ranged(0.0));
            const double harsh = wetness_error(p, load, n.watch, load.free_water_kg);
            n.value = {n.value.value, n.value.value - kind, n.value.value + harsh};
            break;
        }
        case Hazard::overfed:
            if (row.unit == "kg/kg/day")
                n.value = n.value.value * (Ranged(p.bed->worms_kg.value) / p.bed->worms_kg);
            break;
        case Hazard::airless:
            if (!row.higher_is_worse) {
                constexpr double packing = 0.05;  // what a settled density is good to
                n.value = Ranged(n.value.value, n.value.value - packing, n.value.value + packing);
            }
            break;
        case Hazard::ammonia:
            set_missing(n, load.nitrogen_missing_kg, load.scraps_wet_kg);
            break;
        case Hazard::salty:
            set_missing(n, load.salt_missing_kg, load.scraps_wet_kg);
            break;
        case Hazard::greasy:
            set_missing(n, load.fat_missing_kg, load.scraps_wet_kg);
            break;
        default:
            break;
    }
    if (row.hazard != Hazard::cold) n.value = n.value.floored();
    judge(n);
    return n;
}

/// The warmest that food and bed get in the days after feeding. The food is watched above what the
/// worms bear, because they can leave it; it is certain harm where the bed itself is that warm, or
/// where the food is too hot for the bed around it to be a refuge.
inline HazardNumber hot_number(const FeedingPlace& place, const Load& load) noexcept {
    const BedNumbers& bed = *place.bed;
    const double side = std::sqrt(bed.surface_m2);
    const HeatBed around{bed.surface_m2,
                         outer_faces_m2(side, side, bed.contents_m3 / bed.surface_m2),
                         bed.wet_kg,
                         bed.labile_kg,
                         {bed.temperature_c, bed.temperature_low_c, bed.temperature_high_c}};
    const PocketAndBed heat = pocket_and_bed_heat(
        {load.labile_kg, load.scraps_wet_kg, load.scraps_settled_m3, place.spread_m2}, around);
    HazardNumber n;
    n.unit = "deg C";
    n.source = bed.species->temperature_source;
    n.watch = in_celsius(bed.species->warmest);
    n.act = place.pocket_share > limits::large_pocket_share.value ? limits::large_pocket_act.value
                                                                  : limits::pocket_act.value;
    n.value = load.scraps_wet_kg > 0.0 ? heat.pocket_c : heat.bed_c;
    if (heat.bed_c.value > n.watch) n.act = n.watch;
    judge(n);
    return n;
}

}  // namespace detail

/// How far a hazard is past a limit, in units of its lower sum: at most 0 where it is absent.
/// Linear in the load, so the coefficient of a portion is the difference to the load without it.
/// @param margin  by how much of itself the limit is drawn in.
inline double excess_of_row(const HazardRow& row, const FeedingPlace& p, const Load& load,
                            double limit, double margin) noexcept {
    const double sign = row.higher_is_worse ? 1.0 : -1.0;
    const double drawn = limit * (1.0 - sign * margin);
    return sign * (row.upper_sum(p, load).value - drawn * row.lower_sum(p, load));
}

/// Judges one hazard of a load in a bed. Constant time, no allocation.
inline HazardNumber hazard_number(Hazard hazard, const FeedingPlace& place,
                                  const Load& load) noexcept {
    if (hazard == Hazard::hot) return detail::hot_number(place, load);
    HazardNumber worst_row;
    bool first = true;
    for (const HazardRow& row : detail::hazard_rows) {
        if (row.hazard != hazard) continue;
        const HazardNumber n = detail::number_of_row(row, place, load);
        if (first || (n.level != Level::unknown && n.level > worst_row.level)) worst_row = n;
        first = false;
    }
    return worst_row;
}

/// All hazards of one feeding in one bed.
struct HazardNumbers {
    std::array<HazardNumber, hazard_count> of;

    const HazardNumber& operator[](Hazard h) const { return of[static_cast<std::size_t>(h)]; }
    HazardNumber& operator[](Hazard h) { return of[static_cast<std::size_t>(h)]; }
};

/// Judges a load in a bed: the number part of the check. Constant time, no allocation.
inline HazardNumbers hazard_numbers(const FeedingPlace& place, const Load& load) noexcept {
    HazardNumbers n;
    for (std::size_t h = 0; h < hazard_count; ++h)
        n.of[h] = hazard_number(static_cast<Hazard>(h), place, load);
    return n;
}

constexpr bool is_raised(Level level) noexcept {
    return level == Level::watch || level == Level::act;
}

}  // namespace feed
