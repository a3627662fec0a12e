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
const auto& assumed_of(const feed_answer& answer) {
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
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        *out = make_handle<feed_problem>(allocator, feed::BalanceProblem{});
        return succeed(error);
    });
}

feed_code feed_problem_add_entry(feed_problem* problem, const feed_entry* entry,
                                 feed_error* error) {
    if (problem == nullptr) return null_argument(error, "problem");
    if (!has_room(entry)) return no_room(error, entry, "entry");
    if (entry->feedstock == nullptr) return null_argument(error, "entry.feedstock");
    if (const feed_code code = check_text(error, "entry.label", entry->label)) return code;
    return guarded(error, [&] {
        feed::Entry added;
        added.feedstock = entry->feedstock->content;
        added.label = entry->label != nullptr ? entry->label : added.feedstock->name;
        if (!std::isfinite(entry->least_wet_kg)) {
            return fail(error, FEED_NOT_A_NUMBER, "entry.least_wet_kg", "not a number",
                        "at least 0 kg", "the amount must be a finite number");
        }
        if (entry->least_wet_kg < 0.0) {
            return below_zero(error, "entry.least_wet_kg", entry->least_wet_kg, " kg");
        }
        std::optional<double> most;
        std::optional<double> usual;
        if (!read_optional(entry->most_wet_kg, most)) return not_finite(error, "entry.most_wet_kg");
        if (!read_optional(entry->usual_wet_kg, usual)) {
            return not_finite(error, "entry.usual_wet_kg");
        }
        if (!read_optional(entry->cost_per_wet_kg, added.cost_per_wet_kg)) {
            return not_finite(error, "entry.cost_per_wet_kg");
        }
        for (const auto& [field, kg] :
             {std::pair("entry.least_wet_kg", std::optional(entry->least_wet_kg)),
              std::pair("entry.most_wet_kg", most), std::pair("entry.usual_wet_kg", usual)}) {
            if (!kg || *kg == 0.0) continue;
            if (*kg > most_portion_kg || (*kg > 0.0 && *kg < least_portion_kg)) {
                return fail(error, FEED_OUT_OF_RANGE, field, feed::significant(*kg, 6) + " kg",
                            "0, or " + std::string(portion_range),
                            "nobody feeds or weighs such an amount");
            }
        }
        if (most && *most < entry->least_wet_kg) {
            return fail(error, FEED_LOW_ABOVE_HIGH, "entry.most_wet_kg",
                        feed::significant(*most, 6) + " kg",
                        "at least " + feed::significant(entry->least_wet_kg, 6) + " kg",
                        "the upper amount is below the lower one");
        }
        if (usual && *usual < 0.0) return below_zero(error, "entry.usual_wet_kg", *usual, " kg");
        if (entry->use_up_priority < 0) {
            return below_zero(error, "entry.use_up_priority", entry->use_up_priority, "");
        }
        added.least = feed::wet_kilograms(entry->least_wet_kg);
        if (most) added.most = feed::wet_kilograms(*most);
        if (usual) added.usual = feed::wet_kilograms(*usual);
        added.use_up_priority = entry->use_up_priority;
        problem->content.entries.push_back(std::move(added));
        return succeed(error);
    });
}

feed_code feed_problem_set_target(feed_problem* problem, const feed_target* target,
                                  feed_error* error) {
    if (problem == nullptr) return null_argument(error, "problem");
    if (!has_room(target)) return no_room(error, target, "target");
    if (target->property < 0 || target->property > FEED_TARGET_WATER_OVER_ROOM) {
        return fail(error, FEED_UNKNOWN_PROPERTY, "target.property",
                    std::to_string(target->property), "a FEED_TARGET_ enumerator",
                    "there is no such target property");
    }
    if (const feed_code code = check_text(error, "target.label", target->label)) return code;
    if (const feed_code code = check_text(error, "target.source", target->source)) return code;
    return guarded(error, [&] {
        feed::Target added;
        added.property = static_cast<feed::TargetProperty>(target->property);
        if (!read_optional(target->low, added.low)) return not_finite(error, "target.low");
        if (!read_optional(target->high, added.high)) return not_finite(error, "target.high");
        if (!read_optional(target->aim, added.aim)) return not_finite(error, "target.aim");
        if (added.low && added.high && *added.low > *added.high) {
            return fail(error, FEED_LOW_ABOVE_HIGH, "target.high",
                        feed::significant(*added.high, 6),
                        "at least " + feed::significant(*added.low, 6),
                        "the window's upper end is below its lower end");
        }
        if (target->label != nullptr) added.label = target->label;
        if (target->source != nullptr) added.source = target->source;
        set_target(problem->content.targets, std::move(added));
        return succeed(error);
    });
}

