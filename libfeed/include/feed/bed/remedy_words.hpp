#pragma once
#include <string>
#include <vector>

#include "feed/bed/hazard_words.hpp"
#include "feed/bed/joint_remedy.hpp"
#include "feed/bed/remedy.hpp"
#include "feed/quantity/amount_words.hpp"

namespace feed {

namespace words {

/// "2 handfuls, about 180 g of dry shredded cardboard".
inline std::string of_material(double kg, std::string_view name, const Feedstock* f,
                               UnitSystem units) {
    std::string text = mass(kg, units) + " of " + std::string(name);
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

inline std::string feed_less_sentence(const RemedyNumber& r, double scraps_kg, UnitSystem units) {
    const double rest = scraps_kg - r.amount;
    if (r.amount <= 0.0) {
        if (r.later_days <= 0.0)
            return "Feed nothing now; freeze the scraps or take them elsewhere.";
        return "Feed nothing now; feed the " + mass(scraps_kg, units) + " in " +
               day_count(r.later_days) + ".";
    }
    std::string text = "Feed " + mass(r.amount, units) + " of the scraps now";
    if (r.later_days <= 0.0)
        return text + " and freeze the rest (" + mass(rest, units) + ") or take it elsewhere.";
    if (r.repeat)
        return text + " and as much again every " + day_count(r.later_days) + "; freeze the rest.";
    return text + " and the rest (" + mass(rest, units) + ") in " + day_count(r.later_days) + ".";
}

/// "a, b and c".
template <class Parts, class TextOf>
std::string listed(const Parts& parts, TextOf text_of) {
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) text += i + 1 == parts.size() ? " and " : ", ";
        text += text_of(parts[i]);
    }
    return text;
}

inline std::string hazard_list(const std::vector<Hazard>& hazards) {
    return listed(hazards, [](Hazard hazard) { return feed::text(hazard); });
}

inline std::string raised_words(const std::vector<Hazard>& raised) {
    if (raised.empty()) return "";
    return " It makes the bed more " + hazard_list(raised) + ": see there.";
}

}  // namespace words

