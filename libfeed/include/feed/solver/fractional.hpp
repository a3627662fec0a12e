#pragma once
// The smallest largest ratio of linear functions.

#include <cstddef>
#include <span>

#include "feed/solver/fractional_run.hpp"
#include "feed/solver/problem.hpp"
#include "feed/solver/ratios.hpp"
#include "feed/solver/solve.hpp"
#include "feed/solver/well_formed.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver {

namespace detail {

inline Fault fault_of(const Polyhedron& within, const Ratios& ratios,
                      std::span<const double> tie_objectives, const Workspace& workspace) {
    const std::size_t n = within.variable_count();
    const std::size_t entries = ratios.denominators.size();
    if (n == 0 || entries == 0 || entries % n != 0 || ratios.numerators.size() != entries ||
        tie_objectives.size() % n != 0) {
        return Fault::sizes_differ;
    }
    const std::size_t count = entries / n;
    for (const std::span<const double> constants :
         {ratios.numerator_constants, ratios.denominator_constants}) {
        if (!constants.empty() && constants.size() != count) return Fault::sizes_differ;
        if (!all_finite(constants)) return Fault::not_finite;
    }
    const Fault fault = fault_of(within, workspace);
    if (fault != Fault::none) return fault;
    if (within.row_count() + count > workspace.max_rows()) return Fault::workspace_too_small;
    const bool finite = all_finite(ratios.numerators) && all_finite(ratios.denominators) &&
                        all_finite(tie_objectives);
    return finite ? Fault::none : Fault::not_finite;
}

}  // namespace detail

/// Minimises the largest of several ratios over a polyhedron, exactly, then `tie_objectives` in
/// order among the points that reach it, then the first variable, the second, and so on (as in
/// `lexicographic`).
/// @param within  the feasible set; every denominator must be >= 0 on it and above zero at the
/// answer.
/// @param ratios  at least one.
/// @param tie_objectives  j times n finite entries; j may be 0.
/// Needs a workspace of n variables and m + k rows. Allocates nothing.
/// Source: Crouzeix, Ferland, Schaible 1985, "An algorithm for generalized fractional programs";
/// Dinkelbach 1967.
inline FractionalResult fractional(const Polyhedron& within, const Ratios& ratios,
                                   std::span<const double> tie_objectives, Workspace& workspace,
                                   const Options& options = {}) {
    FractionalResult result;
    result.fault = detail::fault_of(within, ratios, tie_objectives, workspace);
    if (result.fault != Fault::none) return result;
    if (detail::limits_cross(within)) {
        const Result crossed =
            detail::crossed(workspace.buffers(), within.variable_count(), within.row_count());
        result.status = FractionalStatus::infeasible;
        result.row_multipliers = crossed.row_multipliers;
        result.bound_multipliers = crossed.bound_multipliers;
        return result;
    }
    return detail::FractionalRun(within, ratios, workspace, options).run(tie_objectives);
}

}  // namespace feed::solver
