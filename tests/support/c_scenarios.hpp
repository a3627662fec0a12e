#pragma once
// Every function of the C interface once, in stories of a few calls, for the tests that fail its
// memory or run it in many threads. Each story cleans up whatever happened and returns the first
// code that was not FEED_OK.
#include <array>
#include <cmath>
#include <string>

#include "feed/feed.h"

namespace feed_test {

/// A story, its name and what it calls.
struct Scenario {
    const char* name;
    feed_code (*run)(const feed_allocator* allocator, std::string& digest);
};

/// Stops a story at the first failure but lets it clean up.
class Story {
public:
    explicit Story(std::string& digest) : digest_(digest) { error_.struct_size = sizeof error_; }
    bool ok(feed_code code) {
        if (code_ == FEED_OK) code_ = code;
        return code_ == FEED_OK;
    }
    feed_error* error() { return &error_; }
    feed_code code() const { return code_; }
    /// Adds a number to what the story saw, so that threads can be compared.
    void saw(double number) { digest_ += std::to_string(number) + ";"; }
    void saw(const char* text) {
        digest_ += text;
        digest_ += ';';
    }

private:
    std::string& digest_;
    feed_error error_{};
    feed_code code_ = FEED_OK;
};

inline feed_code look_up_story(const feed_allocator* allocator, std::string& digest) {
    Story story(digest);
    feed_feedstock* found = nullptr;
    feed_feedstock* first = nullptr;
    feed_feedstock* chopped = nullptr;
    feed_feedstock_info info{};
    info.struct_size = sizeof info;
    feed_value value{};
    value.struct_size = sizeof value;
    std::array<size_t, 8> rows{};
    size_t count = 0;
    double wet_kg = 0.0;
    std::array<char, 80> how{};
    feed_version_info version{};
    version.struct_size = sizeof version;
    const char* name = nullptr;
    if (story.ok(feed_version(&version, story.error())) &&
        story.ok(feed_code_name(FEED_OUT_OF_RANGE, &name, story.error())) &&
        story.ok(feed_table_count(&count, story.error())) &&
        story.ok(feed_table_search("coffee", rows.size(), rows.data(), &count, story.error())) &&
        story.ok(feed_feedstock_at(rows[0], allocator, &first, story.error())) &&
        story.ok(feed_feedstock_look_up("apples", allocator, &found, story.error())) &&
        story.ok(feed_feedstock_describe(found, &info, story.error())) &&
        story.ok(feed_feedstock_get(found, FEED_MOISTURE_WET, &value, story.error())) &&
        story.ok(feed_feedstock_prepare(found, FEED_PREPARATION_BLENDED, allocator, &chopped,
                                        story.error())) &&
        story.ok(feed_amount_to_wet_kg("1 1/2 cup", chopped, &wet_kg, how.data(), how.size(),
                                       story.error()))) {
        story.saw(version.table_sha256);
        story.saw(info.id);
        story.saw(value.value);
        story.saw(wet_kg);
    }
    feed_feedstock_free(found);
    feed_feedstock_free(first);
    feed_feedstock_free(chopped);
    return story.code();
}

inline feed_code own_story(const feed_allocator* allocator, std::string& digest) {
    Story story(digest);
    const double none = std::nan("");
    const std::array<feed_own_value, 2> values{
        {{FEED_MOISTURE_WET, 0.06, none, none}, {FEED_CN_RATIO, 320.0, 250.0, 400.0}}};
    feed_own_feedstock own{};
    own.struct_size = sizeof own;
    own.roles = FEED_ROLE_BEDDING;
    own.stance = own.decay_class = own.cautions = FEED_NOT_GIVEN;
    own.name = "shredded till roll";
    own.values = values.data();
    own.value_count = values.size();
    feed_own_feedstock soup = own;
    soup.name = "lentil soup";
    soup.roles = FEED_ROLE_SCRAPS;
    soup.values = nullptr;
    soup.value_count = 0;
    feed_nutrition_label label{sizeof label, 1,    0.03, 0.01,  0.09, none,
                               none,         none, none, 0.008, none, none};
    feed_laboratory_report report{sizeof report, 0, 0.35, 0.42, 0.012, none, 0.12, none};
    feed_feedstock* defined = nullptr;
    feed_feedstock* labelled = nullptr;
    feed_feedstock* reported = nullptr;
    feed_feedstock* read = nullptr;
    feed_value value{};
    value.struct_size = sizeof value;
    const char* text = "office shreds:\n  like: office paper\n  moisture: 8 %\n";
    if (story.ok(feed_feedstock_define(&own, nullptr, allocator, &defined, story.error())) &&
        story.ok(feed_feedstock_from_label(&soup, &label, allocator, &labelled, story.error())) &&
        story.ok(feed_feedstock_from_report(&soup, &report, allocator, &reported, story.error())) &&
        story.ok(feed_feedstock_from_text(text, allocator, &read, story.error())) &&
        story.ok(feed_feedstock_get(defined, FEED_NITROGEN_DRY, &value, story.error()))) {
        story.saw(value.value);
    }
    feed_feedstock_free(defined);
    feed_feedstock_free(labelled);
    feed_feedstock_free(reported);
    feed_feedstock_free(read);
    return story.code();
}

/// Coffee grounds and cardboard, looked up.
struct Pair {
    feed_feedstock* coffee = nullptr;
    feed_feedstock* cardboard = nullptr;
    bool look_up(Story& story, const feed_allocator* allocator) {
        return story.ok(
                   feed_feedstock_look_up("coffee grounds", allocator, &coffee, story.error())) &&
               story.ok(feed_feedstock_look_up("shredded cardboard", allocator, &cardboard,
                                               story.error()));
    }
    ~Pair() {
        feed_feedstock_free(coffee);
        feed_feedstock_free(cardboard);
    }
};

inline feed_code blend_story(const feed_allocator* allocator, std::string& digest) {
    Story story(digest);
    Pair pair;
    feed_blend_properties blend{};
    blend.struct_size = sizeof blend;
    if (pair.look_up(story, allocator)) {
        const std::array<feed_portion, 2> portions{{{pair.coffee, 1.2}, {pair.cardboard, 0.4}}};
        if (story.ok(feed_blend(portions.data(), portions.size(), &blend, story.error()))) {
            story.saw(blend.cn_ratio.value);
            story.saw(blend.moisture_wet.low);
        }
    }
    return story.code();
}

inline feed_code balance_story(const feed_allocator* allocator, std::string& digest) {
    Story story(digest);
    Pair pair;
    feed_problem* problem = nullptr;
    feed_answer* answer = nullptr;
    const double none = std::nan("");
    feed_answer_summary summary{};
    summary.struct_size = sizeof summary;
    feed_reached reached{};
    reached.struct_size = sizeof reached;
    feed_blend_properties blend{};
    blend.struct_size = sizeof blend;
    feed_target target{};
    target.struct_size = sizeof target;
    target.property = FEED_TARGET_CN_RATIO;
    target.low = 25.0;
    target.high = 40.0;
    target.aim = 30.0;
    target.label = "C:N";
    if (pair.look_up(story, allocator)) {
        const feed_entry scraps{sizeof scraps, 0, pair.coffee, "coffee", 1.0, 1.0, none, none};
        const feed_entry bedding{sizeof bedding, 0, pair.cardboard, "card", 0.0, none, none, none};
        double wet_kg = 0.0;
        const char* words = nullptr;
        if (story.ok(feed_problem_create(allocator, &problem, story.error())) &&
            story.ok(feed_problem_add_entry(problem, &scraps, story.error())) &&
            story.ok(feed_problem_add_entry(problem, &bedding, story.error())) &&
            story.ok(feed_problem_use_target_set(problem, FEED_TARGETS_WORM_BED, story.error())) &&
            story.ok(feed_problem_set_target(problem, &target, story.error())) &&
            story.ok(feed_problem_set_objective(problem, FEED_OBJECTIVE_CLOSEST_TO_AIMS,
                                                story.error())) &&
            story.ok(feed_balance(problem, allocator, &answer, story.error())) &&
            story.ok(feed_answer_describe(answer, &summary, story.error())) &&
            story.ok(feed_answer_portion(answer, 1, &wet_kg, &words, story.error())) &&
            story.ok(feed_answer_reached(answer, 0, &reached, story.error())) &&
            story.ok(feed_answer_blend(answer, &blend, story.error()))) {
            story.saw(summary.status);
            story.saw(wet_kg);
            story.saw(reached.quantity.value);
            if (summary.assumption_count > 0) {
                story.ok(feed_answer_assumption(answer, 0, &words, story.error()));
            }
            if (summary.conflict_count > 0) {
                story.ok(feed_answer_conflict(answer, 0, &words, story.error()));
            }
            size_t advice = 0;
            if (story.ok(feed_answer_advice_count(answer, &advice, story.error())) && advice > 0) {
                story.ok(feed_answer_advice(answer, 0, &words, story.error()));
            }
        }
    }
    feed_problem_free(problem);
    feed_answer_free(answer);
    return story.code();
}

/// Every word and number of a ration.
inline void read_ration(Story& story, const feed_check_result* result) {
    feed_ration ration{};
    ration.struct_size = sizeof ration;
    if (!story.ok(feed_check_ration(result, &ration, story.error()))) return;
    story.saw(ration.scraps_wet_kg);
    story.saw(ration.next_feeding_day);
    feed_take_out out{};
    out.struct_size = sizeof out;
    for (size_t i = 0; i < ration.take_out_count; ++i) {
        if (story.ok(feed_check_take_out(result, i, &out, story.error()))) story.saw(out.why);
    }
    feed_ration_thing thing{};
    thing.struct_size = sizeof thing;
    for (size_t i = 0; i < ration.put_in_count; ++i) {
        if (story.ok(feed_check_put_in(result, i, &thing, story.error()))) story.saw(thing.measure);
    }
    for (size_t i = 0; i < ration.rest_count; ++i) {
        if (story.ok(feed_check_rest(result, i, &thing, story.error()))) story.saw(thing.wet_kg);
    }
    const char* words = nullptr;
    for (size_t i = 0; i < ration.reason_count; ++i) {
        if (story.ok(feed_check_reason(result, i, &words, story.error()))) story.saw(words);
    }
    for (size_t i = 0; i < ration.weigh_count; ++i) {
        if (story.ok(feed_check_weigh(result, i, &words, story.error()))) story.saw(words);
    }
    for (size_t i = 0; i < ration.line_count; ++i) {
        if (story.ok(feed_check_line(result, i, &words, story.error()))) story.saw(words);
    }
}

inline feed_code bed_story(const feed_allocator* allocator, std::string& digest) {
    Story story(digest);
    Pair pair;
    feed_bed* bed = nullptr;
    feed_check_result* result = nullptr;
    feed_forecast* forecast = nullptr;
    feed_bed_description description{};
    description.struct_size = sizeof description;
    feed_hazard_finding finding{};
    finding.struct_size = sizeof finding;
    feed_forecast_summary summary{};
    summary.struct_size = sizeof summary;
    size_t cautions = 0;
    const char* words = nullptr;
    const double* series = nullptr;
    const std::array<double, 3> temperatures{18.0, 19.5, 21.0};
    if (pair.look_up(story, allocator) &&
        story.ok(feed_bed_description_init(&description, story.error()))) {
        description.worms_wet_kg = 0.5;
        const std::array<feed_portion, 2> portions{{{pair.coffee, 0.3}, {pair.cardboard, 0.1}}};
        if (story.ok(feed_bed_create(&description, allocator, &bed, story.error())) &&
            story.ok(feed_bed_set_daily_temperature(bed, temperatures.data(), temperatures.size(),
                                                    story.error())) &&
            story.ok(feed_bed_set_bedding(bed, &portions[1], 1, story.error())) &&
            story.ok(feed_bed_add_feeding(bed, -7.0, portions.data(), 2, story.error())) &&
            story.ok(feed_bed_add_feeding(bed, 1.0, portions.data(), 2, story.error())) &&
            story.ok(feed_check(bed, portions.data(), 2, allocator, &result, story.error())) &&
            story.ok(feed_check_hazard(result, FEED_HAZARD_OVERFED, &finding, story.error())) &&
            story.ok(feed_check_caution_count(result, &cautions, story.error())) &&
            story.ok(feed_forecast_bed(bed, 14, allocator, &forecast, story.error())) &&
            story.ok(feed_forecast_describe(forecast, &summary, story.error())) &&
            story.ok(feed_forecast_series(forecast, FEED_SERIES_MOISTURE_WET, &series, nullptr,
                                          nullptr, story.error()))) {
            story.saw(finding.value.value);
            story.saw(series[summary.day_count - 1]);
            if (cautions > 0) {
                story.ok(feed_check_caution(result, 0, &words, nullptr, story.error()));
            }
            size_t assumptions = 0;
            if (story.ok(feed_check_assumption_count(result, &assumptions, story.error())) &&
                story.ok(feed_check_assumption(result, 0, &words, story.error())))
                read_ration(story, result);
        }
    }
    feed_bed_free(bed);
    feed_check_result_free(result);
    feed_forecast_free(forecast);
    return story.code();
}

inline feed_code text_story(const feed_allocator* allocator, std::string& digest) {
    Story story(digest);
    const char* blend = "libfeed: 1\nblend:\n  - 1.2 kg coffee grounds\n  - 400 g cardboard\n";
    const char* text = "libfeed: 1\nbed:\n  container: tote\n  worms: 500 g\n";
    feed_text* json = nullptr;
    feed_diary* diary = nullptr;
    feed_bed* bed = nullptr;
    feed_check_result* result = nullptr;
    feed_calibration calibration{};
    calibration.struct_size = sizeof calibration;
    const char* bytes = nullptr;
    size_t length = 0;
    const char* request = R"({"verb": "blend", "file": {"libfeed": 1, "blend": ["1 kg carrot"]}})";
    feed_text* called = nullptr;
    if (story.ok(feed_json("blend", blend, "caddy.yaml", allocator, &json, story.error())) &&
        story.ok(feed_call(request, allocator, &called, story.error())) &&
        story.ok(feed_text_get(json, &bytes, &length, story.error())) &&
        story.ok(feed_diary_from_text(text, "bin.yaml", allocator, &diary, story.error())) &&
        story.ok(feed_diary_bed(diary, allocator, &bed, story.error())) &&
        story.ok(feed_diary_check(diary, allocator, &result, story.error())) &&
        story.ok(feed_diary_calibrate(diary, &calibration, story.error()))) {
        story.saw(bytes);
        read_ration(story, result);
        story.saw(calibration.after_per_day[0]);
    }
    feed_text_free(json);
    feed_text_free(called);
    feed_diary_free(diary);
    feed_bed_free(bed);
    feed_check_result_free(result);
    return story.code();
}

inline constexpr std::array<Scenario, 6> scenarios{{{"look up", look_up_story},
                                                    {"own feedstocks", own_story},
                                                    {"blend", blend_story},
                                                    {"balance", balance_story},
                                                    {"bed", bed_story},
                                                    {"texts", text_story}}};

}  // namespace feed_test
