#include "feed/io/ration_text.hpp"

#include <algorithm>
#include <span>
#include <string_view>
#include <utility>

#include "crowding_words.hpp"
#include "feed/bed/cautions.hpp"
#include "feed/feedstock/part.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/ration/work.hpp"

namespace feed::io {
namespace {

/// What goes first where there is no room; 0 never does. Safety and what to do always stay.
struct RationLine {
    enum : int { stays, how, expect, reason, rest, done, instead, second_reason, surer };
};

std::string list_of(const std::vector<PutIn>& put_in, Part part, UnitSystem units) {
    std::vector<std::string> parts;
    for (const PutIn& put : put_in) {
        if (put.part == part) parts.push_back(material_text(put, units));
    }
    return joined(parts);
}

bool offers(const Ration& ration, Part part) {
    return std::any_of(ration.put_in.begin(), ration.put_in.end(),
                       [&](const PutIn& put) { return put.part == part && !put.thing.at_hand; });
}

/// The lines of one screen in the making.
struct Screen {
    const Ration& ration;
    UnitSystem units;
    bool tight;  ///< several things share a line
    std::vector<ScreenLine> lines;

    void add(std::string text, int rank = RationLine::stays) {
        lines.push_back({std::move(text), rank, false});
    }
    std::string day(int from_today) const { return day_words(ration.date, from_today, units); }
};

void add_take_out(Screen& screen) {
    for (ScreenLine& line :
         take_out_lines(screen.ration.take_out, screen.tight, RationLine::instead))
        screen.lines.push_back(std::move(line));
}

void add_lifted(Screen& screen) {
    for (const PutIn& put : screen.ration.put_in) {
        const Feedstock& f = *put.thing.feedstock;
        if (!f.stance_lifted) continue;
        screen.add(lifted_text(put.thing.label, f));
    }
}

/// What goes in without food: bedding, water and lime, a line each.
void add_materials(Screen& screen) {
    const Ration& ration = screen.ration;
    const std::string bedding = list_of(ration.put_in, Part::bedding, screen.units);
    const std::string lime = list_of(ration.put_in, Part::amendment, screen.units);
    if (!bedding.empty())
        screen.add("Mix in " + bedding + ", dry and torn" +
                   (offers(ration, Part::bedding) ? ", or any dry bedding." : "."));
    if (ration.water_kg > 0.0)
        screen.add("Sprinkle " + volume_text(litres(ration.water_kg), screen.units) +
                   " of water over the day.");
    if (!lime.empty()) {
        screen.add("Stir in " + lime + ", damp.");
        screen.add("Keep its dust out of eyes and lungs.");
    }
}

/// What no bedding, water or lime does, of each reason; what was smelt is lifted out, too.
void add_steps_by_hand(Screen& screen) {
    const Ration& ration = screen.ration;
    std::vector<std::string_view> steps;
    for (const Reason& reason : ration.reasons) {
        const bool by_hand = reason.kind == ReasonKind::alarm || reason.hazard == Hazard::hot ||
                             reason.hazard == Hazard::cold || reason.hazard == Hazard::salty;
        const std::string_view step = step_by_hand(reason.hazard);
        const bool is_new = std::find(steps.begin(), steps.end(), step) == steps.end();
        if (reason.hazard_known && (by_hand || ration.put_in.empty()) && is_new)
            steps.push_back(step);
    }
    // Too much food heats a bed from within: shade alone does not cool it.
    const bool hot = std::any_of(ration.reasons.begin(), ration.reasons.end(), [](const auto& one) {
        return one.hazard == Hazard::hot && one.hazard_known;
    });
    const std::string_view lift = step_by_hand(Hazard::overfed);
    if (hot && ration.before[static_cast<std::size_t>(Hazard::overfed)] == Level::act &&
        std::find(steps.begin(), steps.end(), lift) == steps.end())
        steps.push_back("Lift out the food that is left: too much of it heats the bed.");
    for (const std::string_view step : steps)
        screen.add(std::string(step));
}

void add_step(Screen& screen) {
    const Ration& ration = screen.ration;
    const Reason first = ration.reasons.empty() ? Reason{} : ration.reasons.front();
    const bool alkali =
        std::any_of(ration.reasons.begin(), ration.reasons.end(),
                    [](const Reason& reason) { return tells_of_alkali(reason.what); });
    if (alkali) {
        // It burns their skin, and no bedding mends it (common practice).
        screen.add("Move the worms into fresh damp bedding today. Wear gloves.");
        screen.add("Take out lime or ash that you see, damp, and add none.");
        screen.add("Before you feed again dip a pH strip into the bed, and note it.");
    } else if (!first.hazard_known) {
        screen.add("Open the lid, smell it and squeeze a handful.");
        screen.add("Lift out what rots.");
    } else {
        add_steps_by_hand(screen);
    }
    add_materials(screen);
    screen.add("Look again " + screen.day(ration.next_look) + ".");
}

void add_scraps(Screen& screen) {
    std::vector<std::string> scraps;
    for (const PutIn& put : screen.ration.put_in) {
        if (put.part == Part::scraps)
            scraps.push_back(put.thing.name() + ", " + measure_of(put, screen.units) + ".");
    }
    constexpr std::size_t lines_for_scraps = 5;
    if (!screen.tight && scraps.size() <= lines_for_scraps) {
        for (const std::string& one : scraps)
            screen.lines.push_back({"  " + one, RationLine::stays, true});
        return;
    }
    std::string line;
    for (const std::string& one : scraps)
        line += (line.empty() ? "  " : " ") + one;
    screen.lines.push_back({std::move(line), RationLine::stays, true});
}

void add_food(Screen& screen) {
    const Ration& ration = screen.ration;
    add_scraps(screen);
    const std::string bedding = list_of(ration.put_in, Part::bedding, screen.units);
    if (!bedding.empty())
        screen.add("Cover with " + bedding +
                   (offers(ration, Part::bedding) ? ", or any dry bedding." : "."));
    if (ration.water_kg > 0.0)
        screen.add("Sprinkle " + volume_text(litres(ration.water_kg), screen.units) + " of water.");
    const std::string lime = list_of(ration.put_in, Part::amendment, screen.units);
    if (!lime.empty()) screen.add("Mix in " + lime + ".");
    screen.add(lay_text(ration), RationLine::how);
}

/// What becomes of the scraps that do not go in: fresh ones into the freezer, dung never.
std::string rest_text(const Ration& ration, UnitSystem units) {
    double fresh_kg = 0.0;
    double frozen_kg = 0.0;
    double dung_kg = 0.0;
    for (const Rest& one : ration.rest) {
        const Feedstock& f = *one.thing.feedstock;
        if (part_of(f) != Part::scraps) continue;
        double& kg = is_frozen(f) ? frozen_kg : may_be_frozen(f) ? fresh_kg : dung_kg;
        kg += one.wet_mass.in_kilograms();
    }
    constexpr double least_told_kg = 0.005;
    const bool all = ration.scraps.in_kilograms() <= 0.0;
    const auto mass = [&](double kg) { return " (" + mass_text(kilograms(kg), units) + ")"; };
    std::string said;
    if (fresh_kg >= least_told_kg)
        said = (all ? "Freeze the scraps" : "Freeze the rest") + mass(fresh_kg) +
               (all ? " or take them elsewhere." : " or take it elsewhere.");
    if (dung_kg >= least_told_kg)
        said += (said.empty() ? "" : " ") +
                std::string(all ? "Keep the dung" : "Keep the other dung") + mass(dung_kg) +
                " outdoors, covered.";
    // Where nothing goes in today some of it may be thawed for the next feeding.
    if (said.empty() && frozen_kg >= least_told_kg && !all)
        said = "Keep the rest frozen" + mass(frozen_kg) + ".";
    return said;
}

constexpr int longest_told = 42;  ///< days ahead

/// "about Sat 5 Dec (Thu 3 Dec to Sat 12 Dec)"; "in about 7 days (5 to 14)" where no date is known.
std::string about_day(const std::optional<Date>& today, const RationDay& next, UnitSystem units) {
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

/// What may not go in again within a week: "rice or avocados". A ration within a week lists no
/// rest.
std::string capped_text(const Ration& ration) {
    if (has_reason(ration, ReasonKind::nothing_at_hand)) return "";  // it was left out before all
    std::vector<std::string> names;
    bool its_like = false;
    for (const Reason& reason : ration.reasons) {
        if (reason.kind != ReasonKind::cap) continue;
        names.push_back(reason.what);
        its_like = its_like || reason.with_its_kind;
    }
    for (const Rest& one : ration.rest) {
        const std::string name = one.thing.name();
        if (one.capped && std::find(names.begin(), names.end(), name) == names.end())
            names.push_back(name);
    }
    if (its_like) names.emplace_back(names.size() > 1 ? "their like" : "its like");
    return joined(names, "or");
}

void add_when(Screen& screen) {
    const Ration& ration = screen.ration;
    if (!ration.next_feeding) {
        screen.add("Look again " + screen.day(ration.next_look) + ".");
        return;
    }
    screen.add("Feed again " + about_day(ration.date, *ration.next_feeding, screen.units) + ".");
    const std::string capped = capped_text(ration);
    if (!capped.empty()) screen.add("No more " + capped + " for a week.");
    screen.add(expect_text(ration, screen.units), RationLine::expect);
}

/// Far more food than the worms can keep up with is lifted out, as far as it still can be.
void add_surplus(Screen& screen) {
    const Ration& ration = screen.ration;
    if (ration.reasons.empty() || ration.reasons.front().kind != ReasonKind::food_left) return;
    // What is dug out is not kept: how much of the rest is food nobody knows.
    if (std::any_of(ration.cautions.begin(), ration.cautions.end(),
                    [](const CautionFinding& caution) { return caution.dig_out; }))
        return;
    const double week_kg = ration.week.in_kilograms();
    const double most_kg = limits::most_soft_share.value * week_kg;
    const double surplus_kg = ration.reasons.front().amount - most_kg;
    if (!(surplus_kg > 0.5 * week_kg)) return;
    screen.add("Lift out about " + mass_text(kilograms(surplus_kg), screen.units) +
               " of the food, and freeze it: they cannot keep up.");
    screen.add("Then note what is left, such as: " + mass_text(kilograms(most_kg), screen.units) +
               " left");
}

void add_waiting(Screen& screen) {
    const Ration& ration = screen.ration;
    if (looks_first(ration)) {
        if (has_reason(ration, ReasonKind::measure_first))
            screen.add("Dip a pH strip into the bed.");
        screen.add("Open the lid, smell it, squeeze a handful and watch the worms.");
        screen.add("Note what you find, then ask again.");
        return;
    }
    if (const auto hazard = awaited_warmth(ration)) screen.add(std::string(step_by_hand(*hazard)));
    add_surplus(screen);
    add_materials(screen);
    if (!ration.next_feeding) {
        screen.add("Look again " + screen.day(ration.next_look) + ".");
        return;
    }
    const RationDay& next = *ration.next_feeding;
    if (next.earliest == next.latest) return;
    screen.add("Look before you feed: it may be ready from " + screen.day(next.earliest) +
               ", or only by " + screen.day(std::min(next.latest, longest_told)) + ".");
}

void add_reasons(Screen& screen) {
    bool first = true;
    const bool waits = screen.ration.answer == RationAnswer::wait;
    for (const Reason& one : screen.ration.reasons) {
        // It is no reason to wait.
        if (waits && one.kind == ReasonKind::nothing_at_hand) continue;
        screen.add("Why: " + reason_text(one, screen.ration, screen.units),
                   first ? RationLine::reason : RationLine::second_reason);
        first = false;
    }
    const bool feeds = screen.ration.scraps.in_kilograms() > 0.0;
    if (feeds && !screen.ration.worms_given && !has_reason(screen.ration, ReasonKind::cap_worms))
        screen.add("No worms were named, so this is for about " +
                       mass_text(screen.ration.worms.mass(), screen.units) + " of them.",
                   RationLine::reason);
}

std::vector<ScreenLine> screen_lines(const Ration& ration, UnitSystem units, bool tight,
                                     std::string_view file) {
    Screen screen{ration, units, tight, {}};
    add_take_out(screen);
    add_lifted(screen);
    for (const CautionFinding& caution : ration.cautions)
        if (caution.dig_out) screen.add("D" + caution.text.substr(1));
    screen.add(crowded_text(ration, units));
    // Who asked about that alone is answered first; but nothing goes before what has to be done.
    const bool of_it_alone =
        ration.answer != RationAnswer::act_first &&
        (ration.put_in.empty() || has_reason(ration, ReasonKind::nothing_at_hand));
    const std::vector<std::string> left_out = left_out_lines(ration);
    if (of_it_alone)
        for (const std::string& line : left_out)
            screen.add(line);
    screen.add(headline(ration, units));
    if (ration.answer == RationAnswer::act_first) {
        add_step(screen);
    } else if (ration.answer == RationAnswer::wait) {
        add_waiting(screen);
    } else {
        add_food(screen);
        add_when(screen);
    }
    screen.add(rest_text(ration, units), RationLine::rest);
    if (!of_it_alone)
        for (const std::string& line : left_out)
            screen.add(line, RationLine::rest);
    add_reasons(screen);
    // Water that nobody noted would be asked for again, day by day.
    const bool may_go = ration.scraps.in_kilograms() > 0.0 && !(ration.water_kg > 0.0);
    screen.add(done_text(ration, units, file), may_go ? RationLine::done : RationLine::how);
    for (const CautionFinding& caution : ration.cautions) {
        if (hurts_people(caution.caution) && !caution.dig_out)
            screen.add("Take care: " + caution.text);
    }
    std::vector<std::string> parts;
    for (const WorthMeasuring& worth : ration.weigh)
        parts.push_back(weigh_text(worth));
    if (!parts.empty()) screen.add("To be surer, " + joined(parts) + ".", RationLine::surer);
    return std::move(screen.lines);
}

}  // namespace

std::string material_text(const PutIn& put, UnitSystem units) {
    return measure_of(put, units) + " of " + put.thing.name();
}

std::vector<ScreenLine> ration_screen(const Ration& ration, UnitSystem units, ScreenRoom room,
                                      std::string_view file) {
    return fitting_or_tight([&](bool tight) { return screen_lines(ration, units, tight, file); },
                            room);
}

std::vector<std::string> ration_lines(const Ration& ration, UnitSystem units, ScreenRoom room,
                                      std::string_view file) {
    return texts_of(ration_screen(ration, units, room, file));
}

std::vector<std::string> lines_before_work(const Ration& ration, std::string_view work,
                                           UnitSystem units, ScreenRoom room,
                                           std::vector<ScreenLine> between) {
    between.push_back({std::string(work) + (looks_first(ration) ? " when you have looked."
                                                                : " when the bed is well again."),
                       1});
    const auto own = fitting(std::move(between), room);
    std::vector<std::string> lines = ration_lines(ration, units, left_of(room, own));
    lines.insert(lines.end(), own.begin(), own.end());
    return lines;
}

std::string ration_text(const Ration& ration, UnitSystem units, ScreenRoom room,
                        std::string_view file) {
    return screen_text(ration_lines(ration, units, room, file));
}

}  // namespace feed::io
