#include "check.hpp"

#include "convert.hpp"
#include "feed/io/ration_text.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "lists.hpp"
#include "memory.hpp"
#include "portions.hpp"

namespace feed::c {

feed_check_result* make_check_result(const feed_allocator* allocator, CheckResult content) {
    const Ration& ration = content.ration;
    const UnitSystem units = ration.units;
    std::vector<std::string> measures;
    for (const PutIn& put : ration.put_in)
        measures.push_back(io::measure_of(put, units));
    std::vector<std::string> rest_measures;
    for (const Rest& rest : ration.rest)
        rest_measures.push_back(
            io::measure_of({rest.thing, part_of(*rest.thing.feedstock), rest.wet_mass}, units));
    std::vector<std::string> reasons;
    for (const Reason& reason : ration.reasons)
        reasons.push_back(io::reason_text(reason, ration, units));
    std::vector<std::string> weigh;
    for (const WorthMeasuring& worth : ration.weigh)
        weigh.push_back(io::weigh_text(worth));
    std::vector<std::string> lines = io::ration_lines(ration, units);
    return make_handle<feed_check_result>(allocator, std::move(content), std::move(measures),
                                          std::move(rest_measures), std::move(reasons),
                                          std::move(weigh), std::move(lines));
}

}  // namespace feed::c

namespace {

using namespace feed::c;

constexpr feed_hazard_finding no_finding{sizeof(feed_hazard_finding),
                                         0,
                                         FEED_LEVEL_UNKNOWN,
                                         0,
                                         nothing_known,
                                         not_a_number,
                                         not_a_number,
                                         "",
                                         "",
                                         ""};
constexpr feed_take_out no_take_out{sizeof(feed_take_out), "", "", "", ""};
constexpr feed_ration_thing no_thing{sizeof(feed_ration_thing), 0, 0, 0, not_a_number, "", "", ""};
constexpr feed_ration no_ration{sizeof(feed_ration),
                                FEED_RATION_WAIT,
                                FEED_GRADE_D,
                                0,
                                0,
                                -1,
                                -1,
                                -1,
                                0,
                                0,
                                0,
                                0,
                                0,
                                0,
                                not_a_number,
                                not_a_number,
                                not_a_number,
                                not_a_number,
                                not_a_number,
                                not_a_number};

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
const auto& assumed_in(const feed_check_result& result) {
    return result.content.assumed;
}
const auto& reasons_of(const feed_check_result& result) {
    return result.reasons;
}
const auto& weigh_of(const feed_check_result& result) {
    return result.weigh;
}
const auto& lines_of(const feed_check_result& result) {
    return result.lines;
}

void fill(feed_ration_thing& out, const feed::ThingAtHand& thing, feed::Part part,
          feed::WetMass wet_mass, const std::string& measure) {
    out.part = static_cast<int32_t>(part);
    out.at_hand = thing.at_hand ? 1 : 0;
    out.wet_kg = wet_mass.in_kilograms();
    out.feedstock_id = thing.feedstock->id.c_str();
    out.label = thing.label.c_str();
    out.measure = measure.c_str();
}

}  // namespace

extern "C" {

feed_code feed_check(const feed_bed* bed, const feed_portion* portions, size_t count,
                     const feed_allocator* allocator, feed_check_result** out, feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (bed == nullptr) return null_argument(error, "bed");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        std::vector<feed::Portion> parts;
        if (const feed_code code = read_portions(portions, count, "portions", parts, error)) {
            return code;
        }
        *out = make_check_result(allocator, feed::check(bed->content, parts));
        return succeed(error);
    });
}

feed_code feed_check_hazard(const feed_check_result* result, int32_t hazard,
                            feed_hazard_finding* out, feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_hazard_finding> filled(out, no_finding);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (result == nullptr) return null_argument(error, "result");
    if (hazard < 0 || hazard >= static_cast<int32_t>(feed::hazard_count)) {
        return bad_index(error, "hazard");
    }
    const feed::HazardFinding& finding = result->content[static_cast<feed::Hazard>(hazard)];
    filled->hazard = hazard;
    filled->level = static_cast<int32_t>(finding.level);
    filled->higher_is_worse = finding.higher_is_worse ? 1 : 0;
    filled->value = plain(finding.value);
    filled->limit_watch = finding.limit;
    filled->limit_act = finding.limit_act;
    filled->unit = finding.unit.data();  // static text, ends with NUL
    filled->source = finding.source.data();
    filled->why = finding.why.c_str();
    return succeed(error);
}

