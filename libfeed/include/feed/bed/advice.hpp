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
    Mass water_to_add = kilograms(0);  ///< beyond what is put in anyway
    bool cover = false;                ///< close the lid, or lay damp card over the bed
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
    const Factor* evaporation = nullptr;  ///< of the lid as it should be while nobody looks
    bool cover = false;                   ///< a better one than it has
};

/// @param held_kg, capacity_kg  water that the bed holds before it is left, and what it can hold.
inline DryingOut drying_out(double held_kg, double capacity_kg, double surface_m2,
                            const Factor& evaporation, double away, UnitSystem units) noexcept {
    DryingOut d;
    d.evaporation = &evaporation;
    const double loss = surface_m2 * evaporation.value * away;
    const double wanted = limits::dry_share.watch * capacity_kg;
    const double room = std::max(0.0, limits::wetness_aim.high * capacity_kg - held_kg);
    d.water_to_add = rounded_water(std::clamp(wanted + loss - held_kg, 0.0, room), units);
    const double start = held_kg + d.water_to_add;
    const double a_day = surface_m2 * evaporation.high;
    d.after = std::max(0.0, start - loss);
    d.after_least = std::max(0.0, start - a_day * away);
    const double bearable = limits::dry_share.act * capacity_kg;
    d.safe_days = a_day > 0.0 ? std::max(0.0, start - bearable) / a_day : 1e9;
    return d;
}

/// The same for a bed with what is put in before it is left, under a better lid where its own does
/// not hold out.
inline DryingOut left_alone(const BedNumbers& bed, const CompletedBed& said, const Load& put_in,
                            double away, UnitSystem units) noexcept {
    const double held_kg =
        bed.water_kg + put_in.free_water_kg.value + put_in.bedding_water_kg.value;
    const double capacity_kg = bed.capacity_kg.value + put_in.capacity_kg.value;
    const auto under = [&](const Factor& lid) {
        return drying_out(held_kg, capacity_kg, bed.surface_m2, lid, away, units);
    };
    const Factor& open = evaporation_of(said.lid, said.ventilation);
    const DryingOut d = under(open);
    if (d.safe_days >= away) return d;
    DryingOut covered =
        under(open.value > limits::evaporation_holes.value ? limits::evaporation_holes
                                                           : limits::evaporation_closed);
    covered.cover = true;
    return covered;
}

}  // namespace detail

/// Longest time away that is worked out, days.
inline constexpr double longest_away_days = 84.0;

/// Going away for some weeks: drying is the danger, hunger is not. The water to add tops the bed up
/// for the evaporation expected, as far as its planned capacity allows; where that is not enough
/// the bed is to be covered, and where even that is not, somebody has to water it. How much food
/// and water go in before is the ration's to say: the text names no second amount.
/// @param away    above 0; worked out up to 12 weeks.
/// @param put_in  what goes in before leaving, its water too; a ration for a time away has what the
///                bed takes.
inline AwayAdvice going_away(const Bed& said, Duration away, const Load& put_in = {},
                             UnitSystem units = UnitSystem::metric) {
    const CompletedBed bed = completed(said, units);
    const BedNumbers n = bed_numbers(said, bed, {});
    const double away_days = std::clamp(in_days(away), 0.0, longest_away_days);
    AwayAdvice advice;
    advice.away = days(away_days);
    advice.assumed = bed.assumed;
    const detail::DryingOut d = detail::left_alone(n, bed, put_in, away_days, units);
    advice.cover = d.cover;
    advice.water_to_add = kilograms(d.water_to_add);
    advice.safe_for = days(std::min(d.safe_days, 3650.0));
    advice.needs_a_helper = d.safe_days < away_days;
    const double dry_kg = n.dry_kg + put_in.dry_kg.value;
    const double most_left =
        d.after + n.surface_m2 * (d.evaporation->value - d.evaporation->low) * away_days;
    const auto moisture = [&](double water) { return Moisture(water / (water + dry_kg)); };
    // What is not known of the bed now is not known of it later either.
    const double short_by = n.water_kg - detail::water_for(bed.moisture.low.value(), n.dry_kg);
    const double over_by = detail::water_for(bed.moisture.high.value(), n.dry_kg) - n.water_kg;
    advice.at_return =
        known(moisture(d.after), moisture(std::max(0.0, d.after_least - std::max(0.0, short_by))),
              moisture(std::max(d.after, most_left) + std::max(0.0, over_by)), Grade::d);

    std::string& text = advice.text;
    text = "Gone for " + words::day_count(away_days) + ": no food beyond that is needed. ";
    if (away_days > 21.0 && put_in.scraps_wet_kg > 0.0)
        text += "Let slow food (carrot, stalks, squash) be a part of what goes in. ";
    text += "Worms live on their bedding for weeks. ";
    if (advice.cover)
        text += d.evaporation == &limits::evaporation_closed
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
    const DecayedShares decayed = decayed_shares(n.horizon_days, n.decay_speed);
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
