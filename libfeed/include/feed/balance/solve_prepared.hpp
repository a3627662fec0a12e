#pragma once
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "feed/balance/balance_answer.hpp"
#include "feed/balance/prepared_balance.hpp"
#include "feed/solver/fractional.hpp"
#include "feed/solver/lexicographic.hpp"
#include "feed/solver/solve.hpp"
#include "feed/solver/workspace.hpp"

namespace feed {

/// Memory for solving balances, taken once; for any number of problems up to its size. One
/// workspace serves one thread at a time.
class BalanceWorkspace {
public:
    /// @param entries, rows, ratios  the largest problem it has to hold.
    BalanceWorkspace(std::size_t entries, std::size_t rows, std::size_t ratios)
        : solver_(entries, rows + ratios + 1),
          row_lower_(rows),
          row_upper_(rows),
          dropped_(ratios) {
        ratios_.numerators.reserve(entries * ratios);
        ratios_.denominators.reserve(entries * ratios);
        ratios_.numerator_constants.reserve(ratios);
        ratios_.denominator_constants.reserve(ratios);
        ratios_.targets.reserve(ratios);
    }
    /// The size that one prepared balance needs.
    explicit BalanceWorkspace(const PreparedBalance& prepared)
        : BalanceWorkspace(prepared.entry_count(), prepared.row_count(),
                           prepared.from_aims.count()) {}

