#pragma once
// How warm a lump of food gets, and the bed around it. Two stores of heat, the food pocket and the
// bed, with as much oxygen for the food as reaches it through its cover. Used by the check for the
// warmest days ahead and by the forecast day by day. Equations: docs/forecast.md.
#include <algorithm>
#include <array>
#include <cmath>

#include "feed/bed/factor.hpp"
#include "feed/bed/pool_rates.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/bed/temperature_factor.hpp"

namespace feed {

namespace heat {

inline constexpr Factor pocket_air_share{
    0.20,     0.05,
    0.35,     "L/L",
    Grade::d, "air in collapsing scraps; bedding laid around them does not change it (judgement)"};
inline constexpr Factor conductivity{0.4,     0.3,      0.5,
                                     "W/m/K", Grade::d, "damp organic matter (judgement)"};
inline constexpr Factor cover_resistance{
    0.35,     0.2,
    0.6,      "m2 K/W",
    Grade::d, "from the bed through walls and cover to the air, evaporation included (judgement)"};
inline constexpr Factor burning_oxygen{
    1.28,    1.18,     1.44,
    "kg/kg", Grade::d, "starch 1.18, food waste 1.44, by their formulas; typical between"};
inline constexpr Factor burning_heat{14.0e6, 13.0e6,   15.0e6,
                                     "J/kg", Grade::d, "Haug 1993, recalled; range a judgement"};
inline constexpr Factor cover_air{0.5,   0.3,      0.7,
                                  "L/L", Grade::d, "loose bedding over the food (judgement)"};
inline constexpr Factor cover_depth{0.05, 0.03,     0.1,
                                    "m",  Grade::d, "a hand of bedding (common practice)"};
inline constexpr Factor pocket_heat{3800.0,   3500.0,   4000.0,
                                    "J/kg/K", Grade::d, "mostly water (judgement)"};
inline constexpr Factor bed_heat{3600.0,   3200.0,   3800.0,
                                 "J/kg/K", Grade::d, "mostly water (judgement)"};

/// No reckoned temperature of a worm bin is said to be higher: nothing published was (10 to 38 L
/// indoor bins, 27 to 50 C: Cornell compost physics; two studies of household bins, 2017 and 2022).
inline constexpr double hottest_said_c = 50.0;

/// Oxygen that burns a kilogram of labile matter: the respired share times 1.28 kg a kg (between
/// starch 1.18 and food waste 1.44).
inline constexpr double oxygen_per_burnt = burning_oxygen.value;
/// Heat of a kilogram of oxygen, J (Haug 1993, recalled).
inline constexpr double joules_per_kg_oxygen = burning_heat.value;
inline constexpr double oxygen_in_air_kg_per_m3 = 0.275;
inline constexpr double oxygen_diffusion_m2_per_s = 2.0e-5;
inline constexpr double cover_air_share = cover_air.value;
inline constexpr double usual_cover_m = cover_depth.value;
/// Part of the surface through which the food is aired (judgement, see HeatPlace).
inline constexpr double aired_share = 1.0 / 3.0;
/// Thinner than this no pocket stays: it is one layer of scraps.
inline constexpr double thinnest_pocket_m = 0.03;
inline constexpr double pocket_joules_per_kg_k = pocket_heat.value;
inline constexpr double bed_joules_per_kg_k = bed_heat.value;
inline constexpr double seconds_a_day = 86400.0;

/// Haug's bracket over its value at 25 C, level from 40 C on, falling from 55 C to nothing at 65 C:
/// the microbes of a bin's pocket are not those of a hot heap. Source: Haug 1993 (recalled).
inline double activity(double temperature_c) noexcept {
    if (temperature_c <= 0.0 || temperature_c >= 65.0) return 0.0;
    const double level =
        decay::haug_bracket(std::min(temperature_c, 40.0)) / decay::haug_bracket_at_25;
    return temperature_c > 55.0 ? level * (65.0 - temperature_c) / 10.0 : level;
}

}  // namespace heat

/// Food that lies together.
struct HeatPocket {
    Ranged labile_kg;        ///< labile volatile solids, at least 0
    double wet_kg = 0.0;     ///< of the food, at least 0
    double volume_m3 = 0.0;  ///< settled, before it collapses
    double spread_m2 = 0.0;  ///< surface over which it is laid, above 0
};

/// The bed that the food lies in.
struct HeatBed {
    double surface_m2 = 0.0;               ///< above 0
    double outer_m2 = 0.0;                 ///< all faces through which heat leaves, above 0
    double wet_kg = 0.0;                   ///< without the pocket
    Ranged labile_kg;                      ///< of earlier feedings, spread through the bed
    Ranged around_c;                       ///< temperature of the bed without any of this food
    double cover_m = heat::usual_cover_m;  ///< depth of what covers the food
};

/// The faces of a block of bed, m2. All three in metres.
constexpr double outer_faces_m2(double length_m, double width_m, double depth_m) noexcept {
    return 2.0 * length_m * width_m + 2.0 * (length_m + width_m) * depth_m;
}

/// The two temperatures, deg C.
struct PocketAndBed {
    Ranged pocket_c;
    Ranged bed_c;
};

/// Constants of one run. Rate per day at 25 C; see the factors of `heat`.
struct HeatConstants {
    double rate_per_day = 0.0;
    double air_share = 0.0;
    double conductivity = 0.0;
    double resistance = 0.0;
};

/// @param end  -1 the coolest ends of all ranges, 0 typical, 1 the warmest.
constexpr HeatConstants heat_constants(int end) noexcept {
    const Factor& rate = pool_rates[0].rate_per_day;
    if (end < 0)
        return {rate.low, heat::pocket_air_share.low, heat::conductivity.high,
                heat::cover_resistance.low};
    if (end > 0)
        return {rate.high, heat::pocket_air_share.high, heat::conductivity.low,
                heat::cover_resistance.high};
    return {rate.value, heat::pocket_air_share.value, heat::conductivity.value,
            heat::cover_resistance.value};
}

/// What the two stores hold at a moment.
struct HeatStores {
    double pocket_c = 20.0;
    double bed_c = 20.0;
    double pocket_labile_kg = 0.0;  ///< not yet burnt or eaten
    double bed_labile_kg = 0.0;
};

/// Pocket, bed and constants as the numbers of a step. Pure, no allocation.
class HeatPlace {
public:
    /// @param spread_m2  surface of the pocket, above 0; more than the bed's counts as all of it.
    HeatPlace(double pocket_wet_kg, double volume_m3, double spread_m2, double surface_m2,
              double outer_m2, double bed_wet_kg, double cover_m,
              const HeatConstants& with) noexcept
        : rate_(with.rate_per_day),
          oxygen_per_kg_s_(with.rate_per_day * pool_rates[0].respired_share *
                           heat::oxygen_per_burnt / heat::seconds_a_day) {
        const double area = std::min(spread_m2, surface_m2);
        const double height = std::max(volume_m3 / area, heat::thinnest_pocket_m);
        // Air must reach as deep as in a layer of the usual spread, however the food is laid: a
        // narrow pocket has air from its sides too, and a wide layer is uneven. So a wider layer
        // never burns more, and is never hotter.
        const double aired_m =
            std::max(volume_m3 / (heat::aired_share * surface_m2), heat::thinnest_pocket_m);
        const double k = with.conductivity;
        const double around =
            8.0 * k * std::sqrt(area / 3.14159265358979) + area / (cover_m / k + 0.15);
        to_bed_w_k_ = 1.0 / (1.0 / around + height / (12.0 * k * area));
        to_air_w_k_ = outer_m2 / with.resistance;
        pocket_j_k_ = heat::pocket_joules_per_kg_k * pocket_wet_kg;
        set_bed(bed_wet_kg);
        if (!(volume_m3 > 0.0)) return;
        // The flux J of C0 = J x cover + J^2/(2 u D), over half of what the height takes up at a
        // demand u, is (2 D / height) (sqrt(cover^2 + 2 C0 / (D u)) - cover).
        const double in_pocket = with.air_share * with.air_share * heat::oxygen_diffusion_m2_per_s;
        const double in_cover =
            heat::cover_air_share * heat::cover_air_share * heat::oxygen_diffusion_m2_per_s;
        demand_per_m3_ = 1.0 / volume_m3;
        cover_s_m_ = cover_m / in_cover;
        reached_ = 2.0 * in_pocket / aired_m;
        supply_ = 2.0 * heat::oxygen_in_air_kg_per_m3 / in_pocket;
        const double all_s_m = 1.0 / reached_ + cover_s_m_;
        met_demand_ = supply_ / (all_s_m * all_s_m - cover_s_m_ * cover_s_m_);
    }

