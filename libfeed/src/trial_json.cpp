#include "feed/io/to_json.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed::io {
namespace {

/// {chance by luck, its error, how many arrangements, whether all were counted}
void write_luck(JsonWriter& json, std::string_view key, const LuckTest& luck) {
    json.key(key);
    json.begin_object();
    json.member("p", luck.p);
    json.member("error", luck.error);
    json.member("arrangements", luck.arrangements);
    json.member("all_counted", luck.all_counted);
    json.end_object();
}

void write_number(JsonWriter& json, std::string_view key, std::size_t number) {
    json.member(key, static_cast<std::int64_t>(number));
}

/// Where a plot lies. feed: its label, or null for the blank.
void write_place(JsonWriter& json, const Trial& trial, const Plot& plot) {
    write_number(json, "plot", plot.number);
    json.member("bin", trial.bins[plot.bin]);
    write_number(json, "round", plot.round + 1);
    write_number(json, "place", plot.place + 1);
    json.key("feed");
    if (plot.feed)
        json.value(trial.feeds[*plot.feed].label);
    else
        json.null();
}

void write_power(JsonWriter& json, const PowerTable& power) {
    json.key("power");
    json.begin_array();
    for (std::size_t i = 0; i < power.size(); ++i) {
        for (std::size_t j = 0; j < power[i].size(); ++j) {
            json.begin_object();
            json.member("log_sd", power_spreads[i]);
            json.member("ratio", power_ratios[j]);
            json.member("share_clear", power[i][j]);
            json.end_object();
        }
    }
    json.end_array();
}

void write_interval(JsonWriter& json, std::string_view key, const PlotInterval& seen) {
    json.key(key);
    json.begin_object();
    json.member("after_days", seen.after_days);
    json.member("by_days", seen.by_days);
    json.end_object();
}

void write_pair(JsonWriter& json, const Trial& trial, const TrialReading& reading,
                const PairReading& pair) {
    json.begin_object();
    json.member("first", trial.feeds[pair.ratio.first].label);
    json.member("second", trial.feeds[pair.ratio.second].label);
    json.member("verdict", text(pair.verdict));
    json.member("sentence", pair_sentence(trial, reading, pair));
    write_luck(json, "luck", pair.test.luck);
    json.key("time_ratio");
    json.begin_object();
    json.member("value", pair.ratio.ratio);
    json.member("low", pair.ratio.low);
    json.member("high", pair.ratio.high);
    json.end_object();
    json.member("quicker",
                trial.feeds[pair.first_quicker ? pair.ratio.first : pair.ratio.second].label);
    json.member("surety", pair.surety);
    json.member("next_quicker", pair.next_quicker);
    json.member("at_most_fold", pair.at_most_fold);
    json.member("log_sd", pair.ratio.spread);
    write_number(json, "bins_for_ratio_2", pair.bins_for_2);
    write_number(json, "bins_for_ratio_1_5", pair.bins_for_1_5);
    json.end_object();
}

}  // namespace

std::string to_json(const TrialPlan& plan, UnitSystem units) {
    const Trial& trial = plan.trial;
    JsonWriter json;
    json.begin_object();
    json.member("kind", text(trial.design.kind));
    json.member("question", text(trial.question));
    json.member("seed", static_cast<std::int64_t>(plan.layout.seed));
    json.member("last_day", *trial.last_day);
    json.key("look_days");
    json.begin_array(true);
    for (const int day : plan.look_days)
        json.value(day);
    json.end_array();
    json.member("wait", plan.wait);
    write_number(json, "portions", trial.design.portions);
    json.member("why_portions", plan.why_portions);
    json.member("portion_rule", text(plan.portions.rule));
    json.key("feeds");
    json.begin_array();
    for (std::size_t i = 0; i < trial.feeds.size(); ++i) {
        json.begin_object();
        json.member("feed", trial.feeds[i].label);
        json.member("feedstock", trial.feeds[i].feedstock->id);
        json.member("fresh_wet_mass_kg", plan.portions.fresh[i].in_kilograms());
        json.member("laid_wet_mass_kg", plan.portions.laid[i].in_kilograms());
        json.member("measure", plan.measures[i]);
        json.member("expected_gone_days", plan.expected_days[i]);
        json.end_object();
    }
    json.end_array();
    json.key("plots");
    json.begin_array();
    for (const Plot& plot : plan.layout.plots) {
        json.begin_object();
        write_place(json, trial, plot);
        json.end_object();
    }
    json.end_array();
    json.member("smallest_p", plan.smallest.overall);
    json.member("smallest_pair_p", plan.smallest.pair);
    write_power(json, plan.power);
    json.key("changes");
    json.begin_array();
    for (const TrialChange& change : plan.changes) {
        json.begin_object();
        json.member("change", change.text);
        json.member("share_clear", change.power);
        json.end_object();
    }
    json.end_array();
    json.key("helps_most");
    if (plan.helps_most)
        json.value(plan.changes[*plan.helps_most].text);
    else
        json.null();
    write_texts(json, "text", trial_plan_lines(plan, units));
    write_texts(json, "notes", plan.notes);
    json.key("assumed");
    write_assumed(json, plan.assumed);
    json.end_object();
    return json.take();
}

std::string to_json(const Trial& trial, const TrialReading& reading) {
    JsonWriter json;
    json.begin_object();
    write_texts(json, "text", trial_reading_lines(trial, reading));
    json.member("counts", count_sentence(trial, reading));
    json.member("ended", reading.ended);
    json.member("valid", reading.valid);
    json.member("fair", reading.fair);
    json.member("blind", reading.blind);
    json.member("last_look", reading.last_look);
    json.member("last_day", reading.last_day);
    json.key("feeds");
    json.begin_array();
    for (std::size_t i = 0; i < trial.feeds.size(); ++i) {
        json.begin_object();
        json.member("feed", trial.feeds[i].label);
        write_number(json, "portions", reading.counts[i].of);
        write_number(json, std::string(text(trial.question)), reading.counts[i].by_end);
        json.end_object();
    }
    json.end_array();
    write_luck(json, "luck", reading.overall);
    write_luck(json, trial.question == TrialQuestion::gone ? "luck_found" : "luck_gone",
               reading.order_found);
    json.key("pairs");
    json.begin_array();
    for (const PairReading& pair : reading.pairs)
        write_pair(json, trial, reading, pair);
    json.end_array();
    json.key("plots");
    json.begin_array();
    for (std::size_t i = 0; i < reading.plots.size(); ++i) {
        json.begin_object();
        write_place(json, trial, reading.layout.plots[i]);
        write_interval(json, "gone", reading.plots[i].gone);
        write_interval(json, "found", reading.plots[i].found);
        write_number(json, "looks", reading.plots[i].looks);
        json.member("lost", reading.plots[i].lost);
        json.end_object();
    }
    json.end_array();
    write_texts(json, "flaws", reading.flaws);
    json.end_object();
    return json.take();
}

}  // namespace feed::io
