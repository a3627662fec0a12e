#pragma once
#include <algorithm>
#include <cmath>

#include "feed/bed/hazard_numbers.hpp"

namespace feed::detail {

/// How far a hazard of a load is past its limit, as a linear form: coefficient of the load and
/// constant of the bed; the hazard is absent where their sum is at most 0.
struct LinearHazard {
    const BedNumbers& bed;
    double spread_m2;
    double settled_m3;  ///< of the layer, for its own warming
    double margin;      ///< by how much of itself each limit is drawn in

    double of_load(Hazard hazard, const Load& l) const noexcept {
        const double less = 1.0 - margin;
        switch (hazard) {
            case Hazard::wet:
                return l.free_water_kg.value + l.bedding_water_kg.value -
                       less * limits::planned_capacity_share.value * l.capacity_kg.value;
            case Hazard::dry: {
                const double least = least_moisture();
                return least * l.dry_kg.value - (1.0 - least) * l.water_kg.value;
            }
            case Hazard::sour:
                return l.acid_g.value +
                       1000.0 * limits::acid_from_labile.value * l.labile_kg.value -
                       limits::grams_citric_per_gram_lime.value * l.lime_g.value -
                       less * limits::acid_per_air_litre.watch * 1000.0 *
                           (l.settled_m3 - l.solids_m3 - l.water_kg.value / 1000.0);
            case Hazard::hot:
                return l.labile_kg.value * kelvin_per_labile_kg();
            case Hazard::ammonia:
                return l.surplus_nitrogen_g.value -
                       less * limits::ammonia_nitrogen.watch * l.wet_kg;
            case Hazard::salty:
                return l.salt_kg.value - less * limits::salt.watch * l.wet_kg;
            case Hazard::overfed:
                return l.scraps_wet_kg;
            case Hazard::airless: {
                const double water = l.water_kg.value - (1.0 - zone_share()) * l.poured_kg;
                return least_air() * l.settled_m3 - (l.settled_m3 - l.solids_m3 - water / 1000.0);
            }
            case Hazard::greasy:
                return l.fat_kg.value - less * limits::fat.watch * l.wet_kg;
            case Hazard::underfed:
                break;
        }
        return 0.0;
    }

    double of_bed(Hazard hazard) const noexcept {
        const double less = 1.0 - margin;
        switch (hazard) {
            case Hazard::wet:
                return bed.free_water_kg.value - bed.evaporation_kg.value + bed.water_kg -
                       less * limits::planned_capacity_share.value * bed.capacity_kg.value;
            case Hazard::dry: {
                const double least = least_moisture();
                return least * bed.dry_kg -
                       (1.0 - least) * (bed.water_kg - bed.evaporation_kg.value);
            }
            case Hazard::sour:
                return bed.acid_g.value +
                       1000.0 * limits::acid_from_labile.value * bed.labile_kg.value -
                       limits::grams_citric_per_gram_lime.value * bed.lime_g *
                           limits::ground_lime_acting.value -
                       less * limits::acid_per_air_litre.watch * 1000.0 *
                           air_after(bed, Load{}, 1.0);
            case Hazard::hot: {
                const double rise = in_celsius(bed.species->warmest) - bed.temperature_high_c;
                return bed.labile_kg.value / bed.surface_m2 * watts_per_labile_kg() *
                           limits::surface_resistance.value -
                       less * rise;
            }
            case Hazard::ammonia:
                return -less * limits::ammonia_nitrogen.watch * zone_wet_kg(bed, Load{}, spread_m2);
            case Hazard::salty:
                return bed.salt_kg.value - less * limits::salt.watch * bed.wet_kg;
            case Hazard::overfed:
                return bed.recent_scraps_kg -
                       less * feeding_rules(bed).start_wet_kg_per_day * bed.rate_window_days;
            case Hazard::airless:
                return least_air() * zone_share() * bed.contents_m3 -
                       air_after(bed, Load{}, zone_share());
            case Hazard::greasy:
            case Hazard::underfed:
                break;
        }
        return 0.0;
    }

    /// How many kg of scraps of a feeding leave the bed just cool enough, the feeding laid alone:
    /// the root of a parabola, because a layer warms with its food times its own depth. 0: none.
    static double scraps_to_cool(const BedNumbers& bed, const Load& per_kg,
                                 double spread_m2) noexcept {
        const LinearHazard thin{bed, spread_m2, 0.0, 0.0};
        const LinearHazard deep{bed, spread_m2, per_kg.settled_m3, 0.0};
        const double first = thin.of_load(Hazard::hot, per_kg);
        const double second = deep.of_load(Hazard::hot, per_kg) - first;
        const double room = -thin.of_bed(Hazard::hot);
        if (!(room > 0.0) || !(first > 0.0)) return 0.0;
        return 2.0 * room / (first + std::sqrt(first * first + 4.0 * second * room));
    }

    /// How much of an addition a load needs until the hazard is just absent, or 0 where the hazard
    /// is not linear (heat, and the depth of the scraps) or the addition does not move it.
    double amount_to_absent(Hazard hazard, const Load& load, const Load& addition) const noexcept {
        if (hazard == Hazard::hot || hazard == Hazard::airless || hazard == Hazard::underfed)
            return 0.0;
        const double slope = of_load(hazard, addition);
        return slope == 0.0 ? 0.0 : -(of_bed(hazard) + of_load(hazard, load)) / slope;
    }

private:
    double least_moisture() const noexcept {
        return std::min(0.99, (1.0 + margin) * bed.species->moisture_low.value());
    }
    double least_air() const noexcept {
        return std::min(0.99, (1.0 + margin) * limits::free_air_space.watch);
    }
    double zone_share() const noexcept { return spread_m2 * bed.zone_depth_m / bed.contents_m3; }
    static double watts_per_labile_kg() noexcept {
        return pool_rates[0].rate_per_day.value * pool_rates[0].respired_share * 1000.0 *
               kilojoules_a_day_to_watts * limits::heat_of_respiration.value;
    }
    double kelvin_per_labile_kg() const noexcept {
        const double through_cover = limits::surface_resistance.value / warmed_m2(bed, spread_m2);
        const double layer_m = settled_m3 / spread_m2;
        const double through_layer = 0.5 * layer_m / limits::layer_conductivity.value / spread_m2;
        return watts_per_labile_kg() * (through_cover + through_layer);
    }
};

}  // namespace feed::detail
