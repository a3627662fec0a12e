#include "feed/bed/check.hpp"

#include "convert.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "memory.hpp"
#include "portions.hpp"

namespace {

using namespace feed::c;

void clear(feed_hazard_finding& out) {
    out = {out.struct_size,
           0,
           FEED_LEVEL_UNKNOWN,
           0,
           0,
           nothing_known,
           not_a_number,
           not_a_number,
           0,
           0,
           0,
           0,
           0,
           "",
           "",
           "",
           "",
           ""};
}

}  // namespace

extern "C" {

feed_code feed_check(const feed_bed* bed, const feed_portion* portions, size_t count,
                     const feed_allocator* allocator, feed_check_result** out, feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (bed == nullptr) return null_argument(error, "bed");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        std::vector<feed::Portion> parts;
        if (const feed_code code = read_portions(portions, count, "portions", parts, error)) {
            return code;
        }
        if (parts.empty()) return no_portion(error);
        *out = make_handle<feed_check_result>(allocator, feed::check(bed->content, parts));
        return succeed(error);
    });
}

feed_code feed_check_hazard(const feed_check_result* result, int32_t hazard,
                            feed_hazard_finding* out, feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    clear(*out);
    if (result == nullptr) return null_argument(error, "result");
    if (hazard < 0 || hazard >= static_cast<int32_t>(feed::hazard_count)) {
        return bad_index(error, "hazard");
    }
    const feed::HazardFinding& finding = result->content[static_cast<feed::Hazard>(hazard)];
    const feed::Remedy& remedy = finding.remedy;
    out->hazard = hazard;
    out->level = static_cast<int32_t>(finding.level);
    out->higher_is_worse = finding.higher_is_worse ? 1 : 0;
    out->remedy_helps = remedy.hazard_gone ? 1 : 0;
    out->value = plain(finding.value);
    out->limit_watch = finding.limit;
    out->limit_act = finding.limit_act;
    out->remedy_add_wet_kg = remedy.add.in_kilograms();
    out->remedy_feed_now_wet_kg = remedy.feed_now.in_kilograms();
    out->remedy_feed_later_wet_kg = remedy.feed_later.in_kilograms();
    out->remedy_later_days = feed::in_days(remedy.later);
    out->remedy_spread_m2 = feed::in_square_metres(remedy.spread);
    out->unit = finding.unit.data();  // static text, ends with NUL
    out->source = finding.source.data();
    out->why = finding.why.c_str();
    out->remedy = remedy.text.c_str();
    out->remedy_material = remedy.material.c_str();
    return succeed(error);
}

feed_code feed_check_caution_count(const feed_check_result* result, size_t* count,
                                   feed_error* error) {
    if (count == nullptr) return null_argument(error, "count");
    *count = 0;
    if (result == nullptr) return null_argument(error, "result");
    *count = result->content.cautions.size();
    return succeed(error);
}

feed_code feed_check_caution(const feed_check_result* result, size_t index, const char** sentence,
                             const char** source, feed_error* error) {
    if (source != nullptr) *source = nullptr;
    if (sentence == nullptr) return null_argument(error, "sentence");
    *sentence = nullptr;
    if (result == nullptr) return null_argument(error, "result");
    if (index >= result->content.cautions.size()) return bad_index(error, "index");
    *sentence = result->content.cautions[index].text.c_str();
    if (source != nullptr) *source = result->content.cautions[index].source.c_str();
    return succeed(error);
}

feed_code feed_check_look_back(const feed_check_result* result, const char** sentence,
                               feed_error* error) {
    if (sentence == nullptr) return null_argument(error, "sentence");
    *sentence = nullptr;
    if (result == nullptr) return null_argument(error, "result");
    *sentence = result->content.look_back.c_str();
    return succeed(error);
}

void feed_check_result_free(feed_check_result* result) {
    free_handle(result);
}

}  // extern "C"
