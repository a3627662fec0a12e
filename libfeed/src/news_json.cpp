#include "feed/io/to_json.hpp"

namespace feed::io {
namespace {

void write_rate(JsonWriter& json, const RateChange& rate) {
    json.begin_object();
    json.member("rate", kind(rate.parameter).key);
    json.member("before", rate.before_per_day);
    json.member("before_low", rate.before_low_per_day);
    json.member("before_high", rate.before_high_per_day);
    json.member("after", rate.after_per_day);
    json.member("after_low", rate.after_low_per_day);
    json.member("after_high", rate.after_high_per_day);
    json.member("outside_published", rate.outside_published);
    json.end_object();
}

}  // namespace

std::string to_json(const DiaryNews& news) {
    JsonWriter json;
    json.begin_object();
    json.member("added", news.added);
    json.member("observations", static_cast<std::int64_t>(news.observations));
    json.member("look_back", news.look_back);
    json.member("trial", news.trial);
    write_texts(json, "own_feeds", news.own_feeds);
    json.member("looks_used", static_cast<std::int64_t>(news.calibration.used));
    json.key("rates_per_day");
    json.begin_array();
    for (const auto& rate : news.calibration.rates)
        write_rate(json, rate);
    json.end_array();
    write_texts(json, "misfits", news.misfits);
    write_texts(json, "slips", news.slips);
    json.end_object();
    return json.take();
}

std::string to_json(const SignsAnswer& answer) {
    JsonWriter json;
    json.begin_object();
    json.member("text", answer.text);
    json.member("harmless", answer.harmless);
    json.key("causes");
    json.begin_array();
    for (const auto& cause : answer.causes) {
        json.begin_object();
        json.member("cause", cause.name);
        json.member("share", cause.share);
        json.member("harmless", cause.harmless);
        json.member("why", cause.why);
        json.member("test", cause.test);
        json.member("remedy", cause.remedy.text);
        json.end_object();
    }
    json.end_array();
    write_texts(json, "notes", answer.notes);
    json.key("steps");
    json.begin_array(true);
    for (const auto step : answer.steps)
        json.value(static_cast<std::int64_t>(step));
    json.end_array();
    json.key("assumed");
    write_assumed(json, answer.assumed);
    json.end_object();
    return json.take();
}

}  // namespace feed::io
