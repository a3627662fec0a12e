#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <span>
#include <vector>

#include "feed/bed/linear_hazard.hpp"
#include "feed/bed/remedy.hpp"
#include "feed/solver/lexicographic.hpp"

// One set of steps against all hazards at once. Every hazard but the heat of the layer is linear in
// what a feeding brings, so the steps are a linear problem for the solver of the balance: as much
// of the scraps now as may be, then the least added mass. Rounded to what is printed, then judged
// again.
namespace feed {

/// Steps that clear several hazards together, as numbers.
struct JointNumber {
    bool found = false;
    double share = 1.0;      ///< of the feeding, without a portion that is cut down, now
    double scraps_kg = 0.0;  ///< the scraps in that share
    std::optional<std::size_t> cut_down;  ///< portion that is cut down on its own
    double keep_kg = 0.0;                 ///< of that portion
    double bedding_kg = 0.0;
    double water_kg = 0.0;
    double lime_kg = 0.0;
    double spread_m2 = 0.0;
    double later_days = 0.0;  ///< when the rest, or as much again, may follow; 0: no day found
    bool repeat = false;      ///< the rest is too much at once: as much again each time
    bool waits = false;       ///< nothing is fed until a hazard that no step takes away is gone
    std::array<bool, hazard_count> clears{};
    std::array<bool, hazard_count> stays{};  ///< raised and not taken away by these steps
    Load load;                               ///< what goes in now
};

namespace detail {

/// Variables of the linear problem: share of the feeding, kg of bedding, water and lime, and kg
/// kept of the portion that is cut down.
inline constexpr std::size_t joint_variables = 5;
/// One row for each hazard, the depth of the scraps, the room in the container, and one by which
/// the portion that is cut down is cut at least as much as the rest.
inline constexpr std::size_t joint_rows = hazard_count + 3;

struct JointProblem {
    const RemedyProblem& p;
    std::array<bool, hazard_count> wanted{};    ///< absent before, or to be taken away
    std::array<bool, hazard_count> helpless{};  ///< that no step takes away: to be made no worse
    double most_share = 1.0;
    double most_lime_kg = 0.0;
    double enough_share = 1.0;  ///< more cannot be reached on any surface
    Load feeding;               ///< without the portion that is cut down
    std::optional<std::size_t> cut_down;
    double cut_down_kg = 0.0;  ///< as planned
    Load cut_down_per_kg;

    explicit JointProblem(const RemedyProblem& problem) noexcept
        : p(problem), feeding(problem.load) {}

    void choose_cut_down(Hazard hazard) noexcept {
        cut_down = touchiest_portion(hazard, p);
        if (!cut_down) return;
        cut_down_kg = p.portions[*cut_down].wet_mass.in_kilograms();
        cut_down_per_kg = load_of(*p.portions[*cut_down].feedstock, 1.0, p.decayed);
        feeding = Load{};
        for (std::size_t i = 0; i < p.portions.size(); ++i) {
            if (i == *cut_down) continue;
            feeding.add(
                load_of(*p.portions[i].feedstock, p.portions[i].wet_mass.in_kilograms(), p.decayed),
                1.0);
        }
    }

    Load load_of_steps(std::span<const double> x) const noexcept {
        Load sum;
        sum.add(feeding, x[0]);
        sum.add(cut_down_per_kg, x[4]);
        sum.add(p.materials->bedding_per_kg, x[1]);
        sum.add(p.materials->water_per_kg, x[2]);
        return sum.add(p.materials->lime_per_kg, x[3]);
    }