feed_code feed_problem_use_target_set(feed_problem* problem, int32_t target_set,
                                      feed_error* error) {
    if (problem == nullptr) return null_argument(error, "problem");
    if (target_set != FEED_TARGETS_WORM_BED && target_set != FEED_TARGETS_HOT_HEAP) {
        return bad_index(error, "target_set");
    }
    return guarded(error, [&] {
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
    if (problem == nullptr) return null_argument(error, "problem");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        auto answer = feed::balance(problem->content);
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
    clear(*out);
    if (answer == nullptr) return null_argument(error, "answer");
    const feed::BalanceAnswer& content = *answer->content;
    out->status = static_cast<int32_t>(content.status);
    out->grade = static_cast<int32_t>(content.grade);
    out->has_mend = content.mend ? 1 : 0;
    out->portion_count = content.portions.size();
    out->reached_count = content.reached.size();
    out->conflict_count = content.conflict.size();
    out->assumption_count = content.assumed.size();
    out->mend_add_wet_kg = content.mend ? content.mend->add.in_kilograms() : not_a_number;
    out->mend_label = content.mend ? content.mend->label.c_str() : "";
    out->unbounded_label = content.unbounded_entry.c_str();
    return succeed(error);
}

feed_code feed_answer_portion(const feed_answer* answer, size_t index, double* wet_kg,
                              const char** label, feed_error* error) {
    if (label != nullptr) *label = nullptr;
    if (wet_kg == nullptr) return null_argument(error, "wet_kg");
    *wet_kg = not_a_number;
    if (answer == nullptr) return null_argument(error, "answer");
    if (index >= answer->content->portions.size()) return bad_index(error, "index");
    *wet_kg = answer->content->portions[index].wet_mass.in_kilograms();
    if (label != nullptr) *label = pick_label(answer, index);
    return succeed(error);
}

feed_code feed_answer_reached(const feed_answer* answer, size_t index, feed_reached* out,
                              feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    clear(*out);
    if (answer == nullptr) return null_argument(error, "answer");
    if (index >= answer->content->reached.size()) return bad_index(error, "index");
    const feed::Reached& reached = answer->content->reached[index];
    out->property = static_cast<int32_t>(reached.target.property);
    out->inside = reached.inside ? 1 : 0;
    out->binding = reached.binding ? 1 : 0;
    out->low = or_nan(reached.target.low);
    out->high = or_nan(reached.target.high);
    out->aim = or_nan(reached.target.aim);
    out->quantity = plain(reached.quantity);
    out->label = reached.target.label.c_str();
    return succeed(error);
}

feed_code feed_answer_conflict(const feed_answer* answer, size_t index, const char** label,
                               feed_error* error) {
    return give_sentence(answer, "answer", conflict_of, index, label, "label", error);
}

feed_code feed_answer_assumption(const feed_answer* answer, size_t index, const char** sentence,
                                 feed_error* error) {
    return give_sentence(answer, "answer", assumed_of, index, sentence, "sentence", error);
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
    clear(*out);
    if (answer == nullptr) return null_argument(error, "answer");
    fill(*out, answer->content->properties);
    return succeed(error);
}

void feed_answer_free(feed_answer* answer) {
    free_handle(answer);
}

}  // extern "C"
