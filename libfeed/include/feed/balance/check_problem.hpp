#pragma once
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

#include "feed/balance/balance_problem.hpp"
#include "feed/balance/target_kind.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed {

/// What an entry is called in answers: the keeper's words, else the name of the feedstock.
inline std::string said_name(const Entry& entry) {
    if (!entry.label.empty()) return entry.label;
    return entry.feedstock ? entry.feedstock->name : std::string("an entry without a feedstock");
}

/// What a target is called in answers: the keeper's words, else the name of the property.
inline std::string said_name(const Target& target) {
    return target.label.empty() ? std::string(kind(target.property).name) : target.label;
}

namespace detail {

/// Collects everything wrong with a problem.
class ProblemChecker {
public:
    explicit ProblemChecker(const BalanceProblem& problem) : problem_(problem) {}

    Errors all() {
        if (problem_.entries.empty()) {
            add(ErrorCode::empty, "balance", "no entries", "at least one feedstock",
                "nothing is at hand: list at least one feedstock");
        }
        for (const auto& entry : problem_.entries)
            check(entry);
        for (std::size_t i = 0; i < problem_.targets.size(); ++i)
            check(problem_.targets[i], i);
        check_objective();
        if (errors_.empty() && !fixes_a_scale()) {
            add(ErrorCode::no_amount_fixed, "balance", "no amount",
                "an exact amount, a lower limit or a total",
                "no amount is fixed, so any multiple of an answer would do: say how much there is "
                "of one feedstock, or how much the whole shall be");
        }
        return std::move(errors_);
    }

private:
    void add(ErrorCode code, std::string field, std::string value, std::string allowed,
             std::string message) {
        errors_.push_back(make_error(code, std::move(field), std::move(value), std::move(allowed),
                                     std::move(message)));
    }

    static std::string in_kg(double number) { return significant(number, 4) + " kg"; }

    void check_amount(const std::string& field, double kilograms) {
        if (!std::isfinite(kilograms)) {
            add(ErrorCode::not_a_number, field, "not a finite number", "a mass of 0 kg or more",
                field + " is not a finite number");
        } else if (kilograms < 0.0 || kilograms > heaviest_kg) {
            add(ErrorCode::out_of_range, field, in_kg(kilograms), "0 kg to 1000000000 kg",
                field + " is " + in_kg(kilograms) + ", outside what can be at hand");
        }
    }

    void check(const Entry& entry) {
        const std::string name = said_name(entry);
        if (!entry.feedstock) {
            add(ErrorCode::bad_argument, name, "nothing", "a feedstock",
                "the entry names no feedstock");
            return;
        }
        check_amount("least of " + name, entry.least.in_kilograms());
        if (entry.most) check_amount("most of " + name, entry.most->in_kilograms());
        if (entry.usual) check_amount("usual amount of " + name, entry.usual->in_kilograms());
        if (entry.most && entry.least > *entry.most) {
            add(ErrorCode::low_above_high, "amount of " + name,
                in_kg(entry.least.in_kilograms()) + " to " + in_kg(entry.most->in_kilograms()),
                "a lower limit at or below the upper one",
                "at least " + in_kg(entry.least.in_kilograms()) + " and at most " +
                    in_kg(entry.most->in_kilograms()) + " of " + name + " contradict each other");
        }
        if (entry.use_up_priority < 0) {
            add(ErrorCode::out_of_range, "priority of " + name,
                std::to_string(entry.use_up_priority), "0 (none), 1 (first), 2 ...",
                "the priority of " + name + " is below zero");
        }
        if (entry.cost_per_wet_kg && !std::isfinite(*entry.cost_per_wet_kg)) {
            add(ErrorCode::not_a_number, "cost of " + name, "not a finite number",
                "a number for each kilogram", "the cost of " + name + " is not a finite number");
        }
    }

    void check_number(const std::string& field, const TargetKind& facts, double number) {
        if (!std::isfinite(number)) {
            add(ErrorCode::not_a_number, field, "not a finite number", std::string(facts.unit),
                field + " is not a finite number");
            return;
        }
        if (number >= facts.lowest && number <= facts.highest) return;
        const bool slip = facts.is_fraction && number > 1.0 && number <= 100.0;
        const std::string allowed = significant(facts.lowest, 3) + " to " +
                                    significant(facts.highest, 3) + " " + std::string(facts.unit);
        std::string message = field + " is " + significant(number, 4) + ", allowed is " + allowed;
        if (slip) {
            message += "; if " + significant(number, 4) + " % is meant, write " +
                       significant(number / 100.0, 4);
        }
        add(slip ? ErrorCode::percent_slip : ErrorCode::out_of_range, field,
            significant(number, 4) + " " + std::string(facts.unit), allowed, std::move(message));
    }

