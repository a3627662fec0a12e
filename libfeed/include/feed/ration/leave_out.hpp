#pragma once
#include <algorithm>
#include <cstddef>
#include <numeric>
#include <optional>
#include <utility>
#include <vector>

#include "feed/feedstock/plain_name.hpp"
#include "feed/ration/caps.hpp"
#include "feed/ration/plan.hpp"
#include "feed/ration/without_food.hpp"
#include "feed/ration/work.hpp"

// What the caps of touchy materials leave of what is at hand, and what is left out for them.
namespace feed::detail {

/// What these worms may have of a thing in a week, and what went in: of it, or of its kind.
inline Reason cap_reason(const ThingAtHand& thing, const PlanProblem& problem, std::size_t j) {
    const WeekCap& cap = problem.caps[j];
    Reason reason{ReasonKind::cap, Hazard::overfed, thing.name(), cap.week_kg};
    reason.given = cap.given_kg;
    for (std::size_t kind = 0; kind < capped_together.size(); ++kind) {
        if (!thing.feedstock->has(capped_together[kind])) continue;
        const double of_kind = problem.given_of_kind[kind] * cap.week_kg;
        if (of_kind <= reason.given + 0.001) continue;
        reason.given = of_kind;
        reason.with_its_kind = true;
    }
    return reason;
}

/// What there is of a thing, kg; of what may be had as wanted more than any bed takes.
inline double most_there_kg(const ThingAtHand& thing) noexcept {
    return thing.most ? thing.most->in_kilograms() : 1e3;
}

/// What of these amounts the caps of their kinds let in together, kg: where those of one kind are
/// more, all of that kind shrink alike.
/// @param kg     of each thing, by its own cap; 0 for what is no scraps.
/// @param given  of each kind what went in already.
inline double allowed_by_kinds(const RationWork& work, const PlanProblem& problem,
                               std::vector<double> kg, const KindShares& given) {
    for (std::size_t kind = 0; kind < capped_together.size(); ++kind) {
        double share = 0.0;
        const auto of_kind = [&](std::size_t j) {
            return problem.caps[j].holds() && work.things[j].feedstock->has(capped_together[kind]);
        };
        for (std::size_t j = 0; j < kg.size(); ++j)
            if (of_kind(j)) share += kg[j] / problem.caps[j].week_kg;
        const double left = std::max(0.0, 1.0 - given[kind]);
        if (share <= left) continue;
        for (std::size_t j = 0; j < kg.size(); ++j)
            if (of_kind(j)) kg[j] *= left / share;
    }
    return std::accumulate(kg.begin(), kg.end(), 0.0);
}

/// Where these worms may have next to nothing of all that is at hand, in any week or in what is
/// left of this one, it is left out: nobody opens a bin for a pinch of onion. The bed may have
/// other scraps.
inline void leave_out_capped(RationWork& work, Ration& ration) {
    constexpr double least_kg = limits::least_portion.low;
    const double worms_kg = work.numbers.worms_kg.value;
    PlanProblem problem;  // of it no more is asked than the caps
    problem.caps = week_caps(work.things, work.in.bed.earlier, worms_kg);
    problem.given_of_kind = given_of_kinds(work.in.bed.earlier, worms_kg);
    double there_kg = 0.0;
    std::vector<double> may(work.things.size(), 0.0);
    std::optional<std::size_t> capped;
    for (std::size_t j = 0; j < work.things.size(); ++j) {
        const ThingAtHand& thing = work.things[j];
        if (part_of(*thing.feedstock) != Part::scraps) continue;
        const double most_kg = most_there_kg(thing);
        if (!capped && problem.caps[j].week_kg < most_kg) capped = j;
        there_kg += most_kg;
        may[j] = std::min(most_kg, problem.caps[j].left_kg());
    }
    if (!capped || there_kg < least_kg ||
        allowed_by_kinds(work, problem, std::move(may), problem.given_of_kind) >= least_kg)
        return;
    add_reason(ration, cap_reason(work.things[*capped], problem, *capped));
    std::vector<ThingAtHand> others;
    for (ThingAtHand& thing : work.things) {
        if (part_of(*thing.feedstock) != Part::scraps)
            others.push_back(std::move(thing));
        else if (thing.most)
            ration.rest.push_back({thing, *thing.most, true});
    }
    work.things = std::move(others);
}

}  // namespace feed::detail