    solver::Workspace& solver() noexcept { return solver_; }
    std::vector<double>& row_lower() noexcept { return row_lower_; }
    std::vector<double>& row_upper() noexcept { return row_upper_; }
    RatioRows& kept_ratios() noexcept { return ratios_; }
    std::vector<unsigned char>& dropped() noexcept { return dropped_; }

private:
    solver::Workspace solver_;
    std::vector<double> row_lower_;
    std::vector<double> row_upper_;
    std::vector<unsigned char> dropped_;
    RatioRows ratios_;
};

/// The numbers of an answer. The spans point into the workspace, until it is used again.
struct BalanceNumbers {
    BalanceStatus status = BalanceStatus::failed;
    std::span<const double> wet_kg;  ///< one for each entry, when solved
    double largest_deviation = 0.0;  ///< for closest_to_aims: 0 at the aims, 1 at a window edge
    /// For closest_to_aims: weight of each ratio of `from_aims` that decided; else empty.
    std::span<const double> deciding;
    std::span<const double> ray;  ///< the direction without end, when unbounded
    bool water_was_held = false;  ///< the limit on water on wet scraps applied
    solver::Residuals residuals;  ///< of the independent check
};

namespace detail {

inline BalanceStatus status_of(solver::Status status) noexcept {
    switch (status) {
        case solver::Status::solved:
            return BalanceStatus::solved;
        case solver::Status::infeasible:
            return BalanceStatus::infeasible;
        case solver::Status::unbounded:
            return BalanceStatus::unbounded;
        case solver::Status::iteration_limit:
        case solver::Status::numerical:
            break;
    }
    return BalanceStatus::failed;
}

inline BalanceStatus status_of(solver::FractionalStatus status) noexcept {
    switch (status) {
        case solver::FractionalStatus::solved:
            return BalanceStatus::solved;
        case solver::FractionalStatus::infeasible:
            return BalanceStatus::infeasible;
        case solver::FractionalStatus::unbounded:
            return BalanceStatus::unbounded;
        case solver::FractionalStatus::denominator:
        case solver::FractionalStatus::iteration_limit:
        case solver::FractionalStatus::numerical:
            break;
    }
    return BalanceStatus::failed;
}

inline BalanceNumbers numbers_of(const solver::Result& result) {
    BalanceNumbers numbers;
    numbers.status = status_of(result.status);
    numbers.wet_kg = result.x;
    numbers.ray = result.ray;
    numbers.residuals = result.residuals;
    return numbers;
}

/// Copies the ratios that are not dropped.
inline void keep_ratios(const RatioRows& all, std::span<const unsigned char> dropped,
                        std::size_t entries, RatioRows& kept) {
    kept.numerators.clear();
    kept.denominators.clear();
    kept.numerator_constants.clear();
    kept.denominator_constants.clear();
    kept.targets.clear();
    for (std::size_t k = 0; k < all.count(); ++k) {
        if (dropped[k] != 0) continue;
        for (std::size_t i = 0; i < entries; ++i) {
            kept.numerators.push_back(all.numerators[k * entries + i]);
            kept.denominators.push_back(all.denominators[k * entries + i]);
        }
        kept.numerator_constants.push_back(all.numerator_constants[k]);
        kept.denominator_constants.push_back(all.denominator_constants[k]);
        kept.targets.push_back(k);
    }
}

/// Closest to the aims within a polyhedron. A property that does not exist at the answer (the C:N
/// ratio of water) cannot be near its aim: its ratios are dropped and the rest solved.
inline BalanceNumbers closest(const solver::Polyhedron& within, const RatioRows& ratios,
                              std::span<const double> tie, BalanceWorkspace& workspace) {
    if (ratios.count() == 0) {
        return numbers_of(solver::lexicographic(within, tie, workspace.solver()));
    }
    auto result = solver::fractional(within, ratios.view(), tie, workspace.solver());
    bool complete = true;
    if (result.status == solver::FractionalStatus::denominator) {
        complete = false;
        auto& dropped = workspace.dropped();
        dropped.assign(ratios.count(), 0);
        auto& kept = workspace.kept_ratios();
        keep_ratios(ratios, dropped, within.variable_count(), kept);
        while (result.status == solver::FractionalStatus::denominator) {
            dropped[kept.targets[result.bad_ratio]] = 1;
            keep_ratios(ratios, dropped, within.variable_count(), kept);
            if (kept.count() == 0) {
                return numbers_of(solver::lexicographic(within, tie, workspace.solver()));
            }
            result = solver::fractional(within, kept.view(), tie, workspace.solver());
        }
    }
    BalanceNumbers numbers;
    numbers.status = status_of(result.status);
    numbers.wet_kg = result.x;
    numbers.largest_deviation = result.value > 0.0 ? result.value : 0.0;
    if (complete) numbers.deciding = result.ratio_multipliers;
    numbers.ray = result.ray;
    numbers.residuals = result.residuals;
    return numbers;
}

}  // namespace detail

namespace detail {

inline BalanceNumbers solve_within(const PreparedBalance& prepared, solver::Polyhedron within,
                                   BalanceWorkspace& workspace) {
    const auto objective = prepared.problem.objective;
    const bool linear =
        objective != Objective::closest_to_aims && objective != Objective::closest_to_usual;
    if (linear) {
        return numbers_of(solver::lexicographic(within, prepared.objectives, workspace.solver()));
    }
    if (const std::size_t levels = prepared.priority_count(); levels > 0) {
        const auto first = solver::lexicographic(within, prepared.priorities, workspace.solver());
        if (first.status != solver::Status::solved) return numbers_of(first);
        const std::size_t entries = prepared.entry_count();
        auto& held = workspace.row_lower();
        held.assign(prepared.row_lower.begin(), prepared.row_lower.end());
        for (std::size_t level = 0; level < levels; ++level) {
            double used = 0.0;
            for (std::size_t i = 0; i < entries; ++i)
                used -= prepared.priorities[level * entries + i] * first.x[i];
            held[prepared.row_count() - levels + level] = used;
        }
        within.row_lower = held;
    }
    if (objective == Objective::closest_to_usual) {
        const solver::Problem problem{prepared.hessian, prepared.gradient, within};
        return numbers_of(solver::solve(problem, workspace.solver()));
    }
    return closest(within, prepared.from_aims, prepared.added_mass, workspace);
}

/// Are the scraps of a blend, taken together, wetter than moisture is meant to be?
inline bool scraps_are_wet(const PreparedBalance& prepared, std::span<const double> wet_kg) {
    const auto& water = prepared.sum(Sum::scraps_water_kg);
    const auto& scraps = prepared.sum(Sum::scraps_kg);
    double excess = 0.0;
    for (std::size_t i = 0; i < wet_kg.size(); ++i)
        excess += (water[i] - prepared.wet_scraps_moisture * scraps[i]) * wet_kg[i];
    return excess > 0.0;
}

}  // namespace detail

/// Solves a prepared balance and checks the answer independently (the solver's check, in kilograms
/// as everything here, relative 1e-9). The limit on water on wet scraps is tried first; where the
/// scraps of the answer are not wet, or nothing can be had under it, it is lifted and all is solved
/// again. Time: the solver's, at most twice. Allocates nothing.
/// Threads: any number, each with its own workspace.
inline BalanceNumbers solve(const PreparedBalance& prepared, BalanceWorkspace& workspace) {
    auto within = prepared.within();
    auto numbers = detail::solve_within(prepared, within, workspace);
    if (!prepared.wet_scraps_row) return numbers;
    numbers.water_was_held =
        numbers.status == BalanceStatus::solved &&
        (prepared.scraps_are_surely_wet || detail::scraps_are_wet(prepared, numbers.wet_kg));
    if (numbers.water_was_held) return numbers;
    auto& lifted = workspace.row_upper();
    lifted.assign(prepared.row_upper.begin(), prepared.row_upper.end());
    lifted[*prepared.wet_scraps_row] = solver::infinity;
    within.row_upper = lifted;
    return detail::solve_within(prepared, within, workspace);
}

}  // namespace feed
