#pragma once
#include <algorithm>
#include <array>
#include <cmath>

#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/feeding_rules.hpp"
#include "feed/bed/free_ammonia.hpp"
#include "feed/bed/hazard.hpp"
#include "feed/bed/load.hpp"

namespace feed {

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
};

/// All hazards of one feeding in one bed.
struct HazardNumbers {
    std::array<HazardNumber, hazard_count> of;
    double free_ammonia_g_per_kg = 0.0;   ///< at the measured pH, or 0 without one
    double limed_ammonia_g_per_kg = 0.0;  ///< what it would be after lime

    const HazardNumber& operator[](Hazard h) const { return of[static_cast<std::size_t>(h)]; }
    HazardNumber& operator[](Hazard h) { return of[static_cast<std::size_t>(h)]; }
};

namespace detail {

inline constexpr double kilojoules_a_day_to_watts = 1000.0 / 86400.0;
/// A missing property may concern at most this share of the scraps.
inline constexpr double missing_share_allowed = 0.1;

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

inline void set_missing(HazardNumber& n, double missing_kg, double concerned_kg) noexcept {
    if (missing_kg <= 0.0 || concerned_kg <= 0.0) return;
    n.covered = std::max(0.0, 1.0 - missing_kg / concerned_kg);
    n.knowledge = missing_kg <= missing_share_allowed * concerned_kg ? Knowledge::at_least
                                                                     : Knowledge::unknown;
}

/// Water to be taken up against the room there is. Errors of independent numbers are added in
/// quadrature: the worst of all at once would never let the check decide anything.
inline HazardNumber wet_number(const BedNumbers& bed, const Load& load) noexcept {
    HazardNumber n;
    const Ranged free = bed.free_water_kg + load.free_water_kg;
    const double water = free.value - bed.evaporation_kg.value;
    const double share = limits::planned_capacity_share.value;
    const double most_share = limits::planned_capacity_share.high;
    const double capacity = bed.capacity_kg.value + load.capacity_kg.value;
    const double held = bed.water_kg + load.bedding_water_kg.value;
    n.watch = share * capacity - held;
    n.act = most_share * capacity - held;
    const auto half = [](const Ranged& r) { return 0.5 * (r.high - r.low); };
    const double bed_error =
        bed.water_follows_capacity
            ? std::hypot(half(bed.capacity_kg) * std::abs(share - bed.saturation.value),
                         bed.capacity_kg.value * half(bed.saturation))
            : std::hypot(share * half(bed.capacity_kg), bed.water_error_kg);
    const double error = std::sqrt(bed_error * bed_error + std::pow(half(free), 2) +
                                   std::pow(half(bed.evaporation_kg), 2) +
                                   std::pow(share * half(load.capacity_kg), 2));
    n.value = {water, water - error, water + error};
    return n;
}

inline HazardNumber dry_number(const BedNumbers& bed, const Load& load) noexcept {
    HazardNumber n;
    n.higher_is_worse = false;
    n.watch = bed.species->moisture_low.value();
    n.act = bed.species->driest.value();
    const double dry = bed.dry_kg + load.dry_kg.value;
    const auto moisture = [dry](double water) { return water > 0.0 ? water / (water + dry) : 0.0; };
    const double water = bed.water_kg + load.water_kg.value - bed.evaporation_kg.value;
    const double error = std::sqrt(
        bed.water_error_kg * bed.water_error_kg * (bed.water_follows_capacity ? 0.25 : 1.0) +
        std::pow(0.5 * (bed.evaporation_kg.high - bed.evaporation_kg.low), 2));
    n.value = {moisture(water), moisture(water - error), moisture(water + error)};
    return n;
}

inline double air_after(const BedNumbers& bed, const Load& load, double share_of_bed) noexcept {
    const double ash = limits::bed_ash.value;
    const double solids = bed.dry_kg * ((1.0 - ash) / assumed::organic_density.value +
                                        ash / assumed::ash_density.value);
    const double total = share_of_bed * bed.contents_m3 + load.settled_m3;
    // What is poured in runs through the whole bed; the water of the food stays around it.
    const double water = load.water_kg.value - (1.0 - share_of_bed) * load.poured_kg;
    const double filled =
        share_of_bed * (solids + bed.water_kg / 1000.0) + load.solids_m3 + water / 1000.0;
    return total - filled;
}

/// Air in the whole bed. A drowned bed keeps a twentieth of its volume, so that divisions hold.
inline double air_litres_after(const BedNumbers& bed, const Load& load) noexcept {
    const double total_m3 = bed.contents_m3 + load.settled_m3;
    return 1000.0 * std::max(0.05 * total_m3, air_after(bed, load, 1.0));
}

/// Wet mass of the feeding and of the bed it is mixed with.
inline double zone_wet_kg(const BedNumbers& bed, const Load& load, double spread_m2) noexcept {
    const double share = std::min(1.0, spread_m2 * bed.zone_depth_m / bed.contents_m3);
    return share * bed.wet_kg + load.wet_kg;
}

inline HazardNumber sour_number(const BedNumbers& bed, const Load& load, double air_l) noexcept {
    HazardNumber n;
    n.watch = limits::acid_per_air_litre.watch;
    n.act = limits::acid_per_air_litre.act;
    const Ranged formed =
        1000.0 * ((bed.labile_kg + load.labile_kg) * Ranged(limits::acid_from_labile));
    const Ranged lime = bed.lime_g * Ranged(limits::ground_lime_acting) + load.lime_g;
    const double per_lime = limits::grams_citric_per_gram_lime.value;
    const Ranged acid = ((bed.acid_g + load.acid_g + formed) - per_lime * lime).floored();
    n.value = (1.0 / air_l) * acid;
    return n;
}

/// Surface that a layer of food warms: its own, and the bed around it as far as heat runs sideways,
/// as in a fin, by the length sqrt(conductivity x depth x resistance).
inline double warmed_m2(const BedNumbers& bed, double spread_m2) noexcept {
    const double depth = bed.contents_m3 / bed.surface_m2;
    const double fin =
        std::sqrt(limits::layer_conductivity.value * depth * limits::surface_resistance.value);
    return std::min(bed.surface_m2, spread_m2 + 4.0 * std::sqrt(spread_m2) * fin);
}

/// Warming of the food layer: heat of the labile matter through the cover to the air, and through
/// half the layer itself.
inline HazardNumber hot_number(const BedNumbers& bed, const Load& load, double spread_m2) noexcept {
    HazardNumber n;
    n.watch = in_celsius(bed.species->warmest);
    n.act = in_celsius(bed.species->deadly);
    const double respired = pool_rates[0].rate_per_day.value * pool_rates[0].respired_share;
    const Ranged watts_per_kg =
        (respired * 1000.0 * kilojoules_a_day_to_watts) * Ranged(limits::heat_of_respiration);
    const Ranged through_cover = (((1.0 / warmed_m2(bed, spread_m2)) * load.labile_kg +
                                   (1.0 / bed.surface_m2) * bed.labile_kg) *
                                  watts_per_kg) *
                                 Ranged(limits::surface_resistance);
    const double layer = load.settled_m3 / spread_m2;
    const Ranged through_layer = (((1.0 / spread_m2) * load.labile_kg) * watts_per_kg) *
                                 (Ranged(0.5 * layer) / Ranged(limits::layer_conductivity));
    const Ranged rise = through_cover + through_layer;
    const auto warmed_to = [](double start, double by) {
        return std::max(start, std::min(start + by, limits::hottest_c));
    };
    n.value = {warmed_to(bed.temperature_high_c, rise.value),
               warmed_to(bed.temperature_low_c, rise.low),
               warmed_to(bed.temperature_high_c, rise.high)};
    return n;
}

inline HazardNumber overfed_number(const BedNumbers& bed, const Load& load,
                                   const FeedingRules& rules) noexcept {
    HazardNumber n;
    const double fed = (bed.recent_scraps_kg + load.scraps_wet_kg) / bed.rate_window_days;
    n.value = Ranged(fed) / bed.worms_kg;
    n.watch = rules.start_wet_kg_per_day / bed.worms_kg.value;
    n.act = rules.most_wet_kg_per_day / bed.worms_kg.value;
    return n;
}

/// Cold worms and a new bin eat less and hunger later, and nobody is hungry at half of what the bed
/// should start with: so a bed that is fed by its rules is never called underfed.
inline HazardNumber underfed_number(const BedNumbers& bed, const Load& load,
                                    const FeedingRules& rules) noexcept {
    HazardNumber n;
    n.higher_is_worse = false;
    n.can_act = false;
    n.watch = std::min(bed.rate_factor * limits::underfed_rate.watch,
                       0.5 * rules.start_wet_kg_per_day / bed.worms_kg.value);
    n.act = limits::underfed_rate.act;
    const double span = bed.diary_days + bed.horizon_days;
    n.value = Ranged((bed.scraps_kg + load.scraps_wet_kg) / span) / bed.worms_kg;
    return n;
}

inline HazardNumber ammonia_number(const Load& load, double mixed_wet_kg) noexcept {
    HazardNumber n;
    n.watch = limits::ammonia_nitrogen.watch;
    n.act = limits::ammonia_nitrogen.act;
    n.value = (1.0 / mixed_wet_kg) * load.surplus_nitrogen_g.floored();
    set_missing(n, load.nitrogen_missing_kg, load.scraps_wet_kg);
    return n;
}

inline HazardNumber salty_number(const BedNumbers& bed, const Load& load) noexcept {
    HazardNumber n;
    n.watch = limits::salt.watch;
    n.act = limits::salt.act;
    n.value = (1.0 / (bed.wet_kg + load.wet_kg)) * (bed.salt_kg + load.salt_kg);
    set_missing(n, load.salt_missing_kg, load.scraps_wet_kg);
    return n;
}

inline HazardNumber greasy_number(const Load& load) noexcept {
    HazardNumber n;
    n.watch = limits::fat.watch;
    n.act = limits::fat.act;
    if (load.wet_kg > 0.0) n.value = (1.0 / load.wet_kg) * load.fat_kg;
    set_missing(n, load.fat_missing_kg, load.scraps_wet_kg);
    return n;
}

/// Air in the part of the bed that the feeding is mixed with, or the depth of the scraps where that
/// is the worse of the two.
inline HazardNumber airless_number(const BedNumbers& bed, const Load& load, double spread_m2,
                                   double layer_m) noexcept {
    HazardNumber n;
    n.higher_is_worse = false;
    n.watch = limits::free_air_space.watch;
    n.act = limits::free_air_space.act;
    const double share = spread_m2 * bed.zone_depth_m / bed.contents_m3;
    const double total = share * bed.contents_m3 + load.settled_m3;
    const double space = std::max(0.0, air_after(bed, load, share) / total);
    const double packing = 0.05;  // what a settled density is good to
    n.value = {space, std::max(0.0, space - packing), space + packing};
    judge(n);
    HazardNumber layer;
    layer.watch = limits::layer_depth.watch;
    layer.act = limits::layer_depth.act;
    layer.value = Ranged(layer_m);
    judge(layer);
    return layer.level > n.level ? layer : n;
}

}  // namespace detail

