#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <string>
#include <vector>

#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/completed.hpp"
#include "feed/bed/feeding_rules.hpp"
#include "feed/bed/hazard_row.hpp"
#include "feed/bed/rounded_amount.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/quantity/amount_words.hpp"

// Answers to what keepers fear: going away, cold and heat, the first weeks of a new bin.
namespace feed {

/// What to do before leaving a bed alone, and how it will be found.
struct AwayAdvice {
    Duration away = days(0);
    Mass water_to_add = kilograms(0);
    /// One usual feeding, laid under bedding before leaving; never the rations of all weeks at
    /// once.
    WetMass food;
    WetMass slow_food;   ///< carrot, stalks, squash: for more than three weeks
    bool cover = false;  ///< close the lid, or lay damp card over the bed
    Estimate<Moisture> at_return;
    /// With the greatest evaporation, when the bed falls below the driest the worms bear; as long
    /// as the time away or longer when it does not.
    Duration safe_for = days(0);
    bool needs_a_helper = false;  ///< somebody has to water once, by safe_for
    std::string text;
    std::vector<Assumption> assumed;
};

namespace detail {

inline double water_for(double moisture, double dry_kg) noexcept {
    return dry_kg * moisture / (1.0 - moisture);
}

/// How a bed dries while nobody looks.
struct DryingOut {
    double water_to_add = 0.0;
    double after = 0.0;        ///< water left with the usual evaporation
    double after_least = 0.0;  ///< with the greatest
    double safe_days = 0.0;
};

inline DryingOut drying_out(const BedNumbers& bed, const Factor& evaporation, double away,
                            UnitSystem units) noexcept {
    DryingOut d;
    const double loss = bed.surface_m2 * evaporation.value * away;
    const double most_loss = bed.surface_m2 * evaporation.high * away;
    const double wanted = limits::dry_share.watch * bed.capacity_kg.value;
    const double room =
        std::max(0.0, limits::wetness_aim.high * bed.capacity_kg.value - bed.water_kg);
    d.water_to_add =
        rounded_volume(std::clamp(wanted + loss - bed.water_kg, 0.0, room), false, units);
    const double start = bed.water_kg + d.water_to_add;
    d.after = std::max(0.0, start - loss);
    d.after_least = std::max(0.0, start - most_loss);
    const double bearable = limits::dry_share.act * bed.capacity_kg.value;
    const double a_day = bed.surface_m2 * evaporation.high;
    d.safe_days = a_day > 0.0 ? std::max(0.0, start - bearable) / a_day : 1e9;
    return d;
}

}  // namespace detail

/// Going away for some weeks: drying is the danger, hunger is not. The water to add tops the bed up
/// for the evaporation expected, as far as its planned capacity allows; where that is not enough
/// the bed is to be covered, and where even that is not, somebody has to water it.
/// @param away  above 0; worked out up to 12 weeks.
inline AwayAdvice going_away(const Bed& said, Duration away,
                             UnitSystem units = UnitSystem::metric) {
    const CompletedBed bed = completed(said, units);
    const BedNumbers n = bed_numbers(said, bed, {});
    const double weeks_days = std::clamp(in_days(away), 0.0, 84.0);
    AwayAdvice advice;
    advice.away = days(weeks_days);
    advice.assumed = bed.assumed;

    const Factor& open = evaporation_of(bed.lid, bed.ventilation);
    detail::DryingOut d = detail::drying_out(n, open, weeks_days, units);
    const Factor* evaporation = &open;
    if (d.safe_days < weeks_days) {
        advice.cover = true;
        evaporation = open.value > limits::evaporation_holes.value ? &limits::evaporation_holes
                                                                   : &limits::evaporation_closed;
        d = detail::drying_out(n, *evaporation, weeks_days, units);
    }
    advice.water_to_add = kilograms(d.water_to_add);
    advice.safe_for = days(std::min(d.safe_days, 3650.0));
    advice.needs_a_helper = d.safe_days < weeks_days;
    const double start = n.water_kg + d.water_to_add;
    const double least_loss = n.surface_m2 * evaporation->low * weeks_days;
    const auto moisture = [&](double water) { return Moisture(water / (water + n.dry_kg)); };
    // What is not known of the bed now is not known of it later either.
    const double short_by = n.water_kg - detail::water_for(bed.moisture.low.value(), n.dry_kg);
    const double over_by = detail::water_for(bed.moisture.high.value(), n.dry_kg) - n.water_kg;
    advice.at_return =
        known(moisture(d.after), moisture(std::max(0.0, d.after_least - std::max(0.0, short_by))),
              moisture(std::max(0.0, start - least_loss) + std::max(0.0, over_by)), Grade::d);

    const double ration = feeding_rules(n).start_wet_kg_per_day;
    const double one_feeding = detail::rounded_mass(7.0 * ration, false, units);
    advice.food = wet_kilograms(weeks_days >= 7.0 ? one_feeding : 0.0);
    advice.slow_food = wet_kilograms(weeks_days > 21.0 ? one_feeding : 0.0);

    std::string& text = advice.text;
    // How much goes in is the ration's to say; here no second amount is named.
    text = "Gone for " + words::day_count(weeks_days) + ": no food beyond that is needed. ";
    if (weeks_days > 21.0 && one_feeding > 0.0)
        text += "Let slow food (carrot, stalks, squash) be a part of what goes in. ";
    text += "Worms live on their bedding for weeks. ";
    text += d.water_to_add > 0.0 ? "Add " + words::volume(d.water_to_add, units) + " of water. "
                                 : "Add no water. ";
    if (advice.cover)
        text += evaporation == &limits::evaporation_closed
                    ? "Lay damp card over the bed and close the lid well. "
                    : "Put a lid with air holes on. ";
    text += "On your return about " + words::percent(advice.at_return.value.value()) +
            " of the bed should be water (" + words::percent(advice.at_return.low.value()) +
            " to " + words::percent(advice.at_return.high.value()) + "). ";
    if (advice.needs_a_helper)
        text += "That may be too dry: have somebody water it within " +
                words::day_count(std::floor(std::max(1.0, d.safe_days))) + ". ";
    text += "Keep it out of sun and frost.";
    return advice;
}

/// What a temperature means for a bed.
struct TemperatureAdvice {
    Temperature temperature = celsius(0);
    double ration_share = 0.0;  ///< of the full ration, 0 to 1
    WetMass ration_a_week;      ///< scraps, by the starting rule
    /// Most scraps like these at a time, laid over the whole surface, that keep the bed below the
    /// warmest its worms bear; nothing when the bed is too warm by itself.
    WetMass most_at_a_time;
    TemperatureDifference warming;  ///< that one week's ration gives, over the whole surface
    bool harmful = false;           ///< outside the limits of the species
    std::string text;
};

/// Cold and heat: how far the ration falls and how much a feeding may warm the bed.
/// @param scraps  what is usually fed, any amount; soft mixed scraps where empty.
inline TemperatureAdvice at_temperature(const Bed& said, Temperature temperature,
                                        std::span<const Portion> scraps = {},
                                        UnitSystem units = UnitSystem::metric) {
    Bed there = said;
    there.temperature = temperature;
    const CompletedBed bed = completed(there);
    const BedNumbers n = bed_numbers(there, bed, {});
    const DecayedShares decayed = decayed_shares(n.horizon_days);
    Load usual = load_of(scraps, decayed);
    if (usual.scraps_wet_kg <= 0.0) {
        constexpr std::size_t mixed = *find_id("vegetable-produce-mixed");
        usual = load_of(feedstock_at(mixed), 1.0, decayed);
    }
    const auto of_scraps = [&](double kg) {
        Load load;
        return load.add(usual, kg / usual.scraps_wet_kg);
    };
    const FeedingPlace whole = feeding_place(n, n.surface_m2);
    TemperatureAdvice advice;
    advice.temperature = temperature;
    advice.ration_share = n.cold_factor;
    const auto at = [&](double kg) { return hazard_number(Hazard::hot, whole, of_scraps(kg)); };
    const auto most = detail::most_amount(
        20.0 * n.surface_m2 + 1.0, [&](double kg) { return at(kg).level == Level::none; },
        [&](double kg, bool up) { return detail::rounded_mass(kg, up, units); });
    advice.most_at_a_time = wet_kilograms(most.value_or(0.0));
    const bool may_feed = most && *most > 0.0;
    const double week =
        may_feed ? detail::rounded_mass(7.0 * feeding_rules(n).start_wet_kg_per_day, false, units)
                 : 0.0;
    advice.ration_a_week = wet_kilograms(week);
    advice.warming = (at(week).value.value - n.temperature_high_c) * boost::units::si::kelvin;
    const double t = in_celsius(temperature);
    const SpeciesLimits& s = *n.species;
    advice.harmful = t < in_celsius(s.coldest) || t > in_celsius(s.warmest);

    std::string& text = advice.text;
    text = "At " + words::temperature(t, units) + " " + std::string(s.name) + " ";
    text += week > 0.0
                ? "takes about " + words::percent(advice.ration_share) +
                      " of a full ration: " + words::mass(week, units) + " of scraps a week. "
                : "should be fed nothing. ";
    if (t < in_celsius(s.optimum_low)) {
        text += "Cold slows, it seldom kills above " +
                words::temperature(in_celsius(s.coldest), units) +
                ": wrap the bin, keep it deep, keep food in one place in the middle";
        text += week > 0.0 ? ", where a week's ration warms it by about " +
                                 words::warming(advice.warming.value(), units) + ". "
                           : ". ";
        if (t < in_celsius(s.coldest)) text += "Bring it in. ";
    } else if (t > in_celsius(s.optimum_high)) {
        text += may_feed ? "At most " + words::mass(*most, units) +
                               " at a time, spread thin, or the food itself heats the "
                               "bed past " +
                               words::temperature(in_celsius(s.warmest), units) + ". "
                         : std::string("Wait until it is cooler. ");
        text += "Shade, air and a damp cloth cool it; frozen scraps laid on top help for hours. ";
        if (t > in_celsius(s.warmest))
            text += "Move it now: near " + words::temperature(in_celsius(s.deadly), units) +
                    " even a short time kills. ";
    } else {
        text += "This is what it likes. ";
    }
    text.pop_back();
    return advice;
}

/// The first weeks of a new bin.
struct RampWeek {
    int week = 0;  ///< from 1, counted from the day the worms moved in
    WetMass scraps;
    double share = 0.0;  ///< of the full ration
};

/// How much to feed in each of the first 13 weeks: nothing in the first three days, a quarter of
/// the ration for two weeks, then rising to all of it (common practice). The ration is the start
/// of feeding_rules at the bed's temperature.
inline std::array<RampWeek, 13> first_weeks(const Bed& said,
                                            UnitSystem units = UnitSystem::metric) {
    Bed settled = said;
    settled.age = days(10 * limits::ramp_full_days.value);
    const BedNumbers n = bed_numbers(settled, completed(settled), {});
    const double ration = 7.0 * feeding_rules(n).start_wet_kg_per_day;
    std::array<RampWeek, 13> plan;
    for (std::size_t i = 0; i < plan.size(); ++i) {
        const double middle = 7.0 * static_cast<double>(i) + 3.5;
        plan[i].week = static_cast<int>(i) + 1;
        plan[i].share = ramp_share(days(middle));
        plan[i].scraps = wet_kilograms(detail::rounded_mass(plan[i].share * ration, false, units));
    }
    return plan;
}

/// The plan as a sentence, with what is normal in a new bin.
inline std::string first_weeks_text(std::span<const RampWeek> plan,
                                    UnitSystem units = UnitSystem::metric) {
    std::string text = "New bin: nothing for three days, then a week at a time ";
    for (std::size_t i = 0; i < plan.size(); i += 3) {
        if (i > 0) text += ", ";
        text += words::mass(plan[i].scraps.in_kilograms(), units) + " (week " +
                words::number(plan[i].week) + ")";
    }
    return text +
           ". Before each feeding look: if the last is not mostly gone, skip. Wandering in the first "
           "nights and mould before worms are normal.";
}

}  // namespace feed