    /// The same pocket in a bed of another mass, which a forecast changes day by day.
    void set_bed(double bed_wet_kg) noexcept { bed_j_k_ = heat::bed_joules_per_kg_k * bed_wet_kg; }

    /// Moves both stores on. Implicit in the temperatures, so no step is too long; the heat is that
    /// of its start.
    /// @param around_c  temperature of the bed without the food.
    /// @param bed_w     further heat set free in the bed, W.
    void step(HeatStores& now, double around_c, double days, double bed_w = 0.0) const noexcept {
        const double seconds = days * heat::seconds_a_day;
        const double active = heat::activity(now.pocket_c);
        const double oxygen_kg_s = oxygen_kg_per_s(now.pocket_labile_kg, active);
        const double burnt = burnt_share(oxygen_kg_s);
        const double pocket_w = heat::joules_per_kg_oxygen * oxygen_kg_s * burnt;
        now.pocket_labile_kg *= std::exp(-rate_ * active * burnt * days);
        // In a forecast nothing burns in the bed itself, and its exponentials would be half of all.
        if (now.bed_labile_kg > 0.0) {
            const double bed_active = heat::activity(now.bed_c);
            bed_w += heat::joules_per_kg_oxygen * oxygen_kg_per_s(now.bed_labile_kg, bed_active);
            now.bed_labile_kg *= std::exp(-rate_ * bed_active * days);
        }
        const double pocket_store = pocket_j_k_ / seconds;
        const double bed_store = bed_j_k_ / seconds;
        const double a = pocket_store + to_bed_w_k_;
        const double b = bed_store + to_bed_w_k_ + to_air_w_k_;
        const double p = pocket_store * now.pocket_c + pocket_w;
        const double q = bed_store * now.bed_c + to_air_w_k_ * around_c + bed_w;
        const double inverse = 1.0 / (a * b - to_bed_w_k_ * to_bed_w_k_);
        now.pocket_c = (p * b + to_bed_w_k_ * q) * inverse;
        now.bed_c = (a * q + to_bed_w_k_ * p) * inverse;
    }

private:
    double oxygen_kg_per_s(double labile_kg, double active) const noexcept {
        return oxygen_per_kg_s_ * labile_kg * active;
    }
    /// Share of the pocket that the oxygen reaches; 1 as long as the demand is met.
    double burnt_share(double oxygen_kg_s) const noexcept {
        const double demand = oxygen_kg_s * demand_per_m3_;
        if (!(demand > met_demand_)) return 1.0;
        return reached_ * (std::sqrt(cover_s_m_ * cover_s_m_ + supply_ / demand) - cover_s_m_);
    }

