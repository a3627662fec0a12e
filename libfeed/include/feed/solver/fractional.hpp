#pragma once
// The smallest largest ratio of linear functions.

#include <cstddef>
#include <span>

#include "feed/solver/problem.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver {

/// Ratios (numerator_k . x + numerator_constant_k) / (denominator_k . x + denominator_constant_k).
/// A view.
/// @param numerators, denominators  k times n finite entries, ratio after ratio.
/// @param numerator_constants, denominator_constants  k finite entries, or empty for zero.
struct Ratios {
    std::span<const double> numerators;
    std::span<const double> numerator_constants;
    std::span<const double> denominators;
    std::span<const double> denominator_constants;
};

/// How a fractional solve ended.
enum class FractionalStatus {
    solved,
    infeasible,   ///< no feasible point; the multipliers prove it.
    unbounded,    ///< the best value is only approached without end along `ray`; `value` is its
                  ///< limit.
    denominator,  ///< denominator `bad_ratio` is negative, or zero where the answer would lie.
    iteration_limit,
    numerical
};

/// The answer of `fractional`. Spans are valid until the workspace is used again.
struct FractionalResult {
    FractionalStatus status = FractionalStatus::numerical;
    Fault fault = Fault::none;
    std::span<const double> x;                  ///< n; the point.
    double value = 0;                           ///< the largest ratio at x.
    std::span<const double> ratio_multipliers;  ///< k, >= 0; above zero for the ratios that decide.
    std::span<const double> row_multipliers;    ///< m; signs as in Result.
    std::span<const double> bound_multipliers;  ///< n.
    std::span<const double> ray;                ///< n; only for unbounded.
    std::size_t bad_ratio = 0;                  ///< only for denominator.
    std::size_t iterations = 0;
    Residuals residuals;
};

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
                                   const Options& options = {});

}  // namespace feed::solver
