#include "feed/balance/balance.hpp"

#include <cmath>
#include <memory>

#include "convert.hpp"
#include "feed/balance/target_sets.hpp"
#include "feed/quantity/number_print.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "lists.hpp"
#include "memory.hpp"
#include "portions.hpp"

namespace {

using namespace feed::c;

/// A number that may be left out as NaN; infinity is refused.
bool read_optional(double number, std::optional<double>& out) {
    if (std::isnan(number)) {
        out.reset();
        return true;
    }
    out = number;
    return std::isfinite(number);
}

feed_code not_finite(feed_error* error, std::string_view field) {
    return fail(error, FEED_NOT_A_NUMBER, field, "infinity", "a finite number or NaN for none",
                "the number must be finite");
}

feed_code below_zero(feed_error* error, std::string_view field, double number,
                     std::string_view unit) {
    return fail(error, FEED_OUT_OF_RANGE, field, feed::significant(number, 6) + std::string(unit),
                "at least 0", "the number must not be negative");
}

constexpr feed_entry no_entry = FEED_ENTRY_INIT;
constexpr feed_target no_target = FEED_TARGET_INIT;

/// Zero is no aim and no upper limit of what a bed needs: it is memory that nobody set.
feed_code check_aim(const feed_target& target, feed_error* error) {
    switch (target.property) {
        case FEED_TARGET_CN_RATIO:
        case FEED_TARGET_MOISTURE:
        case FEED_TARGET_FREE_AIR_SPACE:
        case FEED_TARGET_TOTAL_WET_KG:
        case FEED_TARGET_TOTAL_VOLUME_L:
        case FEED_TARGET_BEDDING_L_PER_SCRAPS_L:
            break;
        default:
            return FEED_OK;
    }
    for (const auto& [field, number] :
         {std::pair("target.high", target.high), std::pair("target.aim", target.aim)}) {
        if (number == 0.0) {
            return fail(error, FEED_OUT_OF_RANGE, field, "0", "a number above 0, or NaN for none",
                        "0 would leave nothing; start from FEED_TARGET_INIT and set what you mean");
        }
    }
    return FEED_OK;
}

/// Amounts are nothing, or something that people feed and weigh.
feed_code check_masses(double least, std::optional<double> most, std::optional<double> usual,
                       feed_error* error) {
    for (const auto& [field, kg] :
         {std::pair("entry.least_wet_kg", std::optional(least)),
          std::pair("entry.most_wet_kg", most), std::pair("entry.usual_wet_kg", usual)}) {
        if (!kg || *kg == 0.0) continue;
        if (*kg > most_portion_kg || (*kg > 0.0 && *kg < least_portion_kg)) {
            return fail(error, FEED_OUT_OF_RANGE, field, feed::significant(*kg, 6) + " kg",
                        "0, or " + std::string(portion_range),
                        "nobody feeds or weighs such an amount");
        }
    }
    return FEED_OK;
}

/// What a problem asks for that names no set of targets.
feed::BalanceProblem for_worm_bed(feed::BalanceProblem problem) {
    problem.targets = feed::with_own_targets(feed::worm_bed_targets(), problem.targets);
    return problem;
}

void set_target(std::vector<feed::Target>& targets, feed::Target target) {
    for (auto& old : targets) {
        if (old.property == target.property) {
            old = std::move(target);
            return;
        }
    }
    targets.push_back(std::move(target));
}

double or_nan(const std::optional<double>& number) {
    return number ? *number : not_a_number;
}

const char* pick_label(const feed_answer* answer, std::size_t index) {
    return answer->labels[index].c_str();
}

const auto& conflict_of(const feed_answer& answer) {
    return answer.content->conflict;
}
const auto& assumptions_of(const feed_answer& answer) {
    return answer.content->assumed;
}
const auto& advice_of(const feed_answer& answer) {
    return answer.content->advice;
}

}  // namespace

extern "C" {

feed_code feed_problem_create(const feed_allocator* allocator, feed_problem** out,
                              feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        feed::BalanceProblem content;
        content.targets.clear();  // the caller's own; those of the set come when it is solved
        *out = make_handle<feed_problem>(allocator, std::move(content), false);
        return succeed(error);
    });
}

