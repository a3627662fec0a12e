#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "feed/ration/plan_solver.hpp"

// The plan of a ration: the problem's answer, rounded as printed and judged again as printed.
namespace feed {

/// A plan: kg of each thing, and of water.
struct Plan {
    bool found = false;
    std::vector<double> kg;
    double unrounded_kg = 0.0;  ///< scraps before anything was rounded: decides whether to feed
    double water_kg = 0.0;
    Load load;
    HazardNumbers after;
    /// How much more scraps there would be for each unit by which a row's limit is raised.
    std::array<double, detail::hazard_row_count> pull{};
    bool by_cap_of_worms = false;  ///< the most the worms may have decides
    bool by_heat = false;          ///< more would make its pocket too warm
    bool by_room = false;
    bool by_bedding = false;           ///< there is not enough of it
    std::vector<bool> capped_by_kind;  ///< things of a kind of which there is as much as may be
};

/// Smallest portion of one thing that is worth laying, and of all scraps together (judgement).
inline constexpr double least_portion_kg = limits::least_portion.value;
inline constexpr double least_ration_kg = limits::least_ration.value;

namespace detail {

/// A mass of scraps rounded down to what a keeper measures: a half of a counted unit, a quarter of
/// a vessel, else two figures; all of it where all goes in.
inline double rounded_scraps(const ThingAtHand& thing, double kg, UnitSystem units) {
    if (thing.most && kg >= thing.most->in_kilograms() * (1.0 - 1e-9))
        return thing.most->in_kilograms();
    if (thing.amount && thing.amount->kind != AmountKind::mass && thing.amount->count > 0.0 &&
        thing.most) {
        const double unit_kg = thing.most->in_kilograms() / thing.amount->count;
        const double steps = thing.amount->kind == AmountKind::volume ? 4.0 : 2.0;
        const double counted = std::floor(kg / unit_kg * steps + 1e-9) / steps;
        if (counted > 0.0) return counted * unit_kg;
    }
    return rounded_mass(kg, false, units);
}

/// Makes a plan: solves, leaves out what is too little to lay, rounds as printed, judges as
/// printed.
class PlanMaker {
public:
    explicit PlanMaker(const PlanProblem& problem) : p_(problem), solver_(problem) {}

    Plan make() {
        // Rounding may shift what was balanced: then a little of what is free stays free.
        constexpr std::array<double, 6> margins{0.0, 0.03, 0.06, 0.12, 0.25, 0.5};
        std::size_t margin = 0;
        double too_hot_kg = solver::infinity;
        Plan plan;
        for (int attempt = 0; attempt < 18 && margin < margins.size(); ++attempt) {
            plan = attempt_with(margins[margin]);
            if (plan.kg.empty()) return plan;
            if (plan.found) return refined(std::move(plan), too_hot_kg, margins[margin]);
            if (is_heated(plan)) {
                too_hot_kg = plan.load.labile_kg.value;
                most_labile_kg_ = 0.75 * too_hot_kg;
            } else {
                ++margin;
            }
        }
        plan.by_heat = plan.by_heat || is_heated(plan);
        return plan;
    }

private:
    [[nodiscard]] bool is_heated(const Plan& plan) const {
        return plan.after[Hazard::hot].level > p_.idle[Hazard::hot].level;
    }

    /// Heat is no line: between what was too hot and what is not lies more.
    Plan refined(Plan plan, double too_hot_kg, double margin) {
        for (int halving = 0; halving < 3 && too_hot_kg < solver::infinity; ++halving) {
            most_labile_kg_ = 0.5 * (plan.load.labile_kg.value + too_hot_kg);
            Plan more = attempt_with(margin);
            if (!more.found)
                too_hot_kg = most_labile_kg_;
            else if (more.load.scraps_wet_kg > plan.load.scraps_wet_kg)
                plan = std::move(more);
        }
        return plan;
    }

    /// The most by all limits, without what is too little to lay. A thing is left out only where
    /// that costs next to nothing: a little of it may be what lets the rest go in.
    std::optional<std::vector<double>> solved(double margin, double& most_kg) {
        constexpr double least_kept = 0.95;
        solver_.use_all();
        auto x = solver_.solve(margin, most_labile_kg_, pull_);
        if (!x) return x;
        most_kg = solver_.scraps_in(*x);
        std::vector<bool> stays(p_.things.size(), false);
        while (const auto little = least_of_too_little(*x, stays)) {
            solver_.use(*little, false);
            auto without = solver_.solve(margin, most_labile_kg_, pull_);
            if (without && solver_.scraps_in(*without) >= least_kept * most_kg) {
                x = std::move(without);
            } else {
                solver_.use(*little, true);
                stays[*little] = true;
            }
        }
        return x;
    }

    [[nodiscard]] std::optional<std::size_t> least_of_too_little(
        std::span<const double> kg, const std::vector<bool>& stays) const {
        std::optional<std::size_t> least;
        for (std::size_t j = 0; j < p_.things.size(); ++j) {
            if (stays[j] || !solver_.is(j, Part::scraps) || !(kg[j] > 0.0)) continue;
            const auto& most = p_.things[j].most;
            const bool whole = most && kg[j] >= most->in_kilograms() * (1.0 - 1e-9);
            // A capped thing goes in up to its cap, however little that is.
            const bool capped = kg[j] >= 0.9 * p_.caps[j].left_kg();
            if (whole || capped || kg[j] >= least_portion_kg) continue;
            if (!least || kg[j] < kg[*least]) least = j;
        }
        return least;
    }

    [[nodiscard]] double rounded(std::size_t j, double kg) const {
        if (kg < 1e-4) return 0.0;
        const ThingAtHand& thing = p_.things[j];
        // Bedding is rounded up, but never past a cap.
        const bool up = solver_.is(j, Part::bedding) && !p_.caps[j].holds();
        const double printed = solver_.is(j, Part::scraps) ? rounded_scraps(thing, kg, p_.units)
                                                           : rounded_mass(kg, up, p_.units);
        return thing.most ? std::min(printed, thing.most->in_kilograms()) : printed;
    }

    Plan attempt_with(double margin) {
        Plan plan;
        double most_kg = 0.0;
        const auto x = solved(margin, most_kg);
        if (!x) return plan;
        plan.unrounded_kg = most_kg / (1.0 - margin);
        for (std::size_t j = 0; j < p_.things.size(); ++j)
            plan.kg.push_back(rounded(j, (*x)[j]));
        plan.water_kg = rounded_water((*x)[p_.things.size()], p_.units);
        plan.load = solver_.load_of_plan(plan.kg, plan.water_kg);
        plan.after = hazard_numbers(p_.place, plan.load);
        plan.pull = pull_;
        plan.by_cap_of_worms = solver_.worms_decide();
        plan.by_heat = solver_.heat_decides();
        plan.by_room = solver_.room_decides();
        plan.by_bedding = solver_.bedding_decides();
        plan.capped_by_kind = solver_.capped_by_kind();
        plan.found = plan.load.scraps_wet_kg > 0.0 && raises_nothing(p_.idle, plan.after);
        return plan;
    }

    const PlanProblem& p_;
    PlanSolver solver_;
    std::array<double, hazard_row_count> pull_{};
    double most_labile_kg_ = solver::infinity;
};

}  // namespace detail

/// The most that may go in by the aims in their order, rounded as printed and judged as printed.
/// Not found where nothing is worth laying. Time: some linear problems of the size of the list.
inline Plan make_plan(const PlanProblem& problem) {
    return detail::PlanMaker(problem).make();
}

}  // namespace feed