/// Judges one hazard of a load in a bed. Constant time, no allocation.
/// @param spread_m2  surface over which the feeding is laid, above 0 and at most the surface.
inline HazardNumber hazard_number(Hazard hazard, const BedNumbers& bed, const Load& load,
                                  double spread_m2) noexcept {
    HazardNumber n;
    switch (hazard) {
        case Hazard::sour:
            n = detail::sour_number(bed, load, detail::air_litres_after(bed, load));
            break;
        case Hazard::wet:
            n = detail::wet_number(bed, load);
            break;
        case Hazard::dry:
            n = detail::dry_number(bed, load);
            break;
        case Hazard::hot:
            n = detail::hot_number(bed, load, spread_m2);
            break;
        case Hazard::ammonia:
            n = detail::ammonia_number(load, detail::zone_wet_kg(bed, load, spread_m2));
            break;
        case Hazard::salty:
            n = detail::salty_number(bed, load);
            break;
        case Hazard::overfed:
            n = detail::overfed_number(bed, load, feeding_rules(bed));
            break;
        case Hazard::underfed:
            n = detail::underfed_number(bed, load, feeding_rules(bed));
            break;
        case Hazard::airless:
            return detail::airless_number(bed, load, spread_m2, load.scraps_settled_m3 / spread_m2);
        case Hazard::greasy:
            n = detail::greasy_number(load);
            break;
    }
    detail::judge(n);
    return n;
}

/// Judges a load in a bed: the number part of the check. Constant time, no allocation.
/// @param spread_m2  surface over which the feeding is laid, above 0 and at most the surface.
inline HazardNumbers hazard_numbers(const BedNumbers& bed, const Load& load,
                                    double spread_m2) noexcept {
    HazardNumbers n;
    for (std::size_t h = 0; h < hazard_count; ++h)
        n.of[h] = hazard_number(static_cast<Hazard>(h), bed, load, spread_m2);
    const double total_ammonia = n[Hazard::ammonia].value.value;
    const Temperature warm = celsius(bed.temperature_high_c);
    if (bed.ph) n.free_ammonia_g_per_kg = total_ammonia * decay::free_ammonia_share(*bed.ph, warm);
    const double limed_ph = std::max(limits::ph_after_lime.value, bed.ph.value_or(0.0));
    n.limed_ammonia_g_per_kg = total_ammonia * decay::free_ammonia_share(limed_ph, warm);
    return n;
}

}  // namespace feed