feed_code feed_problem_add_entry(feed_problem* problem, const feed_entry* entry,
                                 feed_error* error) {
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (problem == nullptr) return null_argument(error, "problem");
    if (!has_room(entry)) return no_room(error, entry, "entry");
    const feed_entry said = taken(*entry, no_entry);
    if (said.feedstock == nullptr) return null_argument(error, "entry.feedstock");
    if (const feed_code code = check_text(error, "entry.label", said.label)) return code;
    return guarded(error, [&] {
        feed::Entry added;
        added.feedstock = said.feedstock->content;
        added.label = said.label != nullptr ? said.label : added.feedstock->name;
        if (!std::isfinite(said.least_wet_kg)) {
            return fail(error, FEED_NOT_A_NUMBER, "entry.least_wet_kg", "not a number",
                        "at least 0 kg", "the amount must be a finite number");
        }
        if (said.least_wet_kg < 0.0) {
            return below_zero(error, "entry.least_wet_kg", said.least_wet_kg, " kg");
        }
        std::optional<double> most;
        std::optional<double> usual;
        if (!read_optional(said.most_wet_kg, most)) return not_finite(error, "entry.most_wet_kg");
        if (!read_optional(said.usual_wet_kg, usual)) {
            return not_finite(error, "entry.usual_wet_kg");
        }
        if (!read_optional(said.cost_per_wet_kg, added.cost_per_wet_kg)) {
            return not_finite(error, "entry.cost_per_wet_kg");
        }
        if (const feed_code code = check_masses(said.least_wet_kg, most, usual, error)) {
            return code;
        }
        if (most && *most < said.least_wet_kg) {
            return fail(error, FEED_LOW_ABOVE_HIGH, "entry.most_wet_kg",
                        feed::significant(*most, 6) + " kg",
                        "at least " + feed::significant(said.least_wet_kg, 6) + " kg",
                        "the upper amount is below the lower one");
        }
        if (usual && *usual < 0.0) return below_zero(error, "entry.usual_wet_kg", *usual, " kg");
        if (said.use_up_priority < 0) {
            return below_zero(error, "entry.use_up_priority", said.use_up_priority, "");
        }
        added.least = feed::wet_kilograms(said.least_wet_kg);
        if (most) added.most = feed::wet_kilograms(*most);
        if (usual) added.usual = feed::wet_kilograms(*usual);
        added.use_up_priority = said.use_up_priority;
        problem->content.entries.push_back(std::move(added));
        return succeed(error);
    });
}

feed_code feed_problem_set_target(feed_problem* problem, const feed_target* target,
                                  feed_error* error) {
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (problem == nullptr) return null_argument(error, "problem");
    if (!has_room(target)) return no_room(error, target, "target");
    const feed_target said = taken(*target, no_target);
    if (said.property < 0 || said.property > FEED_TARGET_WATER_OVER_ROOM) {
        return fail(error, FEED_UNKNOWN_PROPERTY, "target.property", std::to_string(said.property),
                    "a FEED_TARGET_ enumerator", "there is no such target property");
    }
    if (const feed_code code = check_text(error, "target.label", said.label)) return code;
    if (const feed_code code = check_text(error, "target.source", said.source)) return code;
    return guarded(error, [&] {
        feed::Target added;
        added.property = static_cast<feed::TargetProperty>(said.property);
        if (!read_optional(said.low, added.low)) return not_finite(error, "target.low");
        if (!read_optional(said.high, added.high)) return not_finite(error, "target.high");
        if (!read_optional(said.aim, added.aim)) return not_finite(error, "target.aim");
        if (const feed_code code = check_aim(said, error)) return code;
        if (added.low && added.high && *added.low > *added.high) {
            return fail(error, FEED_LOW_ABOVE_HIGH, "target.high",
                        feed::significant(*added.high, 6),
                        "at least " + feed::significant(*added.low, 6),
                        "the window's upper end is below its lower end");
        }
        if (said.label != nullptr) added.label = said.label;
        if (said.source != nullptr) added.source = said.source;
        set_target(problem->content.targets, std::move(added));
        return succeed(error);
    });
}

feed_code feed_problem_use_target_set(feed_problem* problem, int32_t target_set,
                                      feed_error* error) {
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (problem == nullptr) return null_argument(error, "problem");
    if (target_set < FEED_TARGETS_WORM_BED || target_set > FEED_TARGETS_NONE) {
        return bad_index(error, "target_set");
    }
    return guarded(error, [&] {
        problem->set_said = true;
        if (target_set == FEED_TARGETS_NONE) return succeed(error);
        auto targets = target_set == FEED_TARGETS_WORM_BED ? feed::worm_bed_targets()
                                                           : feed::hot_heap_targets();
        problem->content.place =
            target_set == FEED_TARGETS_WORM_BED ? feed::Place::worm_bed : feed::Place::heap;
        for (auto& target : targets)
            set_target(problem->content.targets, std::move(target));
        return succeed(error);
    });
}

