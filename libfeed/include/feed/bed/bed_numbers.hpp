#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <memory>
#include <optional>

#include "feed/bed/completed.hpp"
#include "feed/bed/load.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/bed/temperature_factor.hpp"
#include "feed/quantity/unit_system.hpp"

namespace feed {

/// How a feeding is put in and judged. Everything left out is assumed and said.
struct CheckOptions {
    /// Days until the next feeding; the usual week where nothing is said and no diary tells.
    std::optional<Duration> until_next;
    /// Surface over which the feeding is laid.
    std::optional<Area> spread;
    /// A bedding at hand for steps; shredded corrugated cardboard where none is named.
    std::shared_ptr<const Feedstock> bedding_at_hand;
    /// Of the sentences, and of the figures that amounts are rounded to.
    UnitSystem units = UnitSystem::metric;
    /// Soft food left of the earlier feedings, wet kg, where a look or a forecast tells it.
    std::optional<Ranged> soft_food_kg;
};

/// Days ahead for which it is kept what of the diary lies in the window of the feeding rate: the
/// longest window that a diary makes.
inline constexpr std::size_t recent_days = 15;

/// The bed as plain numbers for the check, with what the diary left in it.
struct BedNumbers {
    double surface_m2 = 0.0;
    double contents_m3 = 0.0;
    double zone_depth_m = 0.0;  ///< depth of bed that shares air with a feeding
    double wet_kg = 0.0;
    double dry_kg = 0.0;
    double water_kg = 0.0;
    Ranged capacity_kg;
    Ranged saturation;
    bool water_follows_capacity = false;
    double water_error_kg = 0.0;
    Ranged salt_kg;
    Ranged acid_g;               ///< as a measured pH shows, with what went in since; else reckoned
    Ranged labile_kg;            ///< left of the earlier feedings
    Ranged free_water_kg;        ///< still in the scraps of the earlier feedings
    Ranged soft_food_kg;         ///< soft food left of the earlier feedings, as wet scraps
    double settled_share = 1.0;  ///< 0: new bedding, 1: a settled bed, by its dry density
    double lime_g = 0.0;
    Ranged fed_lime_g;              ///< of the diary: what of it still acts
    double recent_scraps_kg = 0.0;  ///< of the diary, within the window of the feeding rate
    /// The same some whole days from now, when feedings have left the window.
    std::array<double, recent_days> recent_ahead_kg{};
    double rate_window_days = 7.0;  ///< ends with the next feeding; at least a week
    double scraps_kg = 0.0;         ///< fed in the last weeks, for underfed
    bool hunger_known = false;      ///< the diary goes back to the first of these weeks
    Ranged worms_kg;
    double horizon_days = 7.0;
    double decay_speed = 1.0;  ///< of its temperature, against 25 C
    Ranged evaporation_kg;     ///< in the horizon
    double temperature_c = 0.0;
    double temperature_low_c = 0.0;
    double temperature_high_c = 0.0;
    Drainage drainage = Drainage::none;
    double rate_factor = 1.0;  ///< of temperature and age
    double cold_factor = 1.0;
    double ramp_factor = 1.0;
    double age_days = 0.0;  ///< of the bin
    std::optional<double> own_rate;
    std::optional<double> ph;
    const SpeciesLimits* species = nullptr;
};

/// Share of the full ration that the bed can take at a temperature: 0 at the coldest and the deadly
/// limit of the species, 1 within its optimum, straight lines between (judgement; keepers report a
/// sharp slowing below 10 C and no feeding at 4 C).
inline double temperature_share(const SpeciesLimits& limits, Temperature temperature) noexcept {
    const double t = in_celsius(temperature);
    const double low = in_celsius(limits.optimum_low);
    const double high = in_celsius(limits.optimum_high);
    if (t < low) {
        const double coldest = in_celsius(limits.coldest);
        return std::clamp((t - coldest) / (low - coldest), 0.0, 1.0);
    }
    if (t > high) {
        const double deadly = in_celsius(limits.deadly);
        return std::clamp((deadly - t) / (deadly - high), 0.0, 1.0);
    }
    return 1.0;
}

/// Share of the full ration in the first weeks of a new bin: a quarter for two weeks, then rising
/// to all of it at twelve weeks (common practice).
inline double ramp_share(Duration age) noexcept {
    const double start = limits::ramp_start_days.value;
    const double full = limits::ramp_full_days.value;
    const double t = std::clamp((in_days(age) - start) / (full - start), 0.0, 1.0);
    return limits::ramp_start_share.value + t * (1.0 - limits::ramp_start_share.value);
}

/// How much of a feeding some days ago falls into the window over which the feeding rate is
/// averaged, when each feeding is spread over the days to the next: so a steady diary gives its
/// own rate whatever its interval, and a feeding fades out of the window without a jump.
constexpr double share_in_window(double days_ago, double horizon, double window) noexcept {
    return std::clamp((window - days_ago) / horizon, 0.0, 1.0);
}

/// Scraps of the diary that still count some days from now. @param day  0 or later.
inline double recent_scraps_on(const BedNumbers& bed, double day) noexcept {
    const auto whole = static_cast<std::size_t>(std::max(0.0, day));
    if (whole < recent_days) return bed.recent_ahead_kg[whole];
    const double last = static_cast<double>(recent_days - 1);
    return bed.recent_ahead_kg[recent_days - 1] *
           std::clamp((bed.rate_window_days - day) / std::max(bed.rate_window_days - last, 1.0),
                      0.0, 1.0);
}

namespace detail {

/// Counts scraps of some days ago on each day ahead on which they lie in the window.
inline void add_recent(BedNumbers& n, double days_ago, double scraps_kg) noexcept {
    for (std::size_t day = 0; day < recent_days; ++day) {
        const double share = share_in_window(days_ago + static_cast<double>(day), n.horizon_days,
                                             n.rate_window_days);
        if (share <= 0.0) break;
        n.recent_ahead_kg[day] += share * scraps_kg;
    }
}

}  // namespace detail

/// The days until the next feeding: as said, else the mean interval of the diary within 1 to 14
/// days, else a week.
inline double horizon_days(const Bed& bed, const CheckOptions& options) noexcept {
    if (options.until_next) return std::max(in_days(*options.until_next), 0.25);
    if (bed.earlier.size() >= 2) {
        double oldest = 0.0;
        for (const Feeding& feeding : bed.earlier)
            oldest = std::max(oldest, -in_days(feeding.day));
        return std::clamp(oldest / static_cast<double>(bed.earlier.size()), 1.0, 14.0);
    }
    return limits::usual_interval.value;
}

/// Acid that a measured pH stands for, in grams as citric acid: each step below 7 counts as what
/// the bed takes up for it. The limits were set with the same buffer, so its range does not count a
/// second time.
inline double acid_of_ph_g(double ph, double dry_kg) noexcept {
    return std::max(0.0, 7.0 - ph) * dry_kg * limits::grams_citric_per_mole *
           limits::bed_buffer.value;
}

/// The numbers of a bed. Linear in the portions of the diary, no allocation.
inline BedNumbers bed_numbers(const Bed& said, const CompletedBed& bed,
                              const CheckOptions& options) noexcept {
    BedNumbers n;
    const auto ranged = [](const auto& e, auto in) {
        return Ranged(in(e.value), in(e.low), in(e.high));
    };
    n.species = &limits_of(bed.species);
    // Sizes and worms of nothing are refused where files are read; a trace keeps divisions finite.
    n.surface_m2 = std::max(in_square_metres(bed.surface), 1e-4);
    n.contents_m3 = std::max(bed.contents.value(), 1e-6);
    n.drainage = bed.drainage;
    n.zone_depth_m = std::min(limits::mixed_bed_depth.value, in_metres(bed.depth_of_contents));
    n.dry_kg = bed.dry_mass.value.in_kilograms();
    n.water_kg = in_kilograms(bed.water.value);
    n.wet_kg = n.dry_kg + n.water_kg;
    n.capacity_kg = ranged(bed.water_capacity, in_kilograms);
    n.saturation = ranged(bed.saturation, [](double x) { return x; });
    n.water_follows_capacity = bed.water_from_saturation;
    n.water_error_kg = 0.5 * (in_kilograms(bed.water.high) - in_kilograms(bed.water.low));
    n.salt_kg = ranged(bed.salt, in_kilograms);
    n.lime_g = in_grams(bed.lime);
    n.worms_kg = ranged(bed.worms, [](WetMass m) { return std::max(m.in_kilograms(), 1e-6); });
    n.horizon_days = horizon_days(said, options);
    n.rate_window_days = std::max(n.horizon_days, limits::usual_interval.value);
    n.evaporation_kg =
        (n.horizon_days * n.surface_m2) * Ranged(evaporation_of(bed.lid, bed.ventilation));
    const double most_dried = limits::most_dried_share.value * n.capacity_kg.value *
                              std::max(1.0, n.horizon_days / limits::usual_interval.value);
    n.evaporation_kg = {std::min(n.evaporation_kg.value, most_dried),
                        std::min(n.evaporation_kg.low, most_dried),
                        std::min(n.evaporation_kg.high, most_dried)};
    n.temperature_c = in_celsius(bed.temperature);
    n.temperature_low_c = in_celsius(bed.temperature_low);
    n.temperature_high_c = in_celsius(bed.temperature_high);
    n.cold_factor = temperature_share(*n.species, bed.temperature);
    n.ramp_factor = ramp_share(bed.age);
    n.age_days = in_days(bed.age);
    n.rate_factor = n.cold_factor * n.ramp_factor;
    if (said.own_feeding_rate) n.own_rate = in_per_day(*said.own_feeding_rate);
    n.ph = bed.ph;

    n.decay_speed = decay::temperature_factor(n.temperature_c, decay::TemperatureResponse::haug);
    const DecayedShares decayed = decayed_shares(n.horizon_days, n.decay_speed);
    const double fading = n.decay_speed * pool_rates[0].rate_per_day.value;
    // What the strip shows holds what went in before it: a measured pH takes the place of that.
    if (n.ph) n.acid_g = Ranged(acid_of_ph_g(*n.ph, n.dry_kg));
    double oldest = 0.0;
    double grown_dry_kg = 0.0;
    for (const Feeding& feeding : said.earlier) {
        const double ago = -in_days(feeding.day);
        if (ago < 0.0) continue;
        oldest = std::max(oldest, ago);
        const Load load = load_of(feeding.portions, decayed);
        const Ranged left =
            feeding.soft_left
                ? Ranged(feeding.soft_left->value, feeding.soft_left->low, feeding.soft_left->high)
                : Ranged(std::exp(-fading * ago));
        // Lime acts on a measured pH until it is measured again, else as long as acid of that day.
        if (!n.ph || ago <= in_days(said.ph_age)) {
            n.acid_g += left * load.acid_g;
            n.fed_lime_g += (feeding.kept * (n.ph ? 1.0 : std::exp(-fading * ago))) * load.lime_g;
        }
        n.labile_kg += left * load.labile_kg;
        n.soft_food_kg += left * Ranged(load.scraps_wet_kg);
        if (load.scraps_wet_kg > 0.0) n.free_water_kg += left * load.free_water_kg;
        n.salt_kg += (feeding.kept * feeding.salt_kept) * load.salt_kg;
        // About half the dry matter of food and bedding is still there weeks later, as castings.
        grown_dry_kg += 0.5 * feeding.kept * load.dry_kg.value;
        detail::add_recent(n, ago, load.scraps_wet_kg);
        if (ago < limits::underfed_days.value) n.scraps_kg += load.scraps_wet_kg;
    }
    n.recent_scraps_kg = n.recent_ahead_kg[0];
    if (options.soft_food_kg) n.soft_food_kg = *options.soft_food_kg;
    n.settled_share = std::min(1.0, n.dry_kg / (n.contents_m3 * usual::dry_density_settled.value));
    // What was fed since the bed was described has made more of it, which holds its salt.
    n.wet_kg *= 1.0 + grown_dry_kg / std::max(n.dry_kg, 1e-6);
    n.hunger_known = oldest >= limits::underfed_days.value;
    return n;
}

}  // namespace feed
