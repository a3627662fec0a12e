#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/bed/cautions.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/io/json_writer.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/io/week_answer.hpp"

namespace feed::io {
namespace {

std::string kg_text(double kg, UnitSystem units) {
    return mass_text(kilograms(kg), units);
}

/// What goes into one bin at one opening, on one line: scraps, cover, water, lime.
std::string opening_line(const WeekOfBin& bin, const Ration& ration, UnitSystem units) {
    std::string line = "  " + bin.name + (bin.group.empty() ? "" : " (" + bin.group + ")") + ":";
    std::vector<std::string> scraps;
    std::vector<std::string> bedding;
    std::string lime;
    for (const PutIn& put : ration.put_in) {
        if (put.part == Part::scraps)
            scraps.push_back(plain_name(put.thing.label, *put.thing.feedstock) + ", " +
                             measure_of(put, units));
        if (put.part == Part::bedding) bedding.push_back(material_text(put, units));
        if (put.part == Part::amendment) lime += " Mix in " + material_text(put, units) + ".";
    }
    for (const std::string& one : scraps)
        line += " " + one + ".";
    if (!bedding.empty()) line += " Cover with " + joined(bedding) + ".";
    if (ration.water_kg > 0.0)
        line += " Sprinkle " + volume_text(litres(ration.water_kg), units) + " of water.";
    return line + lime;
}

const WeekOpening* opening_on(const WeekOfBin& bin, int day) {
    for (const WeekOpening& opening : bin.openings) {
        if (opening.day == day) return &opening;
    }
    return nullptr;
}

/// What a bin that gets nothing is told: its own ration says it.
std::string closed_text(const WeekOfBin& bin, const WeekPlan& plan, UnitSystem units) {
    const Ration& today = bin.today;
    switch (today.answer) {
        case RationAnswer::act_first:
            return bin.name + ": act first, no food. Ask feed ration for its step.";
        case RationAnswer::wait:
            return bin.name + ": wait, no food" +
                   (today.next_feeding
                        ? " until " + day_words(plan.today, today.next_feeding->day, units)
                        : std::string()) +
                   "." + (today.put_in.empty() ? "" : " Ask feed ration for its step.");
        case RationAnswer::feed_less:
        case RationAnswer::feed:
            break;
    }
    return bin.name + ": nothing left for it this week.";
}

std::string headline(const WeekPlan& plan, UnitSystem units) {
    const auto fed = static_cast<std::size_t>(
        std::count_if(plan.bins.begin(), plan.bins.end(),
                      [](const WeekOfBin& bin) { return !bin.openings.empty(); }));
    if (fed == 0) return "Feed no bin this week.";
    const double used = plan.used.in_kilograms();
    return "Feed " + std::to_string(fed) + " of " + counted(plan.bins.size(), "bin") +
           " this week: " + kg_text(used, units) + " of scraps in all.";
}

/// Where with what no bin takes: what keeps stays, the rest goes into the freezer while it is good.
void add_rest(const WeekPlan& plan, UnitSystem units, std::vector<std::string>& lines) {
    double kept_kg = 0.0;
    double fresh_kg = 0.0;
    int soonest = week_days;
    for (const WeekRest& one : plan.rest) {
        (one.thing.kept ? kept_kg : fresh_kg) += one.wet_mass.in_kilograms();
        if (!one.thing.kept) soonest = std::min(soonest, one.thing.until);
    }
    if (fresh_kg >= 0.005) {
        lines.push_back("No bin can take " + kg_text(fresh_kg, units) + ". Freeze it by " +
                        day_words(plan.today, soonest, units) +
                        ", or give it to a heap or neighbours.");
    }
    if (kept_kg >= 0.005)
        lines.push_back("Keep " + kg_text(kept_kg, units) + " for next week: it does not spoil.");
}

void add_cautions(const WeekPlan& plan, std::vector<std::string>& lines) {
    std::vector<std::string> told;
    for (const WeekOfBin& bin : plan.bins) {
        for (const WeekOpening& opening : bin.openings) {
            for (const CautionFinding& caution : opening.ration.cautions) {
                const bool known = std::find(told.begin(), told.end(), caution.text) != told.end();
                if (hurts_people(caution.caution) && !known) told.push_back(caution.text);
            }
        }
    }
    for (const std::string& text : told)
        lines.push_back("Take care: " + text);
}

std::vector<std::string> week_lines(const WeekPlan& plan, UnitSystem units) {
    std::vector<std::string> lines;
    for (const TakeOut& one : plan.take_out)
        lines.push_back(never_text(one));
    lines.push_back(headline(plan, units));
    for (int day = 0; day < week_days; ++day) {
        bool first = true;
        for (const WeekOfBin& bin : plan.bins) {
            const WeekOpening* opening = opening_on(bin, day);
            if (opening == nullptr) continue;
            if (first) lines.push_back(day_words(plan.today, day, units) + ":");
            first = false;
            lines.push_back(opening_line(bin, opening->ration, units));
        }
    }
    for (const WeekOfBin& bin : plan.bins) {
        const bool waits_with_a_step =
            bin.today.answer == RationAnswer::wait && !bin.today.put_in.empty();
        if (bin.openings.empty() || waits_with_a_step)
            lines.push_back(closed_text(bin, plan, units));
    }
    add_rest(plan, units, lines);
    lines.emplace_back("Look before each feeding. Is old food still there? Then wait.");
    add_cautions(plan, lines);
    return lines;
}

/// The ration behind each opening.
std::string why_text(const WeekPlan& plan, UnitSystem units) {
    std::string text;
    for (const WeekOfBin& bin : plan.bins) {
        text += "\n" + bin.name + "\n";
        if (bin.openings.empty()) text += ration_text(bin.today, units, whole_screen);
        for (const WeekOpening& opening : bin.openings)
            text += day_words(plan.today, opening.day, units) + ":\n" +
                    ration_text(opening.ration, units, whole_screen);
    }
    return text;
}

}  // namespace

std::string week_text(const WeekPlan& plan, UnitSystem units, bool why) {
    const std::string text = screen_text(week_lines(plan, units));
    return why ? text + why_text(plan, units) : text;
}

std::string to_json(const WeekPlan& plan, UnitSystem units) {
    const auto date = [&](int day) { return text(date_of(day_number(plan.today) + day)); };
    JsonWriter json;
    json.begin_object();
    write_take_out(json, plan.take_out);
    json.member("date", date(0));
    json.member("scraps_there_kg", plan.there.in_kilograms());
    json.member("scraps_kg", plan.used.in_kilograms());
    json.member("verified", plan.verified);
    json.key("bins");
    json.begin_array();
    for (const WeekOfBin& bin : plan.bins) {
        json.begin_object();
        json.member("bin", bin.name);
        json.member("group", bin.group);
        json.member("answer", text(bin.today.answer));
        json.key("openings");
        json.begin_array();
        for (const WeekOpening& opening : bin.openings) {
            json.begin_object();
            json.member("day", opening.day);
            json.member("date", date(opening.day));
            json.key("ration");
            write_ration(json, opening.ration);
            json.end_object();
        }
        json.end_array();
        json.end_object();
    }
    json.end_array();
    json.key("rest");
    json.begin_array();
    for (const WeekRest& one : plan.rest) {
        json.begin_object();
        json.member("feedstock", one.thing.thing.feedstock->id);
        json.member("label", one.thing.thing.label);
        json.member("wet_mass_kg", one.wet_mass.in_kilograms());
        json.member("keeps", one.thing.kept);
        json.member("good_until", date(one.thing.until));
        json.end_object();
    }
    json.end_array();
    write_texts(json, "text", week_lines(plan, units));
    json.end_object();
    return json.take();
}

}  // namespace feed::io
