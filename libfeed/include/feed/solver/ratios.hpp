#pragma once
// What `fractional` is asked and answers.

#include <cstddef>
#include <span>

#include "feed/solver/problem.hpp"

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

}  // namespace feed::solver
