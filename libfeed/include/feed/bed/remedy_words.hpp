#pragma once
#include <string>
#include <vector>

#include "feed/bed/amount_words.hpp"
#include "feed/bed/remedy.hpp"

namespace feed {

namespace words {

/// "2 handfuls, about 180 g of dry shredded cardboard".
inline std::string of_material(double kg, std::string_view name, const Feedstock* f) {
    std::string text = kilograms_or_grams(kg) + " of " + std::string(name);
    if (f == nullptr) return text;
    for (const MeasuredMass& measured : f->measures) {
        const double each = measured.wet_mass.in_kilograms();
        const bool usable = measured.measure == Measure::handful ||
                            measured.measure == Measure::sheet ||
                            measured.measure == Measure::tablespoon;
        if (!usable || each <= 0.0) continue;
        const double count = std::max(1.0, std::floor(kg / each + 0.5));
        if (count > 20.0) continue;
        return text + " (" + number(count) + " " + std::string(feed::text(measured.measure)) +
               (count > 1.5 ? "s" : "") + ")";
    }
    return text;
}

inline std::string feed_less_sentence(const RemedyNumber& r, double scraps_kg) {
    const double rest = scraps_kg - r.amount;
    if (r.amount <= 0.0) {
        if (r.later_days <= 0.0)
            return "Feed nothing now; freeze the scraps or take them elsewhere.";
        return "Feed nothing now; feed the " + kilograms_or_grams(scraps_kg) + " in " +
               day_count(r.later_days) + ".";
    }
    std::string text = "Feed " + kilograms_or_grams(r.amount) + " of the scraps now";
    if (r.later_days <= 0.0)
        return text + " and freeze the rest (" + kilograms_or_grams(rest) +
               ") or take it elsewhere.";
    if (r.repeat)
        return text + " and as much again every " + day_count(r.later_days) + "; freeze the rest.";
    return text + " and the rest (" + kilograms_or_grams(rest) + ") in " + day_count(r.later_days) +
           ".";
}

inline std::string raised_words(const std::vector<Hazard>& raised) {
    if (raised.empty()) return "";
    std::string text = " It makes the bed more ";
    for (std::size_t i = 0; i < raised.size(); ++i) {
        if (i > 0) text += i + 1 == raised.size() ? " and " : ", ";
        text += std::string(feed::text(raised[i]));
    }
    return text + ": see there.";
}

}  // namespace words

/// A remedy with its words. @param p the problem it was worked out from.
inline Remedy remedy_of(const RemedyNumber& r, const RemedyProblem& p) {
    Remedy remedy;
    remedy.kind = r.kind;
    remedy.hazard_gone = r.gone;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        if (r.raises[h]) remedy.raises.push_back(static_cast<Hazard>(h));
    }
    const RemedyMaterials& with = *p.materials;
    const double scraps_kg = p.load.scraps_wet_kg;
    switch (r.kind) {
        case RemedyKind::add_bedding:
            remedy.material = with.bedding->id;
            remedy.add = wet_kilograms(r.amount);
            remedy.feed_now = wet_kilograms(r.without_feeding ? 0.0 : scraps_kg);
            remedy.text = (r.without_feeding ? "Feed nothing now and mix in " : "Add ") +
                          words::of_material(r.amount, with.bedding_words, with.bedding.get()) +
                          ".";
            break;
        case RemedyKind::open_lid:
            remedy.later = days(r.amount);
            remedy.text = "Leave the lid off for " + words::day_count(r.amount) +
                          ", with the food covered against flies.";
            break;
        case RemedyKind::add_water:
            remedy.add = wet_kilograms(r.amount);
            remedy.text = "Add " + words::litres_or_millilitres(r.amount) +
                          " of water, sprinkled over a day or two.";
            break;
        case RemedyKind::add_lime:
            remedy.material = with.lime->id;
            remedy.add = wet_kilograms(r.amount);
            remedy.text = "Add " + words::of_material(r.amount, with.lime_words, with.lime.get()) +
                          ", moistened against dust.";
            break;
        case RemedyKind::feed_less:
            remedy.feed_now = wet_kilograms(r.amount);
            remedy.feed_later = wet_kilograms(r.repeat ? r.amount : scraps_kg - r.amount);
            remedy.later = days(r.later_days);
            remedy.text = words::feed_less_sentence(r, scraps_kg);
            break;
        case RemedyKind::feed_more:
            remedy.add = wet_kilograms(r.amount);
            remedy.text = "Feed " + words::kilograms_or_grams(r.amount) + " more.";
            break;
        case RemedyKind::spread:
            remedy.spread = square_metres(r.amount);
            remedy.text = "Spread the feeding over " + words::number(r.amount) + " m2.";
            break;
        case RemedyKind::leave_out: {
            const Portion& portion = p.portions[r.portion];
            remedy.material = portion.feedstock->id;
            remedy.feed_now = wet_kilograms(r.amount);
            const double out = portion.wet_mass.in_kilograms() - r.amount;
            remedy.text = r.amount > 0.0
                              ? "Feed only " + words::kilograms_or_grams(r.amount) + " of the " +
                                    portion.feedstock->name + " and leave out " +
                                    words::kilograms_or_grams(out) + "."
                              : "Leave out the " + portion.feedstock->name + ".";
            break;
        }
        default:
            break;
    }
    remedy.text += words::raised_words(remedy.raises);
    return remedy;
}

