#pragma once
#include <cmath>
#include <string>
#include <string_view>

#include "feed/bed/amount_words.hpp"
#include "feed/bed/hazard_numbers.hpp"

// Why a hazard got its level: one sentence (for overfed also the rules side by side) with the
// numbers. Kept apart from the numbers, which allocate nothing.
namespace feed {

/// Unit of the value and limits of a hazard.
constexpr std::string_view unit_of(Hazard hazard, bool layer_decides) noexcept {
    switch (hazard) {
        case Hazard::sour:
            return limits::acid_per_air_litre.unit;
        case Hazard::wet:
            return "kg water";
        case Hazard::dry:
        case Hazard::salty:
        case Hazard::greasy:
            return "kg/kg wet";
        case Hazard::hot:
            return "deg C";
        case Hazard::ammonia:
            return limits::ammonia_nitrogen.unit;
        case Hazard::overfed:
        case Hazard::underfed:
            return limits::underfed_rate.unit;
        case Hazard::airless:
            return layer_decides ? limits::layer_depth.unit : limits::free_air_space.unit;
    }
    return "";
}

/// Where the limits of a hazard come from.
inline std::string_view source_of(Hazard hazard, const BedNumbers& bed,
                                  bool layer_decides) noexcept {
    switch (hazard) {
        case Hazard::sour:
            return limits::acid_per_air_litre.source;
        case Hazard::wet:
            return limits::planned_capacity_share.source;
        case Hazard::dry:
            return bed.species->moisture_source;
        case Hazard::hot:
            return bed.species->temperature_source;
        case Hazard::ammonia:
            return limits::ammonia_nitrogen.source;
        case Hazard::salty:
            return limits::salt.source;
        case Hazard::overfed:
            return bed.own_rate ? std::string_view("the keeper's own record of this bed")
                                : feeding_rules(bed).rules[feeding_rules(bed).lowest].source;
        case Hazard::underfed:
            return limits::underfed_rate.source;
        case Hazard::airless:
            return layer_decides ? limits::layer_depth.source : limits::free_air_space.source;
        case Hazard::greasy:
            return limits::fat.source;
    }
    return "";
}

namespace words {

inline std::string feeding_rules_sentence(const BedNumbers& bed, const FeedingRules& rules) {
    std::string text;
    if (rules.own_record) {
        text = "This bed's own record, " + kilograms_or_grams(rules.start_wet_kg_per_day) +
               " a day, takes the place of the published rules";
    } else {
        text = "By the rules in print this bed takes a day: ";
        for (std::size_t i = 0; i < rules.rules.size(); ++i) {
            if (i > 0) text += ", ";
            text += kilograms_or_grams(rules.rules[i].wet_kg_per_day) + " (" +
                    std::string(rules.rules[i].name) + ")";
        }
        text += "; the lowest";
    }
    std::string times;
    if (bed.cold_factor < 1.0)
        times += ", times " + number(bed.cold_factor) + " for " + number(bed.temperature_c) + " C";
    if (!rules.own_record && bed.ramp_factor < 1.0)
        times += ", times " + number(bed.ramp_factor) + " for a new bin";
    text += times;
    if (!rules.own_record)
        text += std::string(times.empty() ? "" : ",") +
                " is the start, because hunger is slow and a soured bed is not";
    return text + ".";
}

inline std::string sour(const BedNumbers& bed, const Load& load, const HazardNumbers& n) {
    const double own = bed.acid_g.value + load.acid_g.value;
    const double formed =
        1000.0 * limits::acid_from_labile.value * (bed.labile_kg.value + load.labile_kg.value);
    const double bound = limits::grams_citric_per_gram_lime.value *
                         (bed.lime_g * limits::ground_lime_acting.value + load.lime_g.value);
    std::string text = "The scraps hold " + number(own) +
                       " g of acid (as citric) and can form about " + number(formed) +
                       " g more; lime can bind " + number(bound) + " g; that leaves " +
                       number_beside(n[Hazard::sour].value.value, n[Hazard::sour].watch) +
                       " g a litre of air in the bed";
    if (bed.ph) text += " (measured pH " + number(*bed.ph) + ")";
    return text;
}

inline std::string wet(const BedNumbers& bed, const Load& load, const HazardNumber& n) {
    const double x = n.value.value;
    std::string text = x >= 0.0 ? "the scraps and what is poured bring " +
                                      litres_or_millilitres(x) + " of water more than evaporates"
                                : "evaporation takes " + litres_or_millilitres(-x) +
                                      " more water than this feeding brings";
    text += n.watch >= 0.0 ? "; bed and bedding have room for " + litres_or_millilitres(n.watch)
                           : "; bed and bedding hold " + litres_or_millilitres(-n.watch) +
                                 " more than planned already";
    text += n.act >= 0.0 ? " (" + litres_or_millilitres(n.act) + " at most)" : "";
    text += "; known to about " + litres_or_millilitres(n.value.high - x);
    const double running_off = bed.water_kg + load.bedding_water_kg.value + x -
                               bed.capacity_kg.value - load.capacity_kg.value;
    if (running_off > 0.0) {
        constexpr std::string_view ways[] = {" will run out below", " can be let out at the tap",
                                             " has nowhere to go"};
        text += "; about " + litres_or_millilitres(running_off) +
                std::string(ways[static_cast<std::size_t>(bed.drainage)]);
    }
    return text;
}

/// Why, without the full stop.
inline std::string why(Hazard hazard, const BedNumbers& bed, const Load& load,
                       const HazardNumbers& n) {
    const HazardNumber& h = n[hazard];
    const double x = h.value.value;
    switch (hazard) {
        case Hazard::sour:
            return sour(bed, load, n);
        case Hazard::wet:
            return wet(bed, load, h);
        case Hazard::dry:
            return "in " + day_count(bed.horizon_days) + " the bed is at about " + percent(x) +
                   " moisture (" + percent(h.value.low) + " to " + percent(h.value.high) + ")";
        case Hazard::hot:
            return "the food layer can bring the bed from " + number(bed.temperature_high_c) +
                   " C to about " + number_beside(x, h.watch) + " C";
        case Hazard::ammonia: {
            std::string text = "decay frees about " + number_beside(x, h.watch) +
                               " g of ammonia nitrogen a kg of feed and bed around it, beyond what "
                               "the bedding takes up";
            if (bed.ph)
                text += "; " + number(n.free_ammonia_g_per_kg) + " g of it free at pH " +
                        number(*bed.ph);
            return text;
        }
        case Hazard::salty:
            return "with this feeding " + number_beside(100.0 * x, 100.0 * h.watch) + " %" +
                   " of the bed is salt";
        case Hazard::overfed:
            return "averaged over " + day_count(bed.rate_window_days) + " with the diary this is " +
                   number_beside(x, h.watch) + " kg of wet scraps a kg of worms and day";
        case Hazard::underfed:
            return "over " + day_count(bed.diary_days + bed.horizon_days) + " this is " +
                   number_beside(x, h.watch) + " kg of wet scraps a kg of worms and day";
        case Hazard::airless:
            return h.higher_is_worse ? "the scraps lie " + number(100.0 * x) + " cm deep"
                                     : "around the food " + percent(x) + " of the volume is air";
        case Hazard::greasy:
            return number_beside(100.0 * x, 100.0 * h.watch) + " % of the feeding is fat";
    }
    return "";
}

inline std::string limit_words(Hazard hazard, const HazardNumber& h) {
    switch (hazard) {
        case Hazard::sour:
            return "watch above " + number(h.watch) + ", act above " + number(h.act);
        case Hazard::wet:
            return "";
        case Hazard::dry:
            return "wanted at least " + percent(h.watch) + ", harm below " + percent(h.act);
        case Hazard::hot:
            return "harm above " + number(h.watch) + " C, death near " + number(h.act) + " C";
        case Hazard::ammonia:
            return "watch above " + number(h.watch) + ", act above " + number(h.act);
        case Hazard::salty:
        case Hazard::greasy:
            return "watch above " + percent(h.watch) + ", act above " + percent(h.act);
        case Hazard::overfed:
            return "start at " + number(h.watch) + ", too much above " + number(h.act);
        case Hazard::underfed:
            return "little below " + number(h.watch);
        case Hazard::airless:
            return h.higher_is_worse
                       ? "up to " + number(100.0 * h.watch) + " cm, never above " +
                             number(100.0 * h.act) + " cm"
                       : "wanted at least " + percent(h.watch) + ", needed " + percent(h.act);
    }
    return "";
}

}  // namespace words

/// The sentence of a finding.
inline std::string why_sentence(Hazard hazard, const BedNumbers& bed, const Load& load,
                                const HazardNumbers& n) {
    const HazardNumber& h = n[hazard];
    if (h.knowledge == Knowledge::unknown)
        return "Cannot tell: the figure is missing for " + words::percent(1.0 - h.covered) +
               " of the scraps.";
    std::string text = words::why(hazard, bed, load, n);
    if (text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    const std::string limit = words::limit_words(hazard, h);
    if (!limit.empty()) text += "; " + limit;
    if (h.knowledge == Knowledge::at_least)
        text += " (at least: a figure is missing for some scraps)";
    text += ".";
    if (hazard == Hazard::overfed)
        text += " " + words::feeding_rules_sentence(bed, feeding_rules(bed));
    return text;
}

}  // namespace feed
