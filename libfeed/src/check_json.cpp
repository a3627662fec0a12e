#include "feed/bed/cautions.hpp"
#include "feed/bed/hazard.hpp"
#include "feed/io/to_json.hpp"

namespace feed::io {
namespace {

void write_advice(JsonWriter& json, const KeeperAdvice& advice) {
    json.begin_object();
    json.key("away");
    if (advice.away) {
        const AwayAdvice& away = *advice.away;
        json.begin_object();
        json.member("days", in_days(away.away));
        json.member("cover", away.cover);
        json.key("moisture_at_return");
        write_quantity(json, known(away.at_return.value.value(), away.at_return.low.value(),
                                   away.at_return.high.value(), away.at_return.grade));
        json.member("safe_days", in_days(away.safe_for));
        json.member("needs_a_helper", away.needs_a_helper);
        json.member("text", away.text);
        json.end_object();
    } else {
        json.null();
    }
    json.key("temperature");
    if (advice.temperature) {
        const TemperatureAdvice& at = *advice.temperature;
        json.begin_object();
        json.member("temperature_c", in_celsius(at.temperature));
        json.member("ration_share", at.ration_share);
        json.member("ration_a_week_kg", at.ration_a_week.in_kilograms());
        json.member("most_at_a_time_kg", at.most_at_a_time.in_kilograms());
        json.member("harmful", at.harmful);
        json.member("text", at.text);
        json.end_object();
    } else {
        json.null();
    }
    json.key("first_weeks");
    if (advice.first_weeks) {
        json.begin_array();
        for (const RampWeek& week : *advice.first_weeks) {
            json.begin_object();
            json.member("week", week.week);
            json.member("scraps_kg", week.scraps.in_kilograms());
            json.end_object();
        }
        json.end_array();
    } else {
        json.null();
    }
    json.end_object();
}

}  // namespace

std::string to_json(const CheckResult& result, const KeeperAdvice& advice) {
    JsonWriter json;
    json.begin_object();
    json.key("hazards");
    json.begin_array();
    for (const auto& finding : result.hazards) {
        json.begin_object();
        json.member("hazard", text(finding.hazard));
        json.member("level", text(finding.level));
        json.key("value");
        write_quantity(json, finding.value);
        json.member("limit", finding.limit);
        json.member("limit_act", finding.limit_act);
        json.member("higher_is_worse", finding.higher_is_worse);
        json.member("unit", finding.unit);
        json.member("source", finding.source);
        json.member("why", finding.why);
        json.end_object();
    }
    json.end_array();
    json.key("ration");
    write_ration(json, result.ration);
    write_caution_findings(json, result.cautions);
    json.member("always", caution_for_all);
    json.key("advice");
    write_advice(json, advice);
    json.key("assumed");
    write_assumed(json, result.assumed);
    json.member("as_planned", result.as_planned);
    json.member("grade", text(result.grade));
    json.end_object();
    return json.take();
}

}  // namespace feed::io
