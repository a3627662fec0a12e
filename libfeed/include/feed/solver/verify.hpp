#pragma once
// Checks of an answer against the problem as the caller wrote it. Shares no code with the methods
// that find answers: it reads the problem, the point and the multipliers, and nothing else.
//
// Every error is relative to the sum of the sizes of the terms in the expression it belongs to, so
// a check does not change its mind when a row, a variable or the objective is written in another
// unit.

#include <cstddef>
#include <span>

#include "feed/solver/problem.hpp"

namespace feed::solver {

namespace verify_detail {

inline double size_of(double value) {
    return value < 0 ? -value : value;
}

struct Sum {
    double value = 0;
    double size = 0;
};

/// sum of a_j x_j, and of its absolute terms, in a fixed order of four interleaved partial sums.
inline Sum row_times(const double* row, const double* x, std::size_t count) {
    double value[4] = {0, 0, 0, 0};
    double size[4] = {0, 0, 0, 0};
    std::size_t j = 0;
    for (; j + 4 <= count; j += 4) {
        for (std::size_t k = 0; k < 4; ++k) {
            const double term = row[j + k] * x[j + k];
            value[k] += term;
            size[k] += size_of(term);
        }
    }
    for (; j < count; ++j) {
        const double term = row[j] * x[j];
        value[j % 4] += term;
        size[j % 4] += size_of(term);
    }
    return {(value[0] + value[1]) + (value[2] + value[3]),
            (size[0] + size[1]) + (size[2] + size[3])};
}

/// Keeps the largest ratio error / size; an error that is not a number counts as infinite.
inline void keep_largest(double& worst, double error, double size) {
    if (!(error <= worst * size)) {
        worst = error / size;
        if (!(worst == worst)) worst = infinity;
    }
}

/// How far `value` lies outside [lower, upper], relative to the sizes involved.
inline void keep_overstep(double& worst, double value, double size, double lower, double upper) {
    if (!(value >= lower)) keep_largest(worst, lower - value, size + size_of(lower));
    if (!(value <= upper)) keep_largest(worst, value - upper, size + size_of(upper));
}

/// A multiplier above zero needs the lower limit to be met exactly, one below zero the upper limit.
inline void keep_slack(double& worst, double multiplier, double value, double size, double lower,
                       double upper) {
    if (multiplier == 0) return;
    const double limit = multiplier > 0 ? lower : upper;
    if (limit - limit != 0) {  // no such limit
        worst = infinity;
        return;
    }
    keep_largest(worst, size_of(value - limit), size + size_of(limit));
}

}  // namespace verify_detail

/// How far x oversteps the limits, relative.
inline double feasibility_error(const Polyhedron& within, std::span<const double> x) {
    using namespace verify_detail;
    const std::size_t n = within.variable_count();
    double worst = 0;
    for (std::size_t j = 0; j < n; ++j) {
        keep_overstep(worst, x[j], size_of(x[j]), within.lower[j], within.upper[j]);
    }
    for (std::size_t i = 0; i < within.row_count(); ++i) {
        const Sum sum = row_times(within.rows.data() + i * n, x.data(), n);
        keep_overstep(worst, sum.value, sum.size, within.row_lower[i], within.row_upper[i]);
    }
    return worst;
}

/// The errors of x and its multipliers in the optimality conditions (Karush, Kuhn, Tucker) of a
/// convex problem. The answer is optimal to a tolerance if `accepted` says so. Time: two passes
/// over the rows.
inline Residuals optimality_errors(const Problem& problem, std::span<const double> x,
                                   std::span<const double> row_multipliers,
                                   std::span<const double> bound_multipliers) {
    using namespace verify_detail;
    const Polyhedron& within = problem.within;
    const std::size_t n = within.variable_count();
    const std::size_t m = within.row_count();
    Residuals errors;
    for (std::size_t i = 0; i < m; ++i) {
        const Sum sum = row_times(within.rows.data() + i * n, x.data(), n);
        const double lower = within.row_lower[i];
        const double upper = within.row_upper[i];
        keep_overstep(errors.primal, sum.value, sum.size, lower, upper);
        keep_slack(errors.complementarity, row_multipliers[i], sum.value, sum.size, lower, upper);
    }
    // Four columns at a time: the rows are read along their length and no scratch memory is needed.
    for (std::size_t first = 0; first < n; first += 4) {
        const std::size_t width = n - first < 4 ? n - first : 4;
        double value[4] = {0, 0, 0, 0};
        double size[4] = {0, 0, 0, 0};
        for (std::size_t k = 0; k < width; ++k) {
            const std::size_t j = first + k;
            const double bent = problem.hessian.empty() ? 0.0 : problem.hessian[j] * x[j];
            const double slope = problem.gradient.empty() ? 0.0 : problem.gradient[j];
            value[k] = (bent + slope) - bound_multipliers[j];
            size[k] = size_of(bent) + size_of(slope) + size_of(bound_multipliers[j]);
        }
        for (std::size_t i = 0; i < m; ++i) {
            const double multiplier = row_multipliers[i];
            if (multiplier == 0) continue;
            const double* row = within.rows.data() + i * n + first;
            if (width == 4) {
                for (std::size_t k = 0; k < 4; ++k) {
                    const double term = row[k] * multiplier;
                    value[k] -= term;
                    size[k] += size_of(term);
                }
            } else {
                for (std::size_t k = 0; k < width; ++k) {
                    const double term = row[k] * multiplier;
                    value[k] -= term;
                    size[k] += size_of(term);
                }
            }
        }
        for (std::size_t k = 0; k < width; ++k) {
            const std::size_t j = first + k;
            keep_largest(errors.stationarity, size_of(value[k]), size[k]);
            const double lower = within.lower[j];
            const double upper = within.upper[j];
            keep_overstep(errors.primal, x[j], size_of(x[j]), lower, upper);
            keep_slack(errors.complementarity, bound_multipliers[j], x[j], size_of(x[j]), lower,
                       upper);
        }
    }
    return errors;
}

/// Whether all errors are within the tolerance.
inline bool accepted(const Residuals& errors, double tolerance) {
    return errors.primal <= tolerance && errors.stationarity <= tolerance &&
           errors.complementarity <= tolerance;
}

/// Whether the multipliers prove that no point satisfies all limits (Farkas): A' y + z = 0, and the
/// sum over positive multipliers times lower limits and negative ones times upper limits exceeds
/// zero by more than the tolerance, relative to its terms. Limits that cross (lower > upper) are a
/// proof by themselves.
/// @param row_multipliers, bound_multipliers  m and n entries.
inline bool proves_infeasible(const Polyhedron& within, std::span<const double> row_multipliers,
                              std::span<const double> bound_multipliers, double tolerance) {
    using namespace verify_detail;
    const std::size_t n = within.variable_count();
    const std::size_t m = within.row_count();
    for (std::size_t j = 0; j < n; ++j) {
        if (within.lower[j] > within.upper[j]) return true;
    }
    for (std::size_t i = 0; i < m; ++i) {
        if (within.row_lower[i] > within.row_upper[i]) return true;
    }
    double gap = 0;
    double gap_size = 0;
    const auto add_limit = [&](double multiplier, double lower, double upper) {
        if (multiplier == 0) return true;
        const double limit = multiplier > 0 ? lower : upper;
        if (limit - limit != 0) return false;
        gap += multiplier * limit;
        gap_size += size_of(multiplier * limit);
        return true;
    };
    for (std::size_t i = 0; i < m; ++i) {
        if (!add_limit(row_multipliers[i], within.row_lower[i], within.row_upper[i])) return false;
    }
    for (std::size_t j = 0; j < n; ++j) {
        if (!add_limit(bound_multipliers[j], within.lower[j], within.upper[j])) return false;
        double sum = bound_multipliers[j];
        double size = size_of(sum);
        for (std::size_t i = 0; i < m; ++i) {
            const double term = within.rows[i * n + j] * row_multipliers[i];
            sum += term;
            size += size_of(term);
        }
        if (!(size_of(sum) <= tolerance * size)) return false;
        // What rounding left over is a push on x_j like any other: let it eat into the gap where
        // x_j has a limit.
        const double limit = sum > 0 ? within.upper[j] : within.lower[j];
        if (sum != 0 && limit - limit == 0) gap -= size_of(sum * limit);
    }
    return gap > tolerance * gap_size;
}

/// Whether the multipliers that make the gap of a Farkas proof stand out from the others by more
/// than rounding: a gap that comes from a trifle among large multipliers may be what rounding left
/// over on a variable without limits.
inline bool proof_stands_out(const Polyhedron& within, std::span<const double> row_multipliers,
                             std::span<const double> bound_multipliers, double tolerance) {
    using namespace verify_detail;
    const std::size_t n = within.variable_count();
    double largest = 0;
    double largest_of_gap = 0;
    const auto take = [&](double push, double multiplier, double lower, double upper) {
        if (push > largest) largest = push;
        const double limit = multiplier > 0 ? lower : upper;
        if (limit != 0 && push > largest_of_gap) largest_of_gap = push;
    };
    for (std::size_t i = 0; i < within.row_count(); ++i) {
        double coefficient = 0;
        for (std::size_t j = 0; j < n; ++j) {
            if (size_of(within.rows[i * n + j]) > coefficient)
                coefficient = size_of(within.rows[i * n + j]);
        }
        take(size_of(row_multipliers[i]) * coefficient, row_multipliers[i], within.row_lower[i],
             within.row_upper[i]);
    }
    for (std::size_t j = 0; j < n; ++j)
        take(size_of(bound_multipliers[j]), bound_multipliers[j], within.lower[j], within.upper[j]);
    return largest_of_gap > tolerance * largest;
}

/// Whether `ray` shows that the objective has no minimum: along it no limit is ever met, the
/// curvature is zero and the objective falls. The feasible starting point is checked apart, with
/// feasibility_error.
inline bool proves_unbounded(const Problem& problem, std::span<const double> ray,
                             double tolerance) {
    using namespace verify_detail;
    const Polyhedron& within = problem.within;
    const std::size_t n = within.variable_count();
    Sum fall;
    for (std::size_t j = 0; j < n; ++j) {
        if (ray[j] < 0 && within.lower[j] > -infinity) return false;
        if (ray[j] > 0 && within.upper[j] < infinity) return false;
        if (ray[j] != 0 && !problem.hessian.empty() && problem.hessian[j] != 0) return false;
        if (!problem.gradient.empty()) {
            fall.value += problem.gradient[j] * ray[j];
            fall.size += size_of(problem.gradient[j] * ray[j]);
        }
    }
    if (!(fall.value < -tolerance * fall.size)) return false;
    for (std::size_t i = 0; i < within.row_count(); ++i) {
        const Sum sum = row_times(within.rows.data() + i * n, ray.data(), n);
        if (within.row_lower[i] > -infinity && !(sum.value >= -tolerance * sum.size)) return false;
        if (within.row_upper[i] < infinity && !(sum.value <= tolerance * sum.size)) return false;
    }
    return true;
}

}  // namespace feed::solver