    /// Nothing where no amounts do.
    std::optional<std::array<double, joint_variables>> solve(double spread_m2, double settled_m3,
                                                             double margin,
                                                             solver::Workspace& workspace) const {
        const std::array<const Load*, joint_variables> loads{
            &feeding, &p.materials->bedding_per_kg, &p.materials->water_per_kg,
            &p.materials->lime_per_kg, &cut_down_per_kg};
        const LinearHazard form{*p.bed, spread_m2, settled_m3, margin};
        const LinearHazard as_planned{*p.bed, p.spread_m2, p.load.settled_m3, 0.0};
        std::array<double, joint_rows * joint_variables> rows{};
        std::array<double, joint_rows> row_lower{};
        std::array<double, joint_rows> row_upper{};
        row_lower.fill(-solver::infinity);
        row_upper.fill(solver::infinity);
        for (std::size_t h = 0; h < hazard_count; ++h) {
            if (!wanted[h] && !helpless[h]) continue;
            const auto hazard = static_cast<Hazard>(h);
            for (std::size_t j = 0; j < joint_variables; ++j)
                rows[h * joint_variables + j] = form.of_load(hazard, *loads[j]);
            // Water and lime take no salt, fat or ammonia away, though they add to the mass.
            const bool by_mass =
                hazard == Hazard::salty || hazard == Hazard::greasy || hazard == Hazard::ammonia;
            for (const std::size_t j : {std::size_t{2}, std::size_t{3}}) {
                double& coefficient = rows[h * joint_variables + j];
                if (by_mass) coefficient = std::max(coefficient, 0.0);
            }
            row_upper[h] = -form.of_bed(hazard);
            if (helpless[h]) row_upper[h] = std::max(0.0, as_planned.of_load(hazard, p.load));
        }
        const std::size_t depth = hazard_count;
        const std::size_t room = hazard_count + 1;
        const std::size_t cut = hazard_count + 2;
        for (std::size_t j = 0; j < joint_variables; ++j) {
            rows[depth * joint_variables + j] = loads[j]->scraps_settled_m3 / spread_m2;
            rows[room * joint_variables + j] = loads[j]->settled_m3;
        }
        if (wanted[static_cast<std::size_t>(Hazard::airless)])
            row_upper[depth] = (1.0 - margin) * limits::layer_depth.watch;
        // What was planned may lie higher than the container; only what is added must fit.
        row_upper[room] = std::max(p.free_room_m3, p.load.settled_m3);
        rows[cut * joint_variables] = -cut_down_kg;
        rows[cut * joint_variables + 4] = 1.0;
        row_upper[cut] = 0.0;
        // Where the portion that is cut down is all the scraps, its bedding goes in as planned.
        const bool only_scraps = cut_down && feeding.scraps_wet_kg <= 0.0;
        const std::array<double, joint_variables> lower{only_scraps ? most_share : 0.0};
        const std::array<double, joint_variables> upper{
            most_share, p.materials->bedding ? solver::infinity : 0.0, 8.0 * p.bed->dry_kg,
            most_lime_kg, cut_down ? cut_down_kg : 0.0};
        // As much of the scraps as may be, then the least added.
        const std::array<double, 2 * joint_variables> objectives{-feeding.scraps_wet_kg,
                                                                 0.0,
                                                                 0.0,
                                                                 0.0,
                                                                 -cut_down_per_kg.scraps_wet_kg,
                                                                 0.0,
                                                                 1.0,
                                                                 1.0,
                                                                 1.0,
                                                                 0.0};
        const auto result = solver::lexicographic({lower, upper, rows, row_lower, row_upper},
                                                  objectives, workspace);
        if (result.status != solver::Status::solved) return std::nullopt;
        std::array<double, joint_variables> x{};
        std::copy(result.x.begin(), result.x.end(), x.begin());
        return x;
    }
};

/// The steps of a solution, rounded as printed.
inline JointNumber rounded_steps(const JointProblem& problem,
                                 const std::array<double, joint_variables>& x, double spread_m2) {
    const RemedyProblem& p = problem.p;
    constexpr double nothing_kg = 1e-4;
    JointNumber n;
    n.spread_m2 = spread_m2;
    const double scraps_kg = problem.feeding.scraps_wet_kg;
    n.share = 1.0;
    n.scraps_kg = scraps_kg;
    if (x[0] < 1.0 - 1e-9) {
        n.scraps_kg = rounded_mass(x[0] * scraps_kg, false, p.units);
        n.share = scraps_kg > 0.0 ? n.scraps_kg / scraps_kg : x[0];
    }
    n.cut_down = problem.cut_down;
    if (n.cut_down) {
        const bool all = x[4] >= problem.cut_down_kg * (1.0 - 1e-9);
        n.keep_kg = all ? problem.cut_down_kg : rounded_mass(x[4], false, p.units);
        if (n.keep_kg < nothing_kg) n.keep_kg = 0.0;
    }
    if (x[1] > nothing_kg) n.bedding_kg = rounded_mass(x[1], true, p.units);
    if (x[2] > nothing_kg) n.water_kg = rounded_volume(x[2], true, p.units);
    if (x[3] > nothing_kg) n.lime_kg = rounded_mass(x[3], true, p.units);
    const std::array<double, joint_variables> rounded{n.share, n.bedding_kg, n.water_kg, n.lime_kg,
                                                      n.keep_kg};
    n.load = problem.load_of_steps(rounded);
    return n;
}

/// Whether all wanted hazards are absent from a bed after a load, and no helpless one stands higher
/// than before.
inline bool all_well(const JointProblem& problem, const BedNumbers& bed, const Load& load,
                     double spread_m2) noexcept {
    const auto well = [&](std::size_t h) {
        if (!problem.wanted[h] && !problem.helpless[h]) return true;
        const Level level = hazard_number(static_cast<Hazard>(h), bed, load, spread_m2).level;
        return level <= (problem.wanted[h] ? Level::none : problem.p.before->of[h].level);
    };
    // The one that fails most often comes first.
    if (!well(static_cast<std::size_t>(Hazard::overfed))) return false;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        if (!well(h)) return false;
    }
    return true;
}

/// The best steps for one surface, judged again. Limits are drawn in until the rounded steps pass.
inline JointNumber joint_steps(const JointProblem& problem, double spread_m2,
                               solver::Workspace& workspace) {
    for (const double margin : {0.0, 0.005, 0.02, 0.05}) {
        double settled = problem.p.load.settled_m3;
        std::optional<std::array<double, joint_variables>> x;
        // The layer warms with labile matter times its own depth, which the steps change.
        for (int round = 0; round < 5; ++round) {
            x = problem.solve(spread_m2, settled, margin, workspace);
            if (!x) return {};
            const double now = problem.load_of_steps(*x).settled_m3;
            // A layer that is thinner than reckoned with is cooler, and no more would go in.
            if (now <= settled && (*x)[0] >= problem.enough_share * (1.0 - 1e-9)) break;
            if (std::abs(now - settled) <= 0.005 * now) break;
            settled = now;
        }
        JointNumber n = rounded_steps(problem, *x, spread_m2);
        if (!all_well(problem, *problem.p.bed, n.load, spread_m2)) continue;
        n.found = true;
        return n;
    }
    return {};
}

inline void plan_rest(JointNumber& n, const JointProblem& problem) noexcept {
    const RemedyProblem& p = problem.p;
    const auto first_day = [&](const Load& next, double soonest) {
        for (const double day : later_days_tried) {
            if (day >= soonest &&
                all_well(problem, bed_after(*p.bed, n.load, day), next, n.spread_m2))
                return day;
        }
        return 0.0;
    };
    Load rest;
    rest.add(problem.feeding, 1.0 - n.share);
    n.later_days = first_day(rest, 0.0);
    if (n.later_days > 0.0 || n.share <= 0.0) return;
    Load again;
    again.add(problem.feeding, n.share);
    n.repeat = true;
    n.later_days = first_day(again, p.bed->horizon_days * n.share);
}

}  // namespace detail