/// What is said when no step takes the hazard away.
inline Remedy no_remedy(Hazard hazard, const RemedyProblem& p) {
    Remedy remedy;
    remedy.kind = RemedyKind::cannot;
    const HazardNumber idle = hazard_number(hazard, *p.bed, Load{}, p.spread_m2);
    const auto x = idle.value.value;
    switch (hazard) {
        case Hazard::hot: {
            remedy.kind = RemedyKind::cool;
            const double too_warm = p.bed->temperature_high_c - idle.watch;
            remedy.text = "Feeding less cannot help: the bed must first cool by " +
                          words::number(std::max(too_warm, 0.1)) +
                          " C (shade, air, a damp cloth); feed nothing until then.";
            break;
        }
        case Hazard::wet:
            remedy.text = "No amount of bedding that fits dries this bed: drain it, lift out the " +
                          std::string("wettest part and renew about ") +
                          words::percent(std::clamp(
                              (x - idle.watch) / std::max(p.bed->water_kg, 1e-9), 0.05, 1.0)) +
                          " of it, and feed nothing until a squeeze gives a drop or two.";
            break;
        case Hazard::salty:
            remedy.text = "Feeding less cannot help: the bed already holds " + words::percent(x) +
                          " salt; renew part of it with fresh bedding.";
            break;
        case Hazard::overfed:
            remedy.text = "Feed nothing now: what was fed before is still too much.";
            break;
        case Hazard::sour:
            remedy.text =
                "No single step takes it away: feed nothing, loosen the bed for air and wait about " +
                words::day_count(std::ceil(std::log(std::max(1.001, x / idle.watch)) /
                                           pool_rates[0].rate_per_day.value)) +
                ".";
            break;
        default:
            remedy.text = "No single step tried takes it away; feed less and look again.";
            break;
    }
    return remedy;
}

/// Why lime is not advised here, or "" where it may be.
inline std::string lime_withheld(const RemedyProblem& p) {
    if (p.bed->ph.value_or(0.0) >= 7.0)
        return "Lime is left out: the measured pH " + words::number(*p.bed->ph) + " is not sour.";
    if (p.before->limed_ammonia_g_per_kg > limits::free_ammonia_nitrogen.watch)
        return "Lime is left out: near pH 7.5 it would set free about " +
               words::number(p.before->limed_ammonia_g_per_kg) +
               " g of ammonia nitrogen a kg around the food.";
    return "";
}

}  // namespace feed