    double rate_ = 0.0;
    double oxygen_per_kg_s_ = 0.0;  ///< at full activity
    double to_bed_w_k_ = 0.0;
    double to_air_w_k_ = 0.0;
    double pocket_j_k_ = 0.0;
    double bed_j_k_ = 0.0;
    double demand_per_m3_ = 0.0;
    double cover_s_m_ = 0.0;  ///< resistance of what covers the food
    double reached_ = 0.0;    ///< see the constructor
    double supply_ = 0.0;
    double met_demand_ = 0.0;  ///< kg of oxygen a second and m3: as much reaches all of the pocket
};

namespace detail {

inline constexpr double heat_step_days = 0.25;
inline constexpr double heat_longest_days = 10.0;

struct WarmestTwo {
    double pocket_c = 0.0;
    double bed_c = 0.0;
};

/// The warmest moment of each store in the days after feeding, not held at 50 C.
inline WarmestTwo warmest(const HeatPocket& pocket, const HeatBed& bed, double spread_m2,
                          const HeatConstants& with, double pocket_labile_kg, double bed_labile_kg,
                          double around_c) noexcept {
    WarmestTwo most{around_c, around_c};
    if (!(pocket_labile_kg > 0.0) && !(bed_labile_kg > 0.0)) return most;
    const HeatPlace place(pocket.wet_kg, pocket.volume_m3, spread_m2, bed.surface_m2, bed.outer_m2,
                          bed.wet_kg, bed.cover_m, with);
    HeatStores now{around_c, around_c, pocket_labile_kg, bed_labile_kg};
    constexpr int steps = static_cast<int>(heat_longest_days / heat_step_days);
    for (int step = 0; step < steps; ++step) {
        place.step(now, around_c, heat_step_days);
        const bool falling = now.pocket_c < most.pocket_c && now.bed_c < most.bed_c;
        most.pocket_c = std::max(most.pocket_c, now.pocket_c);
        most.bed_c = std::max(most.bed_c, now.bed_c);
        if (falling) break;
    }
    return most;
}

/// Widths at which the bed is warmest lie between the pocket's own and all of the surface.
inline double bed_lift_c(const HeatPocket& pocket, const HeatBed& bed, double bed_c) noexcept {
    double most = bed_c;
    for (const double share : {0.12, 0.2, 0.3, 0.42, 0.55, 0.75, 1.0}) {
        const double wider = share * bed.surface_m2;
        if (wider <= pocket.spread_m2) continue;
        most = std::max(most, warmest(pocket, bed, wider, heat_constants(0), pocket.labile_kg.value,
                                      bed.labile_kg.value, bed.around_c.value)
                                  .bed_c);
    }
    return most - bed_c;
}

/// Both temperatures as reckoned, before they are held at 50 C.
inline PocketAndBed reckoned_heat(const HeatPocket& pocket, const HeatBed& bed) noexcept {
    const auto run = [&](int end, double labile_kg, double bed_labile_kg, double around_c) {
        return warmest(pocket, bed, pocket.spread_m2, heat_constants(end), labile_kg, bed_labile_kg,
                       around_c);
    };
    const WarmestTwo value =
        run(0, pocket.labile_kg.value, bed.labile_kg.value, bed.around_c.value);
    const WarmestTwo low = run(-1, pocket.labile_kg.low, bed.labile_kg.low, bed.around_c.low);
    const WarmestTwo high = run(1, pocket.labile_kg.high, bed.labile_kg.high, bed.around_c.high);
    const double lift =
        value.bed_c > bed.around_c.value + 0.3 ? bed_lift_c(pocket, bed, value.bed_c) : 0.0;
    const double bed_c = value.bed_c + lift;
    return {{value.pocket_c, std::min(low.pocket_c, value.pocket_c),
             std::max(high.pocket_c, value.pocket_c)},
            {bed_c, std::min(low.bed_c, bed_c), std::max(high.bed_c, bed_c) + lift}};
}

}  // namespace detail

/// A reckoned temperature as it may be said: no more than 50 C, or than it is without the food.
constexpr double said_temperature_c(double reckoned_c, double around_c) noexcept {
    return std::min(reckoned_c, std::max(heat::hottest_said_c, around_c));
}

/// How warm the food and the bed get in the ten days after feeding: the warmest moment of each, at
/// most 50 C (which is to be read as "50 C or more"). The ends take every constant at its end.
/// A wider layer, and a larger bed, never make it warmer. Linear in nothing: about 10 steps a run,
/// three to ten runs. No allocation. Threads: pure. Model and check values: docs/forecast.md.
/// @param pocket  the food; an empty one is as warm as the bed.
inline PocketAndBed pocket_and_bed_heat(const HeatPocket& pocket, const HeatBed& bed) noexcept {
    PocketAndBed both = detail::reckoned_heat(pocket, bed);
    const auto hold = [&](Ranged& r) {
        r.value = said_temperature_c(r.value, bed.around_c.value);
        r.low = said_temperature_c(r.low, bed.around_c.low);
        r.high = said_temperature_c(r.high, bed.around_c.high);
    };
    hold(both.pocket_c);
    hold(both.bed_c);
    return both;
}

}  // namespace feed
