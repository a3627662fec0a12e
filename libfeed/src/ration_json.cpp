#include "feed/bed/cautions.hpp"
#include "feed/io/caution_text.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"

namespace feed::io {
namespace {

void write_day(JsonWriter& json, std::string_view key, const std::optional<Date>& today,
               std::optional<int> day) {
    if (today && day)
        json.member(key, text(date_of(day_number(*today) + *day)));
    else
        json.member(key, std::optional<std::string>());
}

}  // namespace

void write_next_feeding(JsonWriter& json, const Ration& ration) {
    json.key("next_feeding");
    if (!ration.next_feeding) {
        json.null();
        return;
    }
    const RationDay& next = *ration.next_feeding;
    json.begin_object();
    json.member("day", next.day);
    json.member("earliest_day", next.earliest);
    json.member("latest_day", next.latest);
    write_day(json, "date", ration.date, next.day);
    write_day(json, "earliest", ration.date, next.earliest);
    write_day(json, "latest", ration.date, next.latest);
    json.end_object();
}

namespace {

std::string cover_of(const Ration& ration) {
    for (const PutIn& put : ration.put_in) {
        if (put.part == Part::bedding) return put.thing.feedstock->id;
    }
    return "";
}

}  // namespace

void write_thing(JsonWriter& json, const ThingAtHand& thing, double wet_kg) {
    json.member("feedstock", thing.feedstock->id);
    json.member("label", thing.label);
    json.member("wet_mass_kg", wet_kg);
}

void write_put_in(JsonWriter& json, std::string_view key, std::span<const PutIn> put_in) {
    json.key(key);
    json.begin_array();
    for (const PutIn& put : put_in) {
        json.begin_object();
        write_thing(json, put.thing, put.wet_mass.in_kilograms());
        json.member("measure", measure_of(put, put.units));
        json.member("at_hand", put.thing.at_hand);
        json.end_object();
    }
    json.end_array();
}

void write_caution_findings(JsonWriter& json, std::span<const CautionFinding> cautions) {
    json.key("cautions");
    json.begin_array();
    for (const auto& finding : cautions) {
        json.begin_object();
        for (const auto& known : caution_names) {
            if (known.caution == finding.caution) json.member("caution", known.word);
        }
        json.member("level", text(finding.level));
        json.member("text", finding.text);
        json.member("source", finding.source);
        json.end_object();
    }
    json.end_array();
}

void write_ration(JsonWriter& json, const Ration& ration) {
    json.begin_object();
    write_take_out(json, ration.take_out);
    json.member("answer", text(ration.answer));
    write_day(json, "date", ration.date, 0);
    write_put_in(json, "put_in", ration.put_in);
    json.member("cover", cover_of(ration));
    json.member("scraps_kg", ration.scraps.in_kilograms());
    json.member("week_kg", ration.week.in_kilograms());
    json.member("crowded", ration.crowded);
    json.member("water_kg", ration.water_kg);
    json.member("lime_kg", ration.lime_kg);
    json.member("lay", lay_text(ration));
    json.member("spread_m2", in_square_metres(ration.spread));
    json.key("rest");
    json.begin_array();
    for (const Rest& rest : ration.rest) {
        json.begin_object();
        write_thing(json, rest.thing, rest.wet_mass.in_kilograms());
        json.member("capped", rest.capped);
        json.end_object();
    }
    json.end_array();
    json.key("next_look");
    json.begin_object();
    json.member("day", ration.next_look);
    write_day(json, "date", ration.date, ration.next_look);
    json.end_object();
    write_next_feeding(json, ration);
    json.member("expect", expect_text(ration, ration.units));
    json.key("raised");
    json.begin_array();
    for (const Hazard hazard : ration.raised)
        json.value(text(hazard));
    json.end_array();
    std::vector<std::string> reasons;
    for (const Reason& reason : ration.reasons)
        reasons.push_back(reason_text(reason, ration, ration.units));
    write_texts(json, "reasons", reasons);
    std::vector<std::string> weigh;
    for (const WorthMeasuring& worth : ration.weigh)
        weigh.push_back(weigh_text(worth));
    write_texts(json, "weigh", weigh);
    write_texts(json, "text", ration_lines(ration, ration.units));
    write_caution_findings(json, ration.cautions);
    json.member("always", caution_for_all);
    json.key("assumed");
    write_assumed(json, ration.assumed);
    json.member("grade", text(ration.grade));
    json.end_object();
}

std::string balance_with_bed_json(const Ration& ration) {
    JsonWriter json;
    json.begin_object();
    json.member("status", "solved");
    std::vector<Portion> portions;
    std::vector<std::string> measures;
    for (const PutIn& put : ration.put_in) {
        portions.push_back({put.thing.feedstock, put.wet_mass});
        measures.push_back(measure_of(put, put.units));
    }
    json.key("portions");
    write_portions(json, portions, measures);
    json.key("ration");
    write_ration(json, ration);
    json.end_object();
    return json.take();
}

std::string to_json(const Ration& ration) {
    JsonWriter json;
    write_ration(json, ration);
    return json.take();
}

}  // namespace feed::io
