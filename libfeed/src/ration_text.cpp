#include "feed/io/ration_text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "feed/diary/date.hpp"
#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/part.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed::io {
namespace {

/// A material as it is named in a sentence: the keeper's own word, else the name without its
/// remarks.
std::string name_of(const ThingAtHand& thing) {
    if (thing.label != thing.feedstock->name) return thing.label;
    std::string name = thing.feedstock->name.substr(0, thing.feedstock->name.find(','));
    if (name.size() > 1 && name[1] >= 'a' && name[1] <= 'z' && name[0] >= 'A' && name[0] <= 'Z')
        name[0] = static_cast<char>(name[0] - 'A' + 'a');
    return name;
}

std::string joined(const std::vector<std::string>& parts) {
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) text += i + 1 == parts.size() ? " and " : ", ";
        text += parts[i];
    }
    return text;
}

/// How a hazard reads after "the bed is".
std::string_view too_much(Hazard hazard) {
    switch (hazard) {
        case Hazard::sour:
            return "sour";
        case Hazard::wet:
            return "too wet";
        case Hazard::dry:
            return "too dry";
        case Hazard::hot:
            return "too warm";
        case Hazard::ammonia:
            return "giving off ammonia";
        case Hazard::salty:
            return "too salty";
        case Hazard::overfed:
            return "overfed";
        case Hazard::underfed:
            return "hungry";
        case Hazard::airless:
            return "short of air";
        case Hazard::greasy:
            return "greasy";
        case Hazard::cold:
            return "cold";
    }
    return "";
}

/// The step for a bed that no bedding, water or lime mends at once.
std::string_view by_hand(Hazard hazard) {
    switch (hazard) {
        case Hazard::wet:
            return "Drain it, lift out the wettest part and leave the lid ajar.";
        case Hazard::salty:
            return "Swap a third of the bed for fresh damp bedding. Feed nothing salty.";
        case Hazard::ammonia:
            return "Lift out the smelly food and leave the lid ajar.";
        case Hazard::hot:
            return "Move it into the shade, open the lid and lay a damp cloth over it.";
        case Hazard::cold:
            return "Bring it in, or wrap it well; do not disturb the worms.";
        case Hazard::dry:
            return "Sprinkle water bit by bit until a handful feels damp.";
        default:
            return "Lift out the rotting food and loosen the bed with your fingers.";
    }
}

std::string list_of(const std::vector<PutIn>& put_in, Part part, UnitSystem units) {
    std::vector<std::string> parts;
    for (const PutIn& put : put_in) {
        if (put.part == part) parts.push_back(measure_of(put, units) + " of " + name_of(put.thing));
    }
    return joined(parts);
}

bool offers(const Ration& ration, Part part) {
    return std::any_of(ration.put_in.begin(), ration.put_in.end(),
                       [&](const PutIn& put) { return put.part == part && !put.thing.at_hand; });
}

void add_take_out(const Ration& ration, std::vector<std::string>& lines) {
    for (std::size_t i = 0; i < ration.take_out.size(); ++i) {
        const TakeOut& out = ration.take_out[i];
        if (i == 2 && ration.take_out.size() > 3) {
            std::vector<std::string> names;
            for (std::size_t j = i; j < ration.take_out.size(); ++j)
                names.push_back(ration.take_out[j].label);
            lines.push_back("Take out also: " + joined(names) + ". Never feed them here.");
            return;
        }
        lines.push_back("Never feed " + out.label + ": " + out.why + ". Instead: " + out.instead +
                        ".");
    }
}

std::string headline(const Ration& ration, UnitSystem units) {
    switch (ration.answer) {
        case RationAnswer::act_first:
            return "Act first, and feed nothing today.";
        case RationAnswer::wait:
            if (!ration.next_feeding) return "Wait. Feed nothing for now.";
            if (!ration.date)
                return "Wait. Feed nothing for " +
                       counted(static_cast<std::size_t>(ration.next_feeding->day), "day") + ".";
            return "Wait. Feed nothing until " +
                   day_words(ration.date, ration.next_feeding->day, units) + ".";
        case RationAnswer::feed_less:
            return "Feed less: " + mass_text(ration.scraps.mass(), units) + " of scraps today.";
        case RationAnswer::feed:
            return "Feed it: " + mass_text(ration.scraps.mass(), units) + " of scraps today.";
    }
    return "";
}

