#pragma once
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "feed/balance/balance_answer.hpp"
#include "feed/balance/prepared_balance.hpp"
#include "feed/solver/fractional.hpp"
#include "feed/solver/lexicographic.hpp"
#include "feed/solver/solve.hpp"
#include "feed/solver/workspace.hpp"

namespace feed {

/// Limits of a problem that a solve may narrow.
struct OwnLimits {
    std::vector<double> lower;
    std::vector<double> upper;
    std::vector<double> row_lower;
    std::vector<double> row_upper;

    /// Copies the limits of a polyhedron; allocates only where it is larger than any before.
    void copy(const solver::Polyhedron& from) {
        lower.assign(from.lower.begin(), from.lower.end());
        upper.assign(from.upper.begin(), from.upper.end());
        row_lower.assign(from.row_lower.begin(), from.row_lower.end());
        row_upper.assign(from.row_upper.begin(), from.row_upper.end());
    }
    solver::Polyhedron with_rows(std::span<const double> rows) const {
        return {lower, upper, rows, row_lower, row_upper};
    }
};

/// Memory for solving balances, taken once; for any number of problems up to its size. One
/// workspace serves one thread at a time.
class BalanceWorkspace {
public:
    /// @param entries, rows, ratios  the largest problem it has to hold.
    BalanceWorkspace(std::size_t entries, std::size_t rows, std::size_t ratios)
        : solver_(entries, rows + ratios + 1), dropped_(ratios) {
        narrowed_.lower.reserve(entries);
        narrowed_.upper.reserve(entries);
        narrowed_.row_lower.reserve(rows);
        narrowed_.row_upper.reserve(rows);
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
    OwnLimits& narrowed() noexcept { return narrowed_; }
    RatioRows& kept_ratios() noexcept { return ratios_; }
    std::vector<unsigned char>& dropped() noexcept { return dropped_; }

private:
    solver::Workspace solver_;
    OwnLimits narrowed_;
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
    std::span<const double> ray;           ///< the direction without end, when unbounded
    solver::Residuals residuals;           ///< of the independent check
    std::optional<double> least_water_kg;  ///< the least that will do, where water is held to it
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

/// Keeps only the points that are best for a linear objective just solved: what its multipliers
/// push on stays where it is. Objectives are sums of masses, so multipliers are of the order of
/// one.
inline void keep_best(const solver::Result& result, std::span<const double> rows,
                      OwnLimits& limits) {
    constexpr double pushes = 1e-9;
    const std::size_t entries = limits.lower.size();
    for (std::size_t i = 0; i < entries; ++i) {
        if (result.bound_multipliers[i] > pushes) limits.upper[i] = limits.lower[i];
        if (result.bound_multipliers[i] < -pushes) limits.lower[i] = limits.upper[i];
    }
    for (std::size_t r = 0; r < limits.row_lower.size(); ++r) {
        double largest = 0.0;
        for (const double number : rows.subspan(r * entries, entries))
            largest = std::max(largest, number < 0.0 ? -number : number);
        const double push = result.row_multipliers[r] * largest;
        if (push > pushes) limits.row_upper[r] = limits.row_lower[r];
        if (push < -pushes) limits.row_lower[r] = limits.row_upper[r];
    }
}

/// Narrows the limits to what is used up first, level by level. The status of the level that ended
/// otherwise than solved, or solved.
inline BalanceNumbers use_up_first(const PreparedBalance& prepared, OwnLimits& limits,
                                   BalanceWorkspace& workspace) {
    BalanceNumbers numbers;
    numbers.status = BalanceStatus::solved;
    const std::size_t entries = prepared.entry_count();
    for (std::size_t level = 0; level < prepared.priority_count(); ++level) {
        const auto objective =
            std::span<const double>(prepared.priorities).subspan(level * entries, entries);
        const solver::Problem problem{{}, objective, limits.with_rows(prepared.rows)};
        const auto result = solver::solve(problem, workspace.solver());
        if (result.status != solver::Status::solved) return numbers_of(result);
        keep_best(result, prepared.rows, limits);
    }
    return numbers;
}

inline BalanceNumbers solve_within(const PreparedBalance& prepared,
                                   const solver::Polyhedron& within, BalanceWorkspace& workspace) {
    switch (prepared.problem.objective) {
        case Objective::closest_to_aims:
            return closest(within, prepared.from_aims, prepared.added_mass, workspace);
        case Objective::closest_to_usual:
            return numbers_of(
                solver::solve({prepared.hessian, prepared.gradient, within}, workspace.solver()));
        case Objective::least_added:
        case Objective::cheapest:
        case Objective::use_up_most:
            break;
    }
    return numbers_of(solver::lexicographic(within, prepared.objectives, workspace.solver()));
}

/// Whether more water is poured than the keeper asked for.
inline bool pours(const PreparedBalance& prepared, std::span<const double> wet_kg) {
    const auto& poured = prepared.sum(Sum::poured_kg);
    constexpr double trifle = 1e-12;
    for (std::size_t i = 0; i < poured.size(); ++i) {
        if (poured[i] > 0.0 && wet_kg[i] > prepared.lower[i] + trifle) return true;
    }
    return false;
}

/// The limits where no water is poured but what the keeper asked for: what the scraps set free
/// needs no bedding to take it up then, it goes into the bed below.
inline void pour_nothing(const PreparedBalance& prepared, OwnLimits& limits) {
    const auto& poured = prepared.sum(Sum::poured_kg);
    for (std::size_t i = 0; i < poured.size(); ++i) {
        if (poured[i] > 0.0) limits.upper[i] = limits.lower[i];
    }
    limits.row_upper[*prepared.room_row] = solver::infinity;
}

/// First what is used up, then the least water with it where water is held to that, then the
/// objective.
inline BalanceNumbers solve_limits(const PreparedBalance& prepared, OwnLimits& limits,
                                   BalanceWorkspace& workspace) {
    const auto used_up = use_up_first(prepared, limits, workspace);
    if (used_up.status != BalanceStatus::solved) return used_up;
    if (!prepared.poured_row)
        return solve_within(prepared, limits.with_rows(prepared.rows), workspace);
    const auto& poured = prepared.sum(Sum::poured_kg);
    const auto driest =
        solver::solve({{}, poured, limits.with_rows(prepared.rows)}, workspace.solver());
    if (driest.status != solver::Status::solved) return numbers_of(driest);
    double least = 0.0;
    for (std::size_t i = 0; i < poured.size(); ++i)
        least += poured[i] * driest.x[i];
    limits.row_upper[*prepared.poured_row] = prepared.over_least * least;
    auto numbers = solve_within(prepared, limits.with_rows(prepared.rows), workspace);
    numbers.least_water_kg = least;
    return numbers;
}

}  // namespace detail

/// Solves a prepared balance and checks the answer independently (the solver's check, in kilograms
/// as everything here, relative 1e-9). First goes in what is to be used up, then the least water
/// that will do with it is found, where poured water is held to that, then the objective decides.
/// Used up before watered: dry scraps that a keeper wants gone may need water. Where water is held
/// to what takes it up and none has to be poured, none is. Time: the solver's. Allocates nothing.
/// Threads: any number, each with its own workspace.
inline BalanceNumbers solve(const PreparedBalance& prepared, BalanceWorkspace& workspace) {
    if (prepared.priority_count() == 0 && !prepared.poured_row && !prepared.room_row)
        return detail::solve_within(prepared, prepared.within(), workspace);
    auto& limits = workspace.narrowed();
    limits.copy(prepared.within());
    if (!prepared.room_row) return detail::solve_limits(prepared, limits, workspace);
    const auto poured = detail::solve_limits(prepared, limits, workspace);
    const bool settled =
        poured.status == BalanceStatus::solved && detail::pours(prepared, poured.wet_kg);
    if (settled || poured.status == BalanceStatus::unbounded) return poured;
    limits.copy(prepared.within());
    detail::pour_nothing(prepared, limits);
    return detail::solve_limits(prepared, limits, workspace);
}

}  // namespace feed