feed_code feed_check_ration(const feed_check_result* result, feed_ration* out, feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_ration> filled(out, no_ration);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (result == nullptr) return null_argument(error, "result");
    const feed::Ration& ration = result->content.ration;
    filled->answer = static_cast<int32_t>(ration.answer);
    filled->grade = static_cast<int32_t>(ration.grade);
    filled->raised = bits_of(ration.raised);
    filled->next_look_day = ration.next_look;
    if (ration.next_feeding) {
        filled->next_feeding_day = ration.next_feeding->day;
        filled->next_feeding_earliest = ration.next_feeding->earliest;
        filled->next_feeding_latest = ration.next_feeding->latest;
    }
    filled->take_out_count = ration.take_out.size();
    filled->put_in_count = ration.put_in.size();
    filled->rest_count = ration.rest.size();
    filled->reason_count = result->reasons.size();
    filled->weigh_count = result->weigh.size();
    filled->line_count = result->lines.size();
    filled->scraps_wet_kg = ration.scraps.in_kilograms();
    filled->water_kg = ration.water_kg;
    filled->lime_wet_kg = ration.lime_kg;
    filled->week_wet_kg = ration.week.in_kilograms();
    filled->spread_m2 = feed::in_square_metres(ration.spread);
    filled->share_left = ration.share_left;
    return succeed(error);
}

feed_code feed_check_take_out(const feed_check_result* result, size_t index, feed_take_out* out,
                              feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_take_out> filled(out, no_take_out);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (result == nullptr) return null_argument(error, "result");
    const auto& list = result->content.ration.take_out;
    if (index >= list.size()) return bad_index(error, "index");
    filled->feedstock_id = list[index].feedstock.c_str();
    filled->label = list[index].label.c_str();
    filled->why = list[index].why.c_str();
    filled->instead = list[index].instead.c_str();
    return succeed(error);
}

feed_code feed_check_put_in(const feed_check_result* result, size_t index, feed_ration_thing* out,
                            feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_ration_thing> filled(out, no_thing);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (result == nullptr) return null_argument(error, "result");
    const auto& list = result->content.ration.put_in;
    if (index >= list.size()) return bad_index(error, "index");
    fill(*filled, list[index].thing, list[index].part, list[index].wet_mass,
         result->measures[index]);
    return succeed(error);
}

feed_code feed_check_rest(const feed_check_result* result, size_t index, feed_ration_thing* out,
                          feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_ration_thing> filled(out, no_thing);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (result == nullptr) return null_argument(error, "result");
    const auto& list = result->content.ration.rest;
    if (index >= list.size()) return bad_index(error, "index");
    const feed::Rest& rest = list[index];
    fill(*filled, rest.thing, feed::part_of(*rest.thing.feedstock), rest.wet_mass,
         result->rest_measures[index]);
    filled->capped = rest.capped ? 1 : 0;
    return succeed(error);
}

feed_code feed_check_reason(const feed_check_result* result, size_t index, const char** sentence,
                            feed_error* error) {
    return give_sentence(result, "result", reasons_of, index, sentence, "sentence", error);
}

feed_code feed_check_weigh(const feed_check_result* result, size_t index, const char** words,
                           feed_error* error) {
    return give_sentence(result, "result", weigh_of, index, words, "words", error);
}

feed_code feed_check_line(const feed_check_result* result, size_t index, const char** line,
                          feed_error* error) {
    return give_sentence(result, "result", lines_of, index, line, "line", error);
}

feed_code feed_check_assumption_count(const feed_check_result* result, size_t* count,
                                      feed_error* error) {
    return give_count(result, "result", assumed_in, count, error);
}

feed_code feed_check_assumption(const feed_check_result* result, size_t index,
                                const char** sentence, feed_error* error) {
    return give_sentence(result, "result", assumed_in, index, sentence, "sentence", error);
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

void feed_check_result_free(feed_check_result* result) {
    free_handle(result);
}

}  // extern "C"