/// What goes in without food: bedding, water and lime, a line each.
void add_materials(const Ration& ration, UnitSystem units, std::vector<std::string>& lines) {
    const std::string bedding = list_of(ration.put_in, Part::bedding, units);
    const std::string water = list_of(ration.put_in, Part::poured_water, units);
    const std::string lime = list_of(ration.put_in, Part::amendment, units);
    if (!bedding.empty()) lines.push_back("Mix in " + bedding + ", dry and torn.");
    if (!water.empty())
        lines.push_back("Sprinkle " + volume_text(litres(ration.water_kg), units) +
                        " of water over the day.");
    if (!lime.empty())
        lines.push_back("Stir in " + lime + ", moistened. Keep its dust out of eyes and lungs.");
}

void add_step(const Ration& ration, UnitSystem units, std::vector<std::string>& lines) {
    const Reason first = ration.reasons.empty() ? Reason{} : ration.reasons.front();
    const bool by_hand_too = first.kind == ReasonKind::alarm || first.hazard == Hazard::hot ||
                             first.hazard == Hazard::cold || first.hazard == Hazard::salty;
    if (!first.hazard_known)
        lines.push_back("Open the lid, smell it and squeeze a handful. Lift out what rots.");
    else if (by_hand_too || ration.put_in.empty())
        lines.push_back(std::string(by_hand(first.hazard)));
    add_materials(ration, units, lines);
    lines.push_back("Look again " + day_words(ration.date, ration.next_look, units) + ".");
}

void add_food(const Ration& ration, UnitSystem units, std::vector<std::string>& lines) {
    std::vector<std::string> scraps;
    for (const PutIn& put : ration.put_in) {
        if (put.part == Part::scraps)
            scraps.push_back(name_of(put.thing) + ", " + measure_of(put, units));
    }
    constexpr std::size_t lines_for_scraps = 3;
    if (scraps.size() <= lines_for_scraps) {
        for (const std::string& one : scraps)
            lines.push_back("  " + one);
    } else {
        std::string line;
        for (std::size_t i = 0; i < scraps.size(); ++i)
            line += (i > 0 ? "; " : "") + scraps[i];
        lines.push_back("  " + line);
    }
    const std::string bedding = list_of(ration.put_in, Part::bedding, units);
    if (!bedding.empty())
        lines.push_back("Cover with " + bedding +
                        (offers(ration, Part::bedding) ? ", or what dry bedding you have." : "."));
    if (ration.water_kg > 0.0)
        lines.push_back("Sprinkle " + volume_text(litres(ration.water_kg), units) + " of water.");
    const std::string lime = list_of(ration.put_in, Part::amendment, units);
    if (!lime.empty()) lines.push_back("Mix in " + lime + ".");
    lines.push_back(lay_text(ration));
}

std::string rest_text(const Ration& ration, UnitSystem units) {
    double rest_kg = 0.0;
    for (const Rest& rest : ration.rest)
        rest_kg += rest.wet_mass.in_kilograms();
    if (rest_kg < 0.005) return "";
    const bool all = ration.scraps.in_kilograms() <= 0.0;
    return std::string(all ? "Freeze the scraps (" : "Freeze the rest (") +
           mass_text(kilograms(rest_kg), units) + ") or take it elsewhere.";
}

/// "about Sat 5 Dec (Thu 3 Dec to Sat 12 Dec)"; "in about 7 days (5 to 14)" where no date is known.
std::string about_day(const std::optional<Date>& today, const RationDay& next, UnitSystem units) {
    constexpr int longest_told = 42;
    const int latest = std::min(next.latest, longest_told);
    const bool sharp = next.earliest == next.day && latest == next.day;
    if (!today) {
        if (sharp) return day_words(today, next.day, units);
        return "in about " + counted(static_cast<std::size_t>(next.day), "day") + " (" +
               std::to_string(next.earliest) + " to " + std::to_string(latest) + ")";
    }
    if (sharp) return day_words(today, next.day, units);
    return "about " + day_words(today, next.day, units) + " (" +
           day_words(today, next.earliest, units) + " to " + day_words(today, latest, units) + ")";
}

std::string when_text(const Ration& ration, UnitSystem units) {
    if (!ration.next_feeding)
        return "Look again " + day_words(ration.date, ration.next_look, units) + ".";
    return "Feed again " + about_day(ration.date, *ration.next_feeding, units) + ".";
}