feed_code feed_problem_set_objective(feed_problem* problem, int32_t objective, feed_error* error) {
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (problem == nullptr) return null_argument(error, "problem");
    if (objective < 0 || objective > FEED_OBJECTIVE_USE_UP_MOST) {
        return bad_index(error, "objective");
    }
    problem->content.objective = static_cast<feed::Objective>(objective);
    return succeed(error);
}

void feed_problem_free(feed_problem* problem) {
    free_handle(problem);
}

feed_code feed_balance(const feed_problem* problem, const feed_allocator* allocator,
                       feed_answer** out, feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (problem == nullptr) return null_argument(error, "problem");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        auto answer = problem->set_said ? feed::balance(problem->content)
                                        : feed::balance(for_worm_bed(problem->content));
        if (!answer) return fail(error, answer.errors());
        auto content = std::make_unique<const feed::BalanceAnswer>(std::move(answer).value());
        std::vector<std::string> labels;
        labels.reserve(problem->content.entries.size());
        for (const auto& entry : problem->content.entries)
            labels.push_back(entry.label);
        *out = make_handle<feed_answer>(allocator, std::move(content), std::move(labels));
        return succeed(error);
    });
}

feed_code feed_answer_describe(const feed_answer* answer, feed_answer_summary* out,
                               feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_answer_summary> filled(out, no_answer);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (answer == nullptr) return null_argument(error, "answer");
    const feed::BalanceAnswer& content = *answer->content;
    filled->status = static_cast<int32_t>(content.status);
    filled->grade = static_cast<int32_t>(content.grade);
    filled->has_mend = content.mend ? 1 : 0;
    filled->portion_count = content.portions.size();
    filled->reached_count = content.reached.size();
    filled->conflict_count = content.conflict.size();
    filled->assumption_count = content.assumed.size();
    filled->mend_add_wet_kg = content.mend ? content.mend->add.in_kilograms() : not_a_number;
    filled->mend_label = content.mend ? content.mend->label.c_str() : "";
    filled->unbounded_label = content.unbounded_entry.c_str();
    return succeed(error);
}

feed_code feed_answer_portion(const feed_answer* answer, size_t index, double* wet_kg,
                              const char** label, feed_error* error) {
    if (label != nullptr) *label = nullptr;
    if (wet_kg == nullptr) return null_argument(error, "wet_kg");
    *wet_kg = not_a_number;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (answer == nullptr) return null_argument(error, "answer");
    if (index >= answer->content->portions.size()) return bad_index(error, "index");
    *wet_kg = answer->content->portions[index].wet_mass.in_kilograms();
    if (label != nullptr) *label = pick_label(answer, index);
    return succeed(error);
}

feed_code feed_answer_reached(const feed_answer* answer, size_t index, feed_reached* out,
                              feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_reached> filled(out, nothing_reached);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (answer == nullptr) return null_argument(error, "answer");
    if (index >= answer->content->reached.size()) return bad_index(error, "index");
    const feed::Reached& reached = answer->content->reached[index];
    filled->property = static_cast<int32_t>(reached.target.property);
    filled->inside = reached.inside ? 1 : 0;
    filled->binding = reached.binding ? 1 : 0;
    filled->low = or_nan(reached.target.low);
    filled->high = or_nan(reached.target.high);
    filled->aim = or_nan(reached.target.aim);
    filled->quantity = plain(reached.quantity);
    filled->label = reached.target.label.c_str();
    return succeed(error);
}

feed_code feed_answer_conflict(const feed_answer* answer, size_t index, const char** label,
                               feed_error* error) {
    return give_sentence(answer, "answer", conflict_of, index, label, "label", error);
}

feed_code feed_answer_assumption(const feed_answer* answer, size_t index, const char** sentence,
                                 feed_error* error) {
    return give_sentence(answer, "answer", assumptions_of, index, sentence, "sentence", error);
}

feed_code feed_answer_advice_count(const feed_answer* answer, size_t* count, feed_error* error) {
    return give_count(answer, "answer", advice_of, count, error);
}

feed_code feed_answer_advice(const feed_answer* answer, size_t index, const char** sentence,
                             feed_error* error) {
    return give_sentence(answer, "answer", advice_of, index, sentence, "sentence", error);
}

feed_code feed_answer_blend(const feed_answer* answer, feed_blend_properties* out,
                            feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_blend_properties> filled(out, no_blend);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (answer == nullptr) return null_argument(error, "answer");
    fill(*filled, answer->content->properties);
    return succeed(error);
}

void feed_answer_free(feed_answer* answer) {
    free_handle(answer);
}

}  // extern "C"