/// One set of steps that takes away every hazard that some step can take away and raises no other:
/// part of the feeding now, bedding, water and lime, over the usual or the whole surface.
/// @param helpless  hazards that no step was found for; they are left out and named.
/// Not found where no amounts that fit do. Time: a few linear problems of five variables.
inline JointNumber joint_remedy(const RemedyProblem& p,
                                const std::array<bool, hazard_count>& helpless) {
    detail::JointProblem problem(p);
    std::array<bool, hazard_count> raised{};
    bool fed_further = false;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        const Level level = p.before->of[h].level;
        raised[h] = level == Level::watch || level == Level::act;
        // Feeding more is no step here, and hunger is slow.
        if (level == Level::unknown || static_cast<Hazard>(h) == Hazard::underfed) continue;
        problem.wanted[h] = !helpless[h];
        problem.helpless[h] = helpless[h];
        // What no step takes away is not fed further.
        const detail::LinearHazard form{*p.bed, p.spread_m2, p.load.settled_m3, 0.0};
        fed_further =
            fed_further || (helpless[h] && form.of_load(static_cast<Hazard>(h), p.load) > 0.0);
    }
    if (fed_further) problem.most_share = 0.0;
    for (const Hazard hazard : {Hazard::salty, Hazard::greasy}) {
        const auto h = static_cast<std::size_t>(hazard);
        if (raised[h] && problem.wanted[h]) problem.choose_cut_down(hazard);
    }
    if (may_lime(p)) problem.most_lime_kg = limits::most_lime.value * p.bed->surface_m2 / 1000.0;
    problem.enough_share = problem.most_share;
    const auto overfed = static_cast<std::size_t>(Hazard::overfed);
    if (problem.wanted[overfed] && problem.feeding.scraps_wet_kg > 0.0) {
        // The worms set a limit that no bedding and no surface moves.
        const double room_kg =
            feeding_rules(*p.bed).start_wet_kg_per_day * p.bed->rate_window_days -
            p.bed->recent_scraps_kg;
        problem.enough_share =
            std::clamp(room_kg / problem.feeding.scraps_wet_kg, 0.0, problem.most_share);
    }
    solver::Workspace workspace(detail::joint_variables, detail::joint_rows);
    const auto best_of = [&] {
        JointNumber usual = detail::joint_steps(problem, p.spread_m2, workspace);
        if (usual.found && usual.share >= 0.98 * problem.enough_share) return usual;
        JointNumber whole = detail::joint_steps(problem, p.bed->surface_m2, workspace);
        const bool better = whole.found && (!usual.found || whole.share > usual.share + 0.02);
        return better ? whole : usual;
    };
    JointNumber n = best_of();
    if (n.found && n.share < 0.1 && n.share > 0.0) {
        // A tenth of a feeding is not worth laying.
        problem.most_share = problem.enough_share = 0.0;
        n = best_of();
    }
    if (!n.found) return n;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        n.clears[h] = raised[h] && problem.wanted[h];
        n.stays[h] = raised[h] && !problem.wanted[h];
    }
    n.waits = fed_further && n.share <= 0.0 && problem.feeding.scraps_wet_kg > 0.0;
    if (n.waits) {
        n.cut_down.reset();
    } else if (n.share < 1.0) {
        detail::plan_rest(n, problem);
    }
    return n;
}

}  // namespace feed