void add_waiting(const Ration& ration, UnitSystem units, std::vector<std::string>& lines) {
    if (!ration.reasons.empty() && ration.reasons.front().kind == ReasonKind::hazard_now) {
        const Hazard hazard = ration.reasons.front().hazard;
        if (hazard == Hazard::hot || hazard == Hazard::cold)
            lines.push_back(std::string(by_hand(hazard)));
    }
    add_materials(ration, units, lines);
    if (!ration.next_feeding) {
        lines.push_back("Look again " + day_words(ration.date, ration.next_look, units) + ".");
        return;
    }
    const RationDay& next = *ration.next_feeding;
    if (next.earliest == next.latest) return;
    constexpr int longest_told = 42;
    lines.push_back("Look before you feed: it may be ready from " +
                    day_words(ration.date, next.earliest, units) + ", or only by " +
                    day_words(ration.date, std::min(next.latest, longest_told), units) + ".");
}

/// Cautions that can hurt a person, in one line.
std::string caution_line(const Ration& ration) {
    for (const CautionFinding& caution : ration.cautions) {
        if (caution.level == Level::act || caution.caution == Caution::lime_dust ||
            caution.caution == Caution::pathogen || caution.caution == Caution::treated_manure ||
            caution.caution == Caution::dust)
            return "Take care: " + caution.text;
    }
    return "";
}

}  // namespace

std::string measure_of(const PutIn& put, UnitSystem units) {
    const double kg = put.wet_mass.in_kilograms();
    const Feedstock& f = *put.thing.feedstock;
    if (put.part == Part::poured_water) return volume_text(litres(kg), units);
    if (put.part == Part::amendment && kg < 0.006) return "a pinch";
    if (put.part == Part::bedding) {
        const auto& density = f[Property::bulk_density_loose];
        if (density && density->value > 0.0) {
            const double handfuls = 1000.0 * kg / density->value / default_handful_litres;
            if (handfuls < 1.0) return "a handful";  // nobody weighs less of what is loose
            if (handfuls < 12.5) {
                const double count = std::floor(handfuls + 0.5);
                return counted(static_cast<std::size_t>(count), "handful") + ", about " +
                       mass_text(put.wet_mass.mass(), units);
            }
        }
        return measure_and_weight_text(put.wet_mass, f, std::nullopt, units);
    }
    if (!put.thing.amount) return mass_text(put.wet_mass.mass(), units);
    return measure_and_weight_text(put.wet_mass, f, put.thing.amount, units);
}

std::string day_words(const std::optional<Date>& today, int days, UnitSystem units) {
    if (!today) {
        if (days == 0) return "today";
        return days == 1 ? "tomorrow" : "in " + std::to_string(days) + " days";
    }
    constexpr std::array<std::string_view, 7> weekdays{"Thu", "Fri", "Sat", "Sun",
                                                       "Mon", "Tue", "Wed"};
    constexpr std::array<std::string_view, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const std::int64_t number = day_number(*today) + days;
    const Date date = date_of(number);
    const auto weekday = static_cast<std::size_t>(((number % 7) + 7) % 7);  // day 0 was a Thursday
    const std::string day = std::to_string(date.day);
    const std::string month(months[static_cast<std::size_t>(date.month - 1)]);
    return std::string(weekdays[weekday]) + " " +
           (units == UnitSystem::us ? month + " " + day : day + " " + month);
}

std::string lay_text(const Ration& ration) {
    if (ration.scraps.in_kilograms() <= 0.0) return "";
    return "Lay it in one place, over about a third of the bed, and bury it under the bedding.";
}

std::string expect_text(const Ration& ration, UnitSystem units) {
    constexpr int soonest_told = 3;  // before that little can be seen
    if (ration.scraps.in_kilograms() <= 0.0 || ration.next_look < soonest_told) return "";
    const std::string on =
        "By " + (ration.date ? day_words(ration.date, ration.next_look, units) : "then") + " ";
    const std::string_view left = ration.share_left < 0.15   ? "nearly all of it should be gone"
                                  : ration.share_left < 0.42 ? "most of it should be gone"
                                  : ration.share_left < 0.62 ? "about half of it should be gone"
                                                             : "some of it should be gone";
    return on + std::string(left) + ". If not, wait a week.";
}