    void check(const Target& target, std::size_t index) {
        const auto& facts = kind(target.property);
        const std::string name = said_name(target);
        if (!target.low && !target.high && !target.aim) {
            add(ErrorCode::empty, name, "nothing", "a lower limit, an upper limit or an aim",
                "the target for " + name + " has neither limits nor an aim");
        }
        if (target.low) check_number("lower limit of " + name, facts, *target.low);
        if (target.high) check_number("upper limit of " + name, facts, *target.high);
        if (target.aim) check_number("aim of " + name, facts, *target.aim);
        if (target.low && target.high && *target.low > *target.high) {
            add(ErrorCode::low_above_high, name,
                significant(*target.low, 4) + " to " + significant(*target.high, 4),
                "a lower limit at or below the upper one",
                "the window for " + name + " starts above its end");
        } else if (target.aim && ((target.low && *target.aim < *target.low) ||
                                  (target.high && *target.aim > *target.high))) {
            add(ErrorCode::out_of_range, "aim of " + name, significant(*target.aim, 4),
                "a number inside the window", "the aim of " + name + " lies outside its window");
        }
        if (target.wish_low) check_number("lower wish of " + name, facts, *target.wish_low);
        if (target.wish_high) check_number("upper wish of " + name, facts, *target.wish_high);
        if (target.wish_low && target.wish_high && *target.wish_low > *target.wish_high)
            add(ErrorCode::low_above_high, name,
                significant(*target.wish_low, 4) + " to " + significant(*target.wish_high, 4),
                "a lower wish at or below the upper one",
                "the wish for " + name + " starts above its end");
        if (limits_water(target.property) && (target.low || target.aim)) {
            add(ErrorCode::out_of_range, name, "a lower limit or an aim", "an upper limit",
                std::string(facts.name) + " can only be limited, not asked for");
        }
        for (std::size_t i = 0; i < index; ++i) {
            if (problem_.targets[i].property != target.property) continue;
            add(ErrorCode::duplicate_entry, name, std::string(facts.key), "one target a property",
                "there are two targets for " + std::string(facts.name) + ": " +
                    said_name(problem_.targets[i]) + " and " + name);
            break;
        }
    }

    void check_objective() {
        bool any_cost = false;
        bool any_usual = false;
        for (const auto& entry : problem_.entries) {
            any_cost = any_cost || entry.cost_per_wet_kg.has_value();
            any_usual = any_usual || (entry.usual && entry.usual->in_kilograms() > 0.0);
        }
        if (problem_.objective == Objective::cheapest && !any_cost) {
            add(ErrorCode::missing_value, "cost", "none", "a cost for each kilogram",
                "the cheapest blend is asked for, but no entry has a cost");
        }
        if (problem_.objective == Objective::closest_to_usual && !any_usual) {
            add(ErrorCode::missing_value, "usual amount", "none", "an amount above 0 kg",
                "the blend closest to the usual recipe is asked for, but no entry has a usual "
                "amount");
        }
    }

    /// Every window is homogeneous: without a scale each multiple of an answer is one too.
    bool fixes_a_scale() const {
        bool limited_total = false;
        for (const auto& target : problem_.targets) {
            if (!fixes_amount(target.property)) continue;
            if (target.low && *target.low > 0.0) return true;
            if (target.aim && *target.aim > 0.0 && problem_.objective == Objective::closest_to_aims)
                return true;
            limited_total = limited_total || target.high.has_value();
        }
        for (const auto& entry : problem_.entries) {
            if (entry.least.in_kilograms() > 0.0) return true;
            if (problem_.objective == Objective::closest_to_usual && entry.usual &&
                entry.usual->in_kilograms() > 0.0)
                return true;
            const bool used_up =
                entry.use_up_priority > 0 || problem_.objective == Objective::use_up_most;
            if (used_up && (entry.most || limited_total)) return true;
        }
        return false;
    }

    static constexpr double heaviest_kg = 1e9;
    const BalanceProblem& problem_;
    Errors errors_;
};

}  // namespace detail

/// Everything wrong with a problem, in its own order, all at once; empty when it can be solved.
/// Linear in entries, quadratic in targets. Threads: pure.
inline Errors check_problem(const BalanceProblem& problem) {
    return detail::ProblemChecker(problem).all();
}

}  // namespace feed
