#include <string>
#include <utility>
#include <vector>

#include "feed/io/json_writer.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/io/week_answer.hpp"
#include "week_words.hpp"

namespace feed::io {
namespace {

/// The bin, and who feeds it.
std::string name_of(const WeekOfBin& bin) {
    return bin.name + (bin.group.empty() ? "" : " (" + bin.group + ")");
}

std::string opening_line(const WeekOfBin& bin, const Ration& ration, UnitSystem units) {
    std::string line = "  " + name_of(bin) + ":";
    for (const std::string& step : steps_of(ration, units))
        line += " " + step;
    return line;
}

std::string closed_line(const WeekOfBin& bin, const WeekPlan& plan, UnitSystem units) {
    const bool step = bin.today.answer == RationAnswer::act_first || waits_with_a_step(bin);
    return name_of(bin) + ": " + closed_words(bin, plan.today, units) +
           (step ? " Ask feed ration for its step." : "");
}

std::vector<std::string> week_lines(const WeekPlan& plan, UnitSystem units) {
    std::vector<std::string> lines;
    for (ScreenLine& line : take_out_lines(plan.take_out, true, 0))
        lines.push_back(std::move(line.text));
    lines.push_back(week_headline(plan, units));
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
        if (bin.openings.empty() || waits_with_a_step(bin))
            lines.push_back(closed_line(bin, plan, units));
    }
    lines.emplace_back(look_before_feeding);
    for (std::string& line : from_stock_lines(plan, units))
        lines.push_back(std::move(line));
    for (std::string& line : rest_lines(plan, units))
        lines.push_back(std::move(line));
    for (std::string& line : week_cautions(plan))
        lines.push_back(std::move(line));
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
        json.member("next_look_day", bin.today.next_look);
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
        write_thing(json, one.thing.thing, one.wet_mass.in_kilograms());
        json.member("keeps", one.thing.kept);
        json.member("good_until", date(one.thing.until));
        json.end_object();
    }
    json.end_array();
    json.key("from_stock");
    json.begin_array();
    for (const WeekFromStock& one : plan.from_stock) {
        json.begin_object();
        json.member("bin", plan.bins[one.bin].name);
        write_thing(json, one.thing, one.wet_mass.in_kilograms());
        json.member("to_other_bins_kg", one.to_others.in_kilograms());
        json.member("container", one.container);
        json.end_object();
    }
    json.end_array();
    std::vector<std::string> counted_once;
    for (const SaidTwice& one : plan.said_twice)
        counted_once.push_back(one.label);
    write_texts(json, "counted_once", counted_once);
    write_texts(json, "text", week_lines(plan, units));
    json.end_object();
    return json.take();
}

}  // namespace feed::io