/// A remedy with its words. @param p the problem it was worked out from.
inline Remedy remedy_of(const RemedyNumber& r, const RemedyProblem& p) {
    Remedy remedy;
    const UnitSystem units = p.units;
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
            remedy.text =
                (r.without_feeding ? "Feed nothing now and mix in " : "Add ") +
                words::of_material(r.amount, with.bedding_words, with.bedding.get(), units) + ".";
            break;
        case RemedyKind::open_lid:
            remedy.later = days(r.amount);
            remedy.text = "Leave the lid off for " + words::day_count(r.amount) +
                          ", with the food covered against flies.";
            break;
        case RemedyKind::add_water:
            remedy.add = wet_kilograms(r.amount);
            remedy.text =
                "Add " + words::volume(r.amount, units) + " of water, sprinkled over a day or two.";
            break;
        case RemedyKind::add_lime:
            remedy.material = with.lime->id;
            remedy.add = wet_kilograms(r.amount);
            remedy.text = "Add " +
                          words::of_material(r.amount, with.lime_words, with.lime.get(), units) +
                          ", moistened against dust.";
            break;
        case RemedyKind::feed_less:
            remedy.feed_now = wet_kilograms(r.amount);
            remedy.feed_later = wet_kilograms(r.repeat ? r.amount : scraps_kg - r.amount);
            remedy.later = days(r.later_days);
            remedy.text = words::feed_less_sentence(r, scraps_kg, units);
            break;
        case RemedyKind::feed_more:
            remedy.add = wet_kilograms(r.amount);
            if (scraps_kg <= 0.0) remedy.material = with.scraps_id;
            remedy.text = "Feed " + words::mass(r.amount, units) +
                          (scraps_kg <= 0.0                    ? " of soft scraps."
                           : p.load.wet_kg > 1.001 * scraps_kg ? " more, with bedding as planned."
                                                               : " more.");
            break;
        case RemedyKind::spread:
            remedy.spread = square_metres(r.amount);
            remedy.text = "Spread the feeding over " + words::area(r.amount, units) + ".";
            break;
        case RemedyKind::leave_out: {
            const Portion& portion = p.portions[r.portion];
            remedy.material = portion.feedstock->id;
            remedy.feed_now = wet_kilograms(r.amount);
            const double out = portion.wet_mass.in_kilograms() - r.amount;
            remedy.text = r.amount > 0.0 ? "Feed only " + words::mass(r.amount, units) +
                                               " of the " + portion.feedstock->name +
                                               " and leave out " + words::mass(out, units) + "."
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
                          words::warming(std::max(too_warm, 0.1), p.units) +
                          " (shade, air, a damp cloth); feed nothing until then.";
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

namespace words {

/// "180 g of dry shredded cardboard, 250 ml of water", or "".
inline std::string additions_of(const JointNumber& n, const RemedyProblem& p) {
    const RemedyMaterials& with = *p.materials;
    std::vector<std::string> parts;
    if (n.bedding_kg > 0.0)
        parts.push_back(of_material(n.bedding_kg, with.bedding_words, with.bedding.get(), p.units));
    if (n.water_kg > 0.0) parts.push_back(volume(n.water_kg, p.units) + " of water");
    if (n.lime_kg > 0.0)
        parts.push_back(of_material(n.lime_kg, with.lime_words, with.lime.get(), p.units) +
                        ", moistened");
    return listed(parts, [](const std::string& part) { return part; });
}

/// What goes in now, and when the rest follows.
inline std::string joint_steps_sentence(const JointNumber& n, const RemedyProblem& p) {
    const std::string with = additions_of(n, p);
    const double cut_kg = n.cut_down ? p.portions[*n.cut_down].wet_mass.in_kilograms() : 0.0;
    const bool is_cut = n.cut_down && n.keep_kg < cut_kg;
    const std::string cut_name = n.cut_down ? p.portions[*n.cut_down].feedstock->name : "";
    const double planned = p.load.scraps_wet_kg;
    const double rest = n.share > 0.0 ? n.scraps_kg * (1.0 / n.share - 1.0) : planned - cut_kg;
    const std::string without = is_cut && n.keep_kg <= 0.0 ? ", without the " + cut_name : "";
    std::string text;
    if (planned <= 0.0) {
        text = with.empty() ? "Nothing needs to be added" : "Add " + with;
    } else if (n.share <= 0.0 && n.keep_kg <= 0.0) {
        text = "Feed nothing now" + (with.empty() ? std::string() : ", and mix in " + with);
    } else {
        text = n.share < 1.0 ? "Feed " + mass(n.scraps_kg, p.units) + " of the scraps now"
                             : std::string("Feed as planned");
        if (is_cut)
            text += n.keep_kg > 0.0
                        ? ", with only " + mass(n.keep_kg, p.units) + " of the " + cut_name
                        : without;
        if (n.spread_m2 > p.spread_m2)
            text += ", spread over the whole surface (" + area(n.spread_m2, p.units) + ")";
        if (!with.empty()) text += ", and add " + with;
    }
    if (n.share < 1.0 && rest > 1e-4) {
        const std::string scraps =
            (n.share > 0.0 ? "the rest (" : "the scraps (") + mass(rest, p.units) + ")";
        if (n.later_days <= 0.0)
            text +=
                "; freeze " + scraps + " or take " + (n.share > 0.0 ? "it" : "them") + " elsewhere";
        else if (n.repeat)
            text +=
                "; feed as much again every " + day_count(n.later_days) + " and freeze the rest";
        else
            text += "; feed " + scraps + (n.share > 0.0 ? "" : without) + " in " +
                    day_count(n.later_days);
    }
    return text + ".";
}

/// Where a hazard that no step takes away forbids feeding: what that does to the others.
inline std::string waiting_sentence(const JointNumber& n, const JointRemedy& remedy,
                                    const RemedyProblem& p) {
    const std::string with = additions_of(n, p);
    std::string text = "Feed nothing" + (with.empty() ? std::string() : ", mix in " + with) +
                       ", until it is no longer " + hazard_list(remedy.stays) + ": see there.";
    if (remedy.clears.empty()) return text;
    return text + " Judged again without the feeding, " + hazard_list(remedy.clears) +
           (remedy.clears.size() == 1 ? " is" : " are") + " gone and nothing else rises.";
}

}  // namespace words

/// A joint remedy with its words. @param p the problem it was worked out from.
inline JointRemedy joint_remedy_of(const JointNumber& n, const RemedyProblem& p) {
    JointRemedy remedy;
    remedy.found = n.found;
    if (!n.found) {
        remedy.text =
            "No amounts that fit take all of these away at once: feed nothing, take the first step, "
            "and check again before the next.";
        return remedy;
    }
    for (std::size_t h = 0; h < hazard_count; ++h) {
        if (n.clears[h]) remedy.clears.push_back(static_cast<Hazard>(h));
        if (n.stays[h]) remedy.stays.push_back(static_cast<Hazard>(h));
    }
    const RemedyMaterials& with = *p.materials;
    if (n.bedding_kg > 0.0)
        remedy.additions.push_back({with.bedding->id, wet_kilograms(n.bedding_kg)});
    if (n.water_kg > 0.0)
        remedy.additions.push_back({std::string(with.water_id), wet_kilograms(n.water_kg)});
    if (n.lime_kg > 0.0) remedy.additions.push_back({with.lime->id, wet_kilograms(n.lime_kg)});
    remedy.share_now = n.share;
    remedy.feed_now = wet_kilograms(n.scraps_kg);
    if (n.share < 1.0 && n.share > 0.0)
        remedy.feed_later =
            wet_kilograms(n.repeat ? n.scraps_kg : n.scraps_kg * (1.0 / n.share - 1.0));
    if (n.share <= 0.0) remedy.feed_later = wet_kilograms(p.load.scraps_wet_kg);
    remedy.later = days(n.later_days);
    if (n.cut_down) {
        remedy.cut_down = p.portions[*n.cut_down].feedstock->id;
        remedy.keep = wet_kilograms(n.keep_kg);
    }
    remedy.spread = square_metres(n.spread_m2);
    if (n.waits) {
        remedy.text = words::waiting_sentence(n, remedy, p);
        return remedy;
    }
    remedy.text = words::joint_steps_sentence(n, p) + " Judged again, " +
                  words::hazard_list(remedy.clears) + (remedy.clears.size() == 1 ? " is" : " are") +
                  " gone and nothing else rises.";
    if (!remedy.stays.empty())
        remedy.text +=
            " It does not help against " + words::hazard_list(remedy.stays) + ": see there.";
    return remedy;
}

/// Why lime is not advised here, or "" where it may be.
inline std::string lime_withheld(const RemedyProblem& p) {
    if (p.bed->ph.value_or(0.0) >= 7.0)
        return "Lime is left out: the measured pH " + words::number(*p.bed->ph) + " is not sour.";
    if (p.before->limed_ammonia_g_per_kg > limits::free_ammonia_nitrogen.watch)
        return "Lime is left out: near pH 7.5 it would set free about " +
               words::number(words::small_share(p.before->limed_ammonia_g_per_kg, p.units)) +
               (p.units == UnitSystem::us ? " parts per million of ammonia nitrogen"
                                          : " g of ammonia nitrogen a kg") +
               " around the food.";
    return "";
}

}  // namespace feed
