#include "feed/bed/check.hpp"

#include "convert.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "lists.hpp"
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

void clear(feed_joint_steps& out) {
    out = {out.struct_size, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, "", ""};
}

/// Bits 1 << FEED_HAZARD_....
std::uint32_t bits_of(const std::vector<feed::Hazard>& hazards) {
    std::uint32_t bits = 0;
    for (const feed::Hazard hazard : hazards)
        bits |= std::uint32_t{1} << static_cast<unsigned>(hazard);
    return bits;
}

const auto& cautions_of(const feed_check_result& result) {
    return result.content.cautions;
}
const auto& assumed_of(const feed_check_result& result) {
    return result.content.assumed;
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

feed_code feed_check_joint_steps(const feed_check_result* result, feed_joint_steps* out,
                                 feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    clear(*out);
    if (result == nullptr) return null_argument(error, "result");
    if (!result->content.together) return succeed(error);
    const feed::JointRemedy& steps = *result->content.together;
    out->needed = 1;
    out->found = steps.found ? 1 : 0;
    out->clears = bits_of(steps.clears);
    out->stays = bits_of(steps.stays);
    out->addition_count = steps.additions.size();
    out->share_now = steps.share_now;
    out->feed_now_wet_kg = steps.feed_now.in_kilograms();
    out->feed_later_wet_kg = steps.feed_later.in_kilograms();
    out->later_days = feed::in_days(steps.later);
    out->spread_m2 = feed::in_square_metres(steps.spread);
    out->keep_wet_kg = steps.keep.in_kilograms();
    out->cut_down = steps.cut_down.c_str();
    out->text = steps.text.c_str();
    return succeed(error);
}

feed_code feed_check_joint_addition(const feed_check_result* result, size_t index,
                                    const char** feedstock_id, double* wet_kg, feed_error* error) {
    if (feedstock_id != nullptr) *feedstock_id = nullptr;
    if (wet_kg != nullptr) *wet_kg = not_a_number;
    if (feedstock_id == nullptr) return null_argument(error, "feedstock_id");
    if (wet_kg == nullptr) return null_argument(error, "wet_kg");
    if (result == nullptr) return null_argument(error, "result");
    const auto& together = result->content.together;
    if (!together || index >= together->additions.size()) return bad_index(error, "index");
    *feedstock_id = together->additions[index].material.c_str();
    *wet_kg = together->additions[index].add.in_kilograms();
    return succeed(error);
}

feed_code feed_check_assumption_count(const feed_check_result* result, size_t* count,
                                      feed_error* error) {
    return give_count(result, "result", assumed_of, count, error);
}

feed_code feed_check_assumption(const feed_check_result* result, size_t index,
                                const char** sentence, feed_error* error) {
    return give_sentence(result, "result", assumed_of, index, sentence, "sentence", error);
}

feed_code feed_check_caution_count(const feed_check_result* result, size_t* count,
                                   feed_error* error) {
    return give_count(result, "result", cautions_of, count, error);
}

feed_code feed_check_caution(const feed_check_result* result, size_t index, const char** sentence,
                             const char** source, feed_error* error) {
    if (source != nullptr) *source = nullptr;
    const feed_code code =
        give_sentence(result, "result", cautions_of, index, sentence, "sentence", error);
    if (code == FEED_OK && source != nullptr)
        *source = result->content.cautions[index].source.c_str();
    return code;
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
