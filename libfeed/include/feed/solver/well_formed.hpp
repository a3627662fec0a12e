#pragma once
// Whether a problem can be worked on at all.

#include <cstddef>
#include <span>

#include "feed/solver/problem.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

/// Whether every entry is finite: x - x is zero for a finite number and not a number otherwise.
inline bool all_finite(std::span<const double> values) {
    double s0 = 0, s1 = 0, s2 = 0, s3 = 0;
    std::size_t k = 0;
    for (; k + 4 <= values.size(); k += 4) {
        s0 += values[k] - values[k];
        s1 += values[k + 1] - values[k + 1];
        s2 += values[k + 2] - values[k + 2];
        s3 += values[k + 3] - values[k + 3];
    }
    for (; k < values.size(); ++k)
        s0 += values[k] - values[k];
    return (s0 + s1) + (s2 + s3) == 0;
}

/// Whether no lower limit is NaN or +infinity and no upper limit is NaN or -infinity.
inline bool limits_make_sense(std::span<const double> lower, std::span<const double> upper) {
    bool fine = true;
    for (std::size_t k = 0; k < lower.size(); ++k) {
        fine = fine && lower[k] < infinity && upper[k] > -infinity;
    }
    return fine;
}

inline Fault fault_of(const Polyhedron& within, const Workspace& workspace) {
    const std::size_t n = within.variable_count();
    const std::size_t m = within.row_count();
    if (within.upper.size() != n || within.row_upper.size() != m || within.rows.size() != n * m) {
        return Fault::sizes_differ;
    }
    if (n > workspace.max_variables() || m > workspace.max_rows()) {
        return Fault::workspace_too_small;
    }
    if (!all_finite(within.rows) || !limits_make_sense(within.lower, within.upper) ||
        !limits_make_sense(within.row_lower, within.row_upper)) {
        return Fault::not_finite;
    }
    return Fault::none;
}

inline Fault fault_of(const Problem& problem, const Workspace& workspace) {
    const std::size_t n = problem.within.variable_count();
    if ((!problem.hessian.empty() && problem.hessian.size() != n) ||
        (!problem.gradient.empty() && problem.gradient.size() != n)) {
        return Fault::sizes_differ;
    }
    const Fault fault = fault_of(problem.within, workspace);
    if (fault != Fault::none) return fault;
    if (!all_finite(problem.hessian) || !all_finite(problem.gradient)) return Fault::not_finite;
    for (const double h : problem.hessian) {
        if (h < 0) return Fault::negative_curvature;
    }
    return Fault::none;
}

/// Whether a lower limit lies above its upper limit: nothing can satisfy both.
inline bool limits_cross(const Polyhedron& within) {
    for (std::size_t j = 0; j < within.variable_count(); ++j) {
        if (within.lower[j] > within.upper[j]) return true;
    }
    for (std::size_t i = 0; i < within.row_count(); ++i) {
        if (within.row_lower[i] > within.row_upper[i]) return true;
    }
    return false;
}

}  // namespace feed::solver::detail
