#pragma once
// What the solver is asked and what it answers. Raw doubles: this layer knows no units and no
// feedstocks.

#include <cstddef>
#include <limits>
#include <span>

namespace feed::solver {

/// A bound that does not exist: use `infinity` for an upper and `-infinity` for a lower one.
inline constexpr double infinity = std::numeric_limits<double>::infinity();

/// A set of points: lower <= x <= upper and row_lower <= A x <= row_upper. A view; it owns nothing.
/// @param lower, upper          n entries each, infinite where there is no bound.
/// @param rows                  A, m times n entries, row after row; finite.
/// @param row_lower, row_upper  m entries each; equal for an equality, infinite where one side is
/// open.
struct Polyhedron {
    std::span<const double> lower;
    std::span<const double> upper;
    std::span<const double> rows;
    std::span<const double> row_lower;
    std::span<const double> row_upper;

    [[nodiscard]] std::size_t variable_count() const { return lower.size(); }
    [[nodiscard]] std::size_t row_count() const { return row_lower.size(); }
};

/// Minimise sum over i of (hessian_i x_i^2 / 2 + gradient_i x_i) over a polyhedron. A view; it owns
/// nothing.
/// @param hessian   n entries >= 0, or empty for a linear problem.
/// @param gradient  n finite entries, or empty for zero.
struct Problem {
    std::span<const double> hessian;
    std::span<const double> gradient;
    Polyhedron within;
};

/// How a solve ended. Every status but the last two has passed a check that shares no code with the
/// method.
enum class Status {
    solved,      ///< x is optimal: the optimality conditions hold to the tolerance.
    infeasible,  ///< no point satisfies all limits; the multipliers prove it (Farkas).
    unbounded,   ///< the objective falls without end along `ray`, starting at the feasible `x`.
    iteration_limit,  ///< stopped after `Options::iteration_limit` iterations; nothing is promised.
    numerical         ///< no answer passed its check, or the problem is malformed; see `fault`.
};

/// Why a solve ended with Status::numerical.
enum class Fault {
    none,
    sizes_differ,         ///< the spans of the problem do not fit together.
    workspace_too_small,  ///< the workspace was made for a smaller problem.
    not_finite,  ///< a coefficient is NaN or infinite, or a bound is NaN or infinite on the wrong
                 ///< side.
    negative_curvature,  ///< an entry of the hessian is below zero: the problem is not convex.
    not_verified         ///< an answer was found but did not pass the independent check.
};

/// At which of its limits a variable or a row stands in the answer.
enum class Side : unsigned char { between, lower, upper, both };

/// The largest relative errors found by the check; each is measured against the size of the terms
/// it sums.
struct Residuals {
    double primal = 0;        ///< limits overstepped by x.
    double stationarity = 0;  ///< hessian x + gradient - A' y - z.
    double complementarity =
        0;  ///< distance from the limit of a row or variable whose multiplier pushes.
};

/// What the caller may change.
struct Options {
    double tolerance = 1e-9;          ///< relative, dimensionless; what the check demands.
    std::size_t iteration_limit = 0;  ///< 0: 200 + 50 (n + m).
    bool general_method = false;      ///< never take the quick path for strictly convex problems.
};

/// The answer. The spans point into the workspace and stay valid until it is used again.
///
/// Signs: hessian x + gradient = A' row_multipliers + bound_multipliers. A multiplier above zero
/// pushes up from a lower limit, one below zero pushes down from an upper limit: it is the rise of
/// the optimal objective per unit by which that limit is raised. For Status::infeasible the
/// multipliers are the certificate: A' y + z = 0 while the sum of every positive multiplier times
/// its lower limit and every negative one times its upper limit is above zero.
struct Result {
    Status status = Status::numerical;
    Fault fault = Fault::none;
    std::span<const double> x;                  ///< n; the point (solved, unbounded).
    std::span<const double> row_multipliers;    ///< m.
    std::span<const double> bound_multipliers;  ///< n.
    std::span<const double> ray;                ///< n; only for unbounded.
    std::span<const Side> variable_sides;       ///< n.
    std::span<const Side> row_sides;            ///< m.
    double objective = 0;                       ///< at x; 0 unless solved.
    std::size_t iterations = 0;
    Residuals residuals;
};

}  // namespace feed::solver