std::string reason_text(const Reason& reason, const Ration& ration, UnitSystem units) {
    const auto kg = [&](double amount) { return mass_text(kilograms(amount), units); };
    switch (reason.kind) {
        case ReasonKind::hazard_now:
            if (reason.hazard == Hazard::cold) return "The bed is too cold for worms to eat.";
            if (ration.answer == RationAnswer::feed || ration.answer == RationAnswer::feed_less)
                return "The bed is a little " + std::string(too_much(reason.hazard)) +
                       ", so only half.";
            return "The bed is " + std::string(too_much(reason.hazard)) + ".";
        case ReasonKind::hazard_with:
            return "More would make the bed " + std::string(too_much(reason.hazard)) + ".";
        case ReasonKind::alarm:
            if (ration.answer == RationAnswer::act_first)
                return "You noted: " + reason.what + ". That comes before food.";
            return "You noted: " + reason.what + ", so only half.";
        case ReasonKind::food_left:
            return "About " + kg(reason.amount) + " of soft food is still in the bed.";
        case ReasonKind::fed_lately:
            return "What these worms eat in a week (" + kg(ration.week.in_kilograms()) +
                   ") is in already.";
        case ReasonKind::cap:
            return "Of " + reason.what + (reason.with_its_kind ? " and its like" : "") +
                   " at most " + kg(reason.amount) + " a week for these worms" +
                   (reason.given > 0.0005 ? "; " + kg(reason.given) + " went in already." : ".");
        case ReasonKind::cap_worms:
            return "These worms eat about " + kg(reason.amount) + " a week.";
        case ReasonKind::no_room:
            return "The bin is full: take out a third of the finished castings first.";
        case ReasonKind::no_bedding:
            return "More scraps want more dry bedding than is at hand.";
        case ReasonKind::new_bin:
            return "Worms in a new bin get nothing in the first three days.";
        case ReasonKind::too_little:
            return "What may go in today is not worth opening the bin.";
        case ReasonKind::nothing_at_hand:
            return "No scraps were named, so this is for soft mixed ones.";
    }
    return "";
}

std::string weigh_text(const WorthMeasuring& worth) {
    switch (worth.kind) {
        case WorthMeasuring::Kind::worms:
            return "weigh the worms, or count a sample";
        case WorthMeasuring::Kind::squeeze:
            return "squeeze a handful of the bed and note the drops";
        case WorthMeasuring::Kind::temperature:
            return "take the temperature of the bed";
        case WorthMeasuring::Kind::ph:
            return "dip a pH strip into the bed";
        case WorthMeasuring::Kind::thing:
            return "weigh the " + worth.label;
    }
    return "";
}

std::vector<std::string> ration_lines(const Ration& ration, UnitSystem units) {
    std::vector<std::string> lines;
    add_take_out(ration, lines);
    for (const PutIn& put : ration.put_in) {
        const Feedstock& f = *put.thing.feedstock;
        if (f.stance_lifted && put.part == Part::scraps)
            lines.push_back("Your file feeds " + put.thing.label +
                            ", which is never fed otherwise: " + std::string(why_barred(f)) + ".");
    }
    lines.push_back(headline(ration, units));
    if (ration.answer == RationAnswer::act_first) {
        add_step(ration, units, lines);
    } else if (ration.answer != RationAnswer::wait) {
        add_food(ration, units, lines);
    }
    if (ration.answer != RationAnswer::act_first) {
        if (ration.answer != RationAnswer::wait) {
            const std::string expect = expect_text(ration, units);
            lines.push_back(when_text(ration, units) + (expect.empty() ? "" : " " + expect));
        } else {
            add_waiting(ration, units, lines);
        }
    }
    if (const std::string rest = rest_text(ration, units); !rest.empty()) lines.push_back(rest);
    std::string why;
    for (const Reason& reason : ration.reasons)
        why += (why.empty() ? "Why: " : " ") + reason_text(reason, ration, units);
    if (!why.empty()) lines.push_back(why);
    if (!ration.weigh.empty()) {
        std::vector<std::string> parts;
        for (const WorthMeasuring& worth : ration.weigh)
            parts.push_back(weigh_text(worth));
        lines.push_back("For a surer answer, " + joined(parts) + ".");
    }
    if (const std::string caution = caution_line(ration); !caution.empty() && lines.size() < 12)
        lines.push_back(caution);
    return lines;
}

std::string ration_text(const Ration& ration, UnitSystem units) {
    std::string text;
    for (const std::string& line : ration_lines(ration, units)) {
        const std::size_t indent = line.find_first_not_of(' ');
        text += wrapped(line.substr(indent), indent, indent + 2);
    }
    return text;
}

}  // namespace feed::io
