#include "feed/io/ration_text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "feed/diary/date.hpp"
#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/pinch.hpp"

// The sentences of a ration, each made once; ration_text.cpp chooses which of them a screen holds.
namespace feed::io {
namespace {

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

}  // namespace

std::string_view step_by_hand(Hazard hazard) {
    switch (hazard) {
        case Hazard::wet:
            return "Drain it, lift out the wettest part and leave the lid ajar.";
        case Hazard::salty:
            return "Swap a third of the bed for fresh damp bedding.";
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

std::string never_text(const TakeOut& one) {
    return "Never feed " + one.label + ": " + one.why + ".";
}

std::string instead_text(const TakeOut& one) {
    return "Instead: " + one.instead + ".";
}

std::string lifted_text(const std::string& label, const Feedstock& feedstock) {
    return "Your file feeds " + plain_name(label, feedstock) +
           ", which is never fed otherwise: " + std::string(why_barred(feedstock)) + ".";
}

std::string measure_of(const PutIn& put, UnitSystem units) {
    const double kg = put.wet_mass.in_kilograms();
    const Feedstock& f = *put.thing.feedstock;
    if (put.part == Part::poured_water) return volume_text(litres(kg), units);
    if (put.part == Part::amendment && pinch::holds(kg)) return "a pinch";
    if (put.part == Part::bedding) {
        const auto& density = f[Property::bulk_density_loose];
        if (density && density->value > 0.0) {
            const double handfuls = 1000.0 * kg / density->value / default_handful_litres;
            if (handfuls < 1.5) return "a handful";  // nobody weighs less of what is loose
            if (handfuls < 12.5) {
                const double count = std::floor(handfuls + 0.5);
                return counted(static_cast<std::size_t>(count), "handful") + ", about " +
                       mass_text(put.wet_mass.mass(), units);
            }
        }
        return measure_and_weight_text(put.wet_mass, f, std::nullopt, units);
    }
    if (!put.thing.amount) return words::pinch_or_mass(kg, units);
    return measure_and_weight_text(put.wet_mass, f, put.thing.amount, units);
}

std::string_view month_word(const Date& date) noexcept {
    constexpr std::array<std::string_view, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    return months[static_cast<std::size_t>(date.month - 1)];
}

std::string day_words(const std::optional<Date>& today, int days, UnitSystem units) {
    if (!today) {
        if (days == 0) return "today";
        return days == 1 ? "tomorrow" : "in " + std::to_string(days) + " days";
    }
    constexpr std::array<std::string_view, 7> weekdays{"Thu", "Fri", "Sat", "Sun",
                                                       "Mon", "Tue", "Wed"};
    const Date date = date_of(day_number(*today) + days);
    const auto weekday = static_cast<std::size_t>(weekday_number(date));
    const std::string day = std::to_string(date.day);
    const std::string month(month_word(date));
    // So far away a month is not enough.
    constexpr int half_a_year = 182;
    const bool other_year = days > half_a_year && date.year != today->year;
    return std::string(weekdays[weekday]) + " " +
           (units == UnitSystem::us ? month + " " + day : day + " " + month) +
           (other_year ? " " + std::to_string(date.year) : "");
}

std::string lay_text(const Ration& ration) {
    if (ration.scraps.in_kilograms() <= 0.0) return "";
    return "Bury it in one place, over about a third of the bed.";
}

std::string expect_text(const Ration& ration, UnitSystem units) {
    constexpr int soonest_told = 3;  // before that little can be seen
    if (ration.scraps.in_kilograms() <= 0.0 || ration.next_look < soonest_told) return "";
    const bool same_day = ration.next_feeding && ration.next_feeding->day == ration.next_look;
    const std::string on =
        same_day || !ration.date ? "then" : day_words(ration.date, ration.next_look, units);
    const std::string_view left = ration.share_left < 0.15   ? "nearly all"
                                  : ration.share_left < 0.42 ? "most"
                                  : ration.share_left < 0.62 ? "about half"
                                                             : "some";
    return "By " + on + " " + std::string(left) + " should be gone. If not, wait a week.";
}

namespace {

std::string hazard_now_text(const Reason& reason, const Ration& ration, UnitSystem units) {
    const std::string too(too_much(reason.hazard));
    if (reason.given > 0.0)
        return "The bed was " + too + " " + counted(static_cast<std::size_t>(reason.given), "day") +
               " ago: take its temperature first.";
    if (reason.hazard == Hazard::cold) return "The bed is too cold for worms to eat.";
    if (reason.hazard == Hazard::underfed)
        return "These worms had little for three weeks. They may have " +
               mass_text(kilograms(reason.amount), units) + " a week.";
    if (ration.answer == RationAnswer::feed || ration.answer == RationAnswer::feed_less)
        return "The bed is a little " + too + ", so only half.";
    return "The bed is " + too + ".";
}

/// What the worms eat; where nobody named them, how many they are taken to be.
std::string worms_eat_text(const Reason& reason, const Ration& ration, UnitSystem units) {
    const std::string who = ration.worms_given
                                ? "These worms eat about "
                                : "No worms were named; about " +
                                      mass_text(ration.worms.mass(), units) + " of them eat ";
    return who + mass_text(kilograms(reason.amount), units) +
           (reason.in_new_bin ? " a week in a new bin." : " a week.");
}

std::string noted_text(const Reason& reason, const Ration& ration) {
    return "You noted: " + reason.what +
           (ration.answer == RationAnswer::act_first ? ". That comes before food."
                                                     : ", so only half.");
}

/// What nobody has looked at for so long that a look comes first.
std::string long_ago_text(const Reason& reason) {
    const std::string days = counted(static_cast<std::size_t>(reason.amount), "day");
    if (reason.kind == ReasonKind::measure_first)
        return "Its pH was too high for worms " + days + " ago.";
    if (reason.kind == ReasonKind::look_first)
        return "You noted " + days + " ago: " + reason.what + ". Nobody looked since.";
    return "Nothing was noted for " + days + ".";
}

/// The reasons that are told the same whatever the numbers.
std::string_view plain_reason(ReasonKind kind) {
    switch (kind) {
        case ReasonKind::fed_today:
            return "They had food today. Feed once a day at most.";
        case ReasonKind::step_done:
            return "You helped the bed today. It takes a day to show.";
        case ReasonKind::no_room:
            return "The bin is full: take out a third of the castings first.";
        case ReasonKind::no_bedding:
            return "More scraps want more dry bedding than is at hand.";
        case ReasonKind::new_bin:
            return "Worms in a new bin get nothing in the first three days.";
        case ReasonKind::few_worms:
            return "So few worms live on their bedding for now.";
        case ReasonKind::too_little:
            return "What may go in today is not worth opening the bin.";
        case ReasonKind::nothing_at_hand:
            return "No scraps were named, so this is for soft mixed ones.";
        case ReasonKind::hazard_now:
        case ReasonKind::hazard_with:
        case ReasonKind::alarm:
        case ReasonKind::food_left:
        case ReasonKind::fed_lately:
        case ReasonKind::measure_first:
        case ReasonKind::look_first:
        case ReasonKind::nothing_noted:
        case ReasonKind::cap:
        case ReasonKind::cap_worms:
            break;  // told with their numbers
    }
    return "";
}

/// Whether the step of the day swaps a third of the bed for fresh bedding.
bool swaps_a_third(const Ration& ration) {
    return ration.answer == RationAnswer::act_first &&
           std::any_of(ration.reasons.begin(), ration.reasons.end(), [](const Reason& reason) {
               return reason.hazard == Hazard::salty && reason.hazard_known;
           });
}

}  // namespace

std::string reason_text(const Reason& reason, const Ration& ration, UnitSystem units) {
    const auto kg = [&](double amount) { return mass_text(kilograms(amount), units); };
    switch (reason.kind) {
        case ReasonKind::hazard_now:
            return hazard_now_text(reason, ration, units);
        case ReasonKind::hazard_with:
            return "More would make the bed " + std::string(too_much(reason.hazard)) + ".";
        case ReasonKind::alarm:
            return noted_text(reason, ration);
        case ReasonKind::food_left:
            return "About " + kg(reason.amount) + " of soft food is still in the bed.";
        case ReasonKind::fed_lately:
            return "A week's food for these worms (" + kg(ration.week.in_kilograms()) +
                   ") went in within seven days.";
        case ReasonKind::measure_first:
        case ReasonKind::look_first:
        case ReasonKind::nothing_noted:
            return long_ago_text(reason);
        case ReasonKind::cap:
            return "These worms bear at most " + kg(reason.amount) + " of " + reason.what +
                   (reason.with_its_kind ? " and its like" : "") + " a week" +
                   (reason.given > 0.0005 ? "; " + kg(reason.given) + " went in already." : ".");
        case ReasonKind::cap_worms:
            return worms_eat_text(reason, ration, units);
        default:
            return std::string(plain_reason(reason.kind));
    }
}

std::string done_text(const Ration& ration, UnitSystem units, std::string_view file) {
    // Entries are added to YAML, and to a file that says its days.
    const bool takes_notes = file.size() < 5 || file.substr(file.size() - 5) != ".json";
    if (file.empty() || file == "-" || !takes_notes || !ration.date) return "";
    constexpr double least_bedding_kg = 0.005;  // nobody weighs less of it
    std::string fed;
    std::string done;
    for (const PutIn& put : ration.put_in) {
        const Feedstock& f = *put.thing.feedstock;
        const bool water = put.part == Part::poured_water;
        // What is only offered has the table's name, which need not read back.
        const bool named = put.thing.at_hand || put.part == Part::scraps;
        const std::string amount = mass_text(put.wet_mass.mass(), units) + " " +
                                   (named ? plain_name(put.thing.label, f) : name_to_type(f));
        if (put.part == Part::scraps || put.part == Part::amendment)
            fed += (fed.empty() ? "fed " : ", ") + amount;
        else if (water)
            done += ", added water " + volume_text(litres(put.wet_mass.in_kilograms()), units);
        else if (put.wet_mass.in_kilograms() >= least_bedding_kg)
            done += ", bedding " + amount;
    }
    // Else the salt that went with it would be counted on.
    if (swaps_a_third(ration)) done = ", took out a third" + done;
    if (fed.empty() && done.empty()) return "";
    const std::string note = fed.empty() ? done.substr(2) : fed + done;
    // A shell reads some marks as its own.
    const bool plain = note.find_first_of("'\"()&;$!*?<>|#`") == std::string::npos;
    return "Done? Write: feed note " + std::string(file) + " " +
           (plain ? note : "\"" + note + "\"");
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

std::vector<std::string> never_lines(std::span<const TakeOut> out) {
    std::vector<std::string> lines;
    if (out.size() <= most_refused_alone) {
        for (const TakeOut& one : out)
            lines.push_back(never_text(one));
        return lines;
    }
    constexpr std::size_t a_line = 5;  // more would be a long sentence
    for (std::size_t from = 0; from < out.size(); from += a_line) {
        std::vector<std::string> names;
        for (std::size_t i = from; i < std::min(out.size(), from + a_line); ++i)
            names.push_back(out[i].label);
        lines.push_back("Never feed " + joined(names, "or") + ".");
    }
    return lines;
}

std::vector<ScreenLine> take_out_lines(std::span<const TakeOut> out, bool tight, int instead_rank) {
    std::vector<ScreenLine> lines;
    if (tight && out.size() > most_refused_alone) {
        for (std::string& line : never_lines(out))
            lines.push_back({std::move(line), 0, false});
        return lines;
    }
    for (const TakeOut& one : out) {
        lines.push_back({never_text(one), 0, false});
        lines.push_back({"  " + instead_text(one), instead_rank, false});
    }
    return lines;
}

}  // namespace feed::io
