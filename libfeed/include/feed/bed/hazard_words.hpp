#pragma once
#include <cmath>
#include <string>
#include <string_view>

#include "feed/bed/hazard_row.hpp"
#include "feed/bed/heat.hpp"
#include "feed/quantity/amount_words.hpp"

// Why a hazard got its level: one sentence (for overfed also the rules side by side) with the
// numbers. Kept apart from the numbers, which allocate nothing.
namespace feed {

namespace words {

/// Acid in a litre of air; in ounces a gallon for those who read US units.
inline double acid_figure(double grams_a_litre, UnitSystem units) noexcept {
    if (units == UnitSystem::metric) return grams_a_litre;
    return grams_a_litre * litres_per_us_gallon / (1000.0 * kilograms_per_pound / 16.0);
}
inline std::string acid_unit(UnitSystem units) {
    return units == UnitSystem::us ? " oz a gallon" : " g a litre";
}
/// A concentration of grams a kg, and its unit: parts per million for those who read US units.
inline double small_share(double grams_a_kg, UnitSystem units) noexcept {
    return units == UnitSystem::us ? 1000.0 * grams_a_kg : grams_a_kg;
}
inline std::string feeding_rate_words(UnitSystem units) {
    return units == UnitSystem::us ? " lb of wet scraps a lb of worms and day"
                                   : " kg of wet scraps a kg of worms and day";
}

inline std::string feeding_rules_sentence(const BedNumbers& bed, const FeedingRules& rules,
                                          UnitSystem units = UnitSystem::metric) {
    std::string text;
    if (rules.own_record) {
        text = "This bed's own record, " + mass(rules.start_wet_kg_per_day, units) +
               " a day, takes the place of the published rules";
    } else {
        text = "By the rules in print this bed takes a day: ";
        for (std::size_t i = 0; i < rules.rules.size(); ++i) {
            if (i > 0) text += ", ";
            text += mass(rules.rules[i].wet_kg_per_day, units) + " (" +
                    std::string(rules.rules[i].name) + ")";
        }
        text += "; the lowest";
    }
    std::string times;
    if (bed.cold_factor < 1.0)
        times +=
            ", times " + number(bed.cold_factor) + " for " + temperature(bed.temperature_c, units);
    if (!rules.own_record && bed.ramp_factor < 1.0)
        times += ", times " + number(bed.ramp_factor) + " for a new bin";
    text += times;
    if (!rules.own_record)
        text += std::string(times.empty() ? "" : ",") +
                " is the start, because hunger is slow and a soured bed is not";
    return text + ".";
}

inline std::string sour(const FeedingPlace& place, const Load& load, const HazardNumbers& n,
                        UnitSystem units) {
    const BedNumbers& bed = *place.bed;
    const double share = place.pocket_share;
    const double own = share * bed.acid_g.value + load.acid_g.value;
    const double formed = 1000.0 * limits::acid_from_labile.value *
                          (share * bed.labile_kg.value + load.labile_kg.value);
    const double bound =
        limits::grams_citric_per_gram_lime.value *
        (share * (bed.lime_g * limits::ground_lime_acting.value + bed.fed_lime_g.value) +
         load.lime_g.value);
    const double times = acid_figure(1.0, units);
    std::string text =
        "Around the food there are " + mass(own / 1000.0, units) +
        " of acid (as citric), and the food can form about " + mass(formed / 1000.0, units) +
        " more; lime can bind " + mass(bound / 1000.0, units) + "; that leaves " +
        number_beside(times * n[Hazard::sour].value.value, times * n[Hazard::sour].watch) +
        acid_unit(units) + " of air in the bed around the food";
    if (bed.ph) text += " (measured pH " + number(*bed.ph) + ")";
    return text;
}

/// What runs off where more water comes than bed and bedding hold, or "".
inline std::string running_off(const BedNumbers& bed, const Load& load, UnitSystem units) {
    const double off = bed.water_kg + bed.free_water_kg.value + load.free_water_kg.value +
                       load.bedding_water_kg.value - bed.evaporation_kg.value -
                       bed.capacity_kg.value - load.capacity_kg.value;
    if (off <= 0.0) return "";
    constexpr std::string_view ways[] = {" will run out below", " can be let out at the tap",
                                         " has nowhere to go"};
    return "; about " + volume(off, units) +
           std::string(ways[static_cast<std::size_t>(bed.drainage)]);
}

/// How warm the food gets, or without any the bed. What is reckoned is held at 50 C; what was
/// measured is told as it is.
inline std::string warming(const Load& load, const HazardNumber& h, const BedNumbers& bed,
                           UnitSystem units) {
    const double x = h.value.value;
    const bool close = x != h.watch && std::abs(x - h.watch) < 1.0;
    const bool held = x >= heat::hottest_said_c && bed.temperature_high_c < x;
    return (load.scraps_wet_kg > 0.0 ? "the food can warm from " : "the bed can warm from ") +
           temperature(bed.temperature_high_c, units) + " to " +
           (held ? "above " + temperature(heat::hottest_said_c, units)
                 : "about " + degrees(x, units, close) + degree_word(units));
}

/// Why, without the full stop.
inline std::string why(Hazard hazard, const FeedingPlace& place, const Load& load,
                       const HazardNumbers& n, UnitSystem units) {
    const BedNumbers& bed = *place.bed;
    const HazardNumber& h = n[hazard];
    const double x = h.value.value;
    switch (hazard) {
        case Hazard::sour:
            return sour(place, load, n, units);
        case Hazard::wet:
        case Hazard::dry:
            return "in " + day_count(bed.horizon_days) + " the bed holds about " + percent(x) +
                   " of the water that it can hold (" + percent(h.value.low) + " to " +
                   percent(h.value.high) + ")" +
                   (hazard == Hazard::wet ? running_off(bed, load, units) : std::string());
        case Hazard::cold:
            return "the bed is at " + temperature(x, units);
        case Hazard::hot:
            return warming(load, h, bed, units);
        case Hazard::ammonia: {
            const bool us = units == UnitSystem::us;
            std::string text =
                "decay frees about " +
                number_beside(small_share(x, units), small_share(h.watch, units)) +
                (us ? " parts per million of ammonia nitrogen in feed and bed around it"
                    : " g of ammonia nitrogen a kg of feed and bed around it") +
                ", beyond what the bedding takes up";
            if (bed.ph) text += "; measured pH " + number(*bed.ph);
            return text;
        }
        case Hazard::salty:
            return "with this feeding " + number_beside(100.0 * x, 100.0 * h.watch) + " %" +
                   " of the bed around it is salt";
        case Hazard::overfed:
            if (h.unit == "kg")
                return "with the soft food still there the worms have " + mass(x, units);
            return "averaged over " + day_count(bed.rate_window_days) + " with the diary this is " +
                   number_beside(x, h.watch) + feeding_rate_words(units);
        case Hazard::underfed:
            if (!bed.hunger_known)
                return "the diary does not go back " + day_count(limits::underfed_days.value) +
                       ", so nothing is said of hunger";
            return "with what the diary has of " + day_count(limits::underfed_days.value) +
                   " this is " + number_beside(x, h.watch) + feeding_rate_words(units);
        case Hazard::airless:
            return h.higher_is_worse ? "the scraps lie " + length(x, units) + " deep"
                                     : "around the food " + percent(x) + " of the volume is air";
        case Hazard::greasy:
            return number_beside(100.0 * x, 100.0 * h.watch) + " % of a week's ration is fat";
    }
    return "";
}

inline std::string limit_words(Hazard hazard, const HazardNumber& h, UnitSystem units) {
    const auto watch_and_act = [&](double times) {
        return "watch above " + number(times * h.watch) + ", act above " + number(times * h.act);
    };
    switch (hazard) {
        case Hazard::sour:
            return watch_and_act(acid_figure(1.0, units));
        case Hazard::dry:
            return "watch below " + percent(h.watch) + ", act below " + percent(h.act);
        case Hazard::cold:
            return "slow below " + temperature(h.watch, units) + ", harm below " +
                   temperature(h.act, units);
        case Hazard::hot:
            return "watch above " + temperature(h.watch, units) + ", act above " +
                   temperature(h.act, units);
        case Hazard::ammonia:
            return watch_and_act(small_share(1.0, units));
        case Hazard::wet:
        case Hazard::salty:
        case Hazard::greasy:
            return "watch above " + percent(h.watch) + ", act above " + percent(h.act);
        case Hazard::overfed:
            if (h.unit == "kg") return "at most " + mass(h.watch, units);
            return "start at " + number(h.watch) + ", too much above " + number(h.act);
        case Hazard::underfed:
            return h.watch > 0.0 ? "little below " + number(h.watch) : std::string();
        case Hazard::airless:
            return h.higher_is_worse
                       ? "up to " + length(h.watch, units) + ", never above " + length(h.act, units)
                       : "wanted at least " + percent(h.watch) + ", needed " + percent(h.act);
    }
    return "";
}

}  // namespace words

/// The sentence of a finding.
inline std::string why_sentence(Hazard hazard, const FeedingPlace& place, const Load& load,
                                const HazardNumbers& n, UnitSystem units) {
    const HazardNumber& h = n[hazard];
    if (h.knowledge == Knowledge::unknown)
        return "Cannot tell: the figure is missing for " + words::percent(1.0 - h.covered) +
               " of the scraps.";
    std::string text = words::why(hazard, place, load, n, units);
    if (text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    const std::string limit = words::limit_words(hazard, h, units);
    if (!limit.empty()) text += "; " + limit;
    if (h.knowledge == Knowledge::at_least)
        text += " (at least: a figure is missing for some scraps)";
    text += ".";
    if (hazard == Hazard::overfed)
        text += " " + words::feeding_rules_sentence(*place.bed, place.rules, units);
    return text;
}

}  // namespace feed
