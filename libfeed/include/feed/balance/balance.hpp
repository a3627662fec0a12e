#pragma once
#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "feed/balance/advice.hpp"
#include "feed/balance/balance_answer.hpp"
#include "feed/balance/closest.hpp"
#include "feed/balance/conflict.hpp"
#include "feed/balance/mend.hpp"
#include "feed/balance/prepared_balance.hpp"
#include "feed/balance/reached.hpp"
#include "feed/balance/remarks.hpp"
#include "feed/balance/solve_prepared.hpp"
#include "feed/balance/wetness.hpp"
#include "feed/blend/blend.hpp"

namespace feed {

namespace detail {

inline void add_assumption(std::vector<Assumption>& assumed, Assumption more) {
    for (const auto& known : assumed) {
        if (known.text == more.text) return;
    }
    assumed.push_back(std::move(more));
}

/// Fills in portions, what they reach, what was assumed and the grade.
inline void describe(const PreparedBalance& prepared, std::span<const double> wet_kg,
                     const BalanceNumbers& numbers, const RatioRows& ratios,
                     std::span<const double> deciding, BalanceAnswer& answer) {
    std::vector<double> kept;
    for (std::size_t i = 0; i < wet_kg.size(); ++i) {
        // The check allows a relative 1e-9; what is poured is not less than nothing.
        const double mass = std::clamp(wet_kg[i], prepared.lower[i], prepared.upper[i]);
        kept.push_back(mass);
        answer.portions.push_back({prepared.problem.entries[i].feedstock, wet_kilograms(mass)});
    }
    answer.properties = blend(answer.portions);
    answer.reached = reached_of(prepared, kept, numbers, ratios, deciding, answer.properties);
    answer.remarks = remarks_on(answer.reached);
    answer.wetness = wetness_of(answer.portions);
    answer.grade = Grade::a;
    for (const auto& reached : answer.reached) {
        if (reached.quantity.has_value())
            answer.grade = worst(answer.grade, reached.quantity.grade);
    }
    for (const auto& assumption : answer.properties.assumed)
        add_assumption(answer.assumed, assumption);
    for (const auto& assumption : answer.assumed)
        answer.grade = worst(answer.grade, assumption.grade);
}

inline bool all_inside(const BalanceAnswer& answer) {
    return std::all_of(answer.reached.begin(), answer.reached.end(), [](const Reached& reached) {
        return reached.inside || !reached.quantity.has_value();
    });
}

/// Nothing barred goes in; checked on the answer as it leaves.
inline bool bars_hold(const PreparedBalance& prepared, const BalanceAnswer& answer) {
    return std::none_of(answer.portions.begin(), answer.portions.end(), [&](const Portion& one) {
        return one.wet_mass.in_kilograms() > 0.0 &&
               barred_in(*one.feedstock, prepared.problem.place);
    });
}

/// Names the conflict of a problem; false where there is none.
inline bool name_conflict(const PreparedBalance& prepared, BalanceAnswer& answer) {
    const auto conflict = find_conflict(prepared);
    for (const std::size_t i : conflict.entries)
        answer.conflict.push_back(prepared.problem.entries[i].label);
    for (const std::size_t i : conflict.targets)
        answer.conflict.push_back(prepared.problem.targets[i].label);
    return conflict.found;
}

inline void describe_closest(const PreparedBalance& prepared, BalanceAnswer& answer) {
    const auto closest = closest_blend(prepared);
    if (closest.found) {
        answer.largest_deviation = closest.largest_deviation;
        if (closest.at_heaviest) {
            add_assumption(answer.assumed,
                           {"the closest blend is held to " + significant(closest_heaviest, 2) +
                                " times the amount that is fixed: more would come nearer still",
                            Grade::d});
        }
        describe(prepared, closest.wet_kg, {}, closest.ratios, closest.deciding, answer);
        answer.advice = advice_for(prepared, closest.wet_kg);
    }
}

/// The problem without the limits on water: they give way before any other target, and take part in
/// a conflict only where nothing else does.
inline Result<PreparedBalance> without_water_limit(const PreparedBalance& prepared) {
    if (!prepared.poured_row && !prepared.room_row) return prepared;
    BalanceProblem problem = prepared.problem;
    std::erase_if(problem.targets,
                  [](const Target& target) { return limits_water(target.property); });
    return prepare(std::move(problem));
}

/// The problem with every wish as a must and the least added as its objective; nothing where no
/// target has a wish, or what grows is what a keeper wants gone.
inline std::optional<BalanceProblem> least_within_wishes(const PreparedBalance& prepared,
                                                         std::span<const double> ray) {
    BalanceProblem problem = prepared.problem;
    if (problem.objective != Objective::closest_to_aims) return std::nullopt;
    for (std::size_t i = 0; i < ray.size(); ++i) {
        if (ray[i] > 0.0 && problem.entries[i].use_up_priority > 0) return std::nullopt;
    }
    bool any = false;
    for (Target& target : problem.targets) {
        any = any || target.wish_low || target.wish_high;
        if (target.wish_low) target.low = target.wish_low;
        if (target.wish_high) target.high = target.wish_high;
        target.aim = std::nullopt;
    }
    if (!any) return std::nullopt;
    problem.objective = Objective::least_added;
    return problem;
}

/// The largest deviation from the aims of some masses.
inline double deviation_at(const RatioRows& ratios, std::span<const double> wet_kg) {
    double largest = 0.0;
    for (std::size_t k = 0; k < ratios.count(); ++k) {
        double above = ratios.numerator_constants[k];
        double below = ratios.denominator_constants[k];
        for (std::size_t i = 0; i < wet_kg.size(); ++i) {
            above += ratios.numerators[k * wet_kg.size() + i] * wet_kg[i];
            below += ratios.denominators[k * wet_kg.size() + i] * wet_kg[i];
        }
        if (below > 0.0) largest = std::max(largest, above / below);
    }
    return largest;
}

/// Whether growth without end is what a keeper asked of an entry rather than what follows from it.
inline bool wanted(const Entry& entry, Objective objective) {
    return entry.use_up_priority > 0 ||
           (objective == Objective::use_up_most && !is_plain_water(*entry.feedstock));
}

/// The entry that grows without an upper limit: of those that are to be used up if one of them
/// does, else of all, the one that grows fastest; the first of several.
inline std::string endless_entry(const PreparedBalance& prepared, std::span<const double> ray) {
    const auto& problem = prepared.problem;
    const auto before = [&](std::size_t a, std::size_t b) {
        const bool a_wanted = wanted(problem.entries[a], problem.objective);
        const bool b_wanted = wanted(problem.entries[b], problem.objective);
        return a_wanted == b_wanted ? ray[a] > ray[b] : a_wanted;
    };
    std::size_t best = ray.size();
    for (std::size_t i = 0; i < ray.size(); ++i) {
        if (ray[i] > 0.0 && (best == ray.size() || before(i, best))) best = i;
    }
    return best < ray.size() ? problem.entries[best].label : std::string();
}

inline void describe_solved(const PreparedBalance& prepared, const BalanceNumbers& numbers,
                            BalanceAnswer& answer) {
    answer.status = BalanceStatus::solved;
    answer.largest_deviation = numbers.largest_deviation;
    describe(prepared, numbers.wet_kg, numbers, prepared.from_aims, numbers.deciding, answer);
    if (!all_inside(answer) || !bars_hold(prepared, answer)) answer.status = BalanceStatus::failed;
}

/// Where the aims are only approached by ever more of something, the least that holds every wish
/// is the answer; where no amounts hold them all, the least that holds the musts.
inline bool describe_least(const PreparedBalance& prepared, std::span<const double> ray,
                           BalanceAnswer& answer) {
    auto problem = least_within_wishes(prepared, ray);
    if (!problem) return false;
    const std::string more = endless_entry(prepared, ray);
    for (const bool wishes : {true, false}) {
        if (!wishes) {
            problem->targets = prepared.problem.targets;
            for (Target& target : problem->targets)
                target.aim = std::nullopt;
        }
        const auto least = prepare(*problem);
        if (!least) return false;
        BalanceWorkspace workspace(*least);
        auto numbers = solve(*least, workspace);
        if (numbers.status != BalanceStatus::solved) continue;
        numbers.largest_deviation = deviation_at(prepared.from_aims, numbers.wet_kg);
        numbers.deciding = {};
        add_assumption(answer.assumed, {"ever more " + more +
                                            " would come nearer to the aims: this is the least "
                                            "that holds what is asked",
                                        Grade::d});
        describe_solved(prepared, numbers, answer);
        return true;
    }
    return false;
}

/// The answer where nothing that fixes an amount is left once what is barred is taken out.
inline std::optional<BalanceAnswer> only_taken_out(BalanceProblem problem, const Errors& errors) {
    if (errors.size() != 1 || errors.front().code != ErrorCode::no_amount_fixed)
        return std::nullopt;
    if (!check_problem(problem).empty()) return std::nullopt;
    BalanceAnswer answer;
    answer.status = BalanceStatus::infeasible;
    answer.take_out = take_out_barred(problem);
    if (answer.take_out.empty()) return std::nullopt;
    for (const auto& entry : problem.entries)
        answer.portions.push_back({entry.feedstock, WetMass()});
    return answer;
}

}  // namespace detail

/// The answer of a prepared balance, with everything a keeper is told.
/// workspace: at least as large as the preparation needs. Threads: any number, each with its own
/// workspace; the preparation may be shared.
inline BalanceAnswer answer_of(const PreparedBalance& prepared, BalanceWorkspace& workspace) {
    BalanceAnswer answer;
    answer.assumed = prepared.assumed;
    answer.take_out = prepared.take_out;
    const auto numbers = solve(prepared, workspace);
    answer.status = numbers.status;
    switch (numbers.status) {
        case BalanceStatus::solved:
            detail::describe_solved(prepared, numbers, answer);
            break;
        case BalanceStatus::infeasible:
            if (const auto dry = detail::without_water_limit(prepared);
                dry && detail::name_conflict(*dry, answer)) {
                detail::describe_closest(*dry, answer);
            } else {
                detail::name_conflict(prepared, answer);
                detail::describe_closest(prepared, answer);
            }
            answer.mend = find_mend(prepared);
            break;
        case BalanceStatus::unbounded:
            if (detail::describe_least(prepared, numbers.ray, answer)) break;
            answer.unbounded_entry = detail::endless_entry(prepared, numbers.ray);
            break;
        case BalanceStatus::failed:
            break;
    }
    return answer;
}

/// Finds how much of each entry to take so that all targets are met, best by the objective of the
/// problem; the answer is unique: ties go to the least mass, then to the order of the entries.
/// @return the answer, whatever its status; or every problem of the input at once: no entries, an
/// amount or window that contradicts itself, a per cent slip, no amount fixed, a value that a
/// target needs and a feedstock lacks. What is barred in the place of the problem is taken out and
/// stands in `take_out`; where nothing else fixes an amount the answer is infeasible with that
/// alone. Entries may be listed in any number; made for up to about 60, works to 500. Threads:
/// pure.
inline Result<BalanceAnswer> balance(const BalanceProblem& problem) {
    const auto prepared = prepare(problem);
    if (!prepared) {
        auto only = detail::only_taken_out(problem, prepared.errors());
        if (only) return *only;
        return prepared.errors();
    }
    BalanceWorkspace workspace(*prepared);
    return answer_of(*prepared, workspace);
}

}  // namespace feed
